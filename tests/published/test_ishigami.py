"""Shares of the inputs in the spread of the function of Ishigami and Homma.

T. Ishigami and T. Homma, An importance quantification technique in uncertainty analysis for computer models,
Proc. ISUMA '90, First Int. Symp. on Uncertainty Modelling and Analysis, 1990, pp. 398–403; the closed forms as in
A. Saltelli and others, Sensitivity Analysis, 2000, ch. 2. Mark M: from memory; the closed forms below are recomputed by
numerical integration in the test.

f = sin x1 + a sin² x2 + b x3⁴ sin x1, x uniform between −π and π, a = 7, b = 0.1:
S1 = 0.3139, S2 = 0.4424, S3 = 0; ST1 = 0.5576, ST2 = 0.4424, ST3 = 0.2437.
"""

import numpy as np

A, B = 7.0, 0.1
PRINTED = {"x1": ("0.3139", "0.5576"), "x2": ("0.4424", "0.4424"), "x3": ("0.0000", "0.2437")}


def test_the_printed_values_are_the_integrals(printed):
    """Midpoints of 400 cells: the variance of what is left of f when the other inputs are averaged out."""
    x = (np.arange(400) + 0.5) / 400 * 2.0 * np.pi - np.pi
    x1, x2, x3 = np.meshgrid(x, x[::50], x, indexing="ij")
    whole = np.sin(x1) + A * np.sin(x2) ** 2 + B * x3**4 * np.sin(x1)
    variance = whole.var()
    for column, (key, (alone, total)) in enumerate(PRINTED.items()):
        others = tuple(axis for axis in range(3) if axis != column)
        printed(float(whole.mean(axis=others).var() / variance), alone, row=f"first-order share of {key}")
        printed(float(1.0 - whole.mean(axis=column).var() / variance), total, row=f"total share of {key}")
