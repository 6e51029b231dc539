"""Figures: each ``plot_x(result, …)`` draws a study's result and computes nothing."""
