"""Figures: each ``draw(answer, units)`` draws a study's answer and computes nothing."""
