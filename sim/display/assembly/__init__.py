"""The whole display, part by part: place along the shaft, material, mass, fit, fasteners, and what moves with what."""
