"""Scenario to Model: everything that flies, spins, is timed or cut, built once for each powerplant."""
