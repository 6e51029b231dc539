"""Numerical methods: recorded functions and their kernels, differential equations, systems of equations.

`viz/handbook/numerics.md` explains them with a worked example.
"""
