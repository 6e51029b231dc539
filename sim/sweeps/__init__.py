"""Many models: grids, sampling, sensitivity, and the workers that compute them."""
