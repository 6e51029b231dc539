"""Shares of the inputs in the spread of the function of Ishigami and Homma.

T. Ishigami and T. Homma, An importance quantification technique in uncertainty analysis for computer models,
Proc. ISUMA '90, First Int. Symp. on Uncertainty Modelling and Analysis, 1990, pp. 398–403; the closed forms as in
A. Saltelli and others, Sensitivity Analysis, 2000, ch. 2. Mark M: from memory; the closed forms below are recomputed by
numerical integration in the test.

f = sin x1 + a sin² x2 + b x3⁴ sin x1, x uniform between −π and π, a = 7, b = 0.1:
S1 = 0.3139, S2 = 0.4424, S3 = 0; ST1 = 0.5576, ST2 = 0.4424, ST3 = 0.2437.
"""

import numpy as np
import pytest
from scipy.special import ndtr

from sim.studies.draws import halves, mixed
from sim.studies.shares import shares_of

A, B = 7.0, 0.1
PRINTED = {"x1": (0.3139, 0.5576), "x2": (0.4424, 0.4424), "x3": (0.0, 0.2437)}


def ishigami(x):
    return np.sin(x[0]) + A * np.sin(x[1]) ** 2 + B * x[2] ** 4 * np.sin(x[0])


def test_the_printed_values_are_the_integrals():
    """Midpoints of 400 cells: the variance of what is left of f when the other inputs are averaged out."""
    x = (np.arange(400) + 0.5) / 400 * 2.0 * np.pi - np.pi
    whole = ishigami(np.meshgrid(x, x[::50], x, indexing="ij"))
    variance = whole.var()
    alone = [whole.mean(axis=axes).var() / variance for axes in ((1, 2), (0, 2), (0, 1))]
    without = [1.0 - whole.mean(axis=axis).var() / variance for axis in range(3)]
    assert [(round(s, 4), round(t, 4)) for s, t in zip(alone, without, strict=True)] == [
        (0.3139, 0.5576),
        (0.4424, 0.4424),
        (0.0, 0.2437),
    ]


@pytest.mark.parametrize("sampling", ["latin", "sobol"])
def test_our_draws_recover_them(sampling, printed):
    draws = 2**14
    first, second = halves(3, draws, sampling, seed=1)
    every = np.concatenate((first, second, *(mixed(first, second, column) for column in range(3))))
    uniform = (2.0 * ndtr(every) - 1.0) * np.pi
    found = {share.key: share for share in shares_of(ishigami(uniform.T), list(PRINTED), draws)}
    drawn = {"within": 0.025, "why": f"{draws} draws"}
    for key, (alone, total) in PRINTED.items():
        printed(found[key].first_order, f"{alone:.4f}", row=f"{sampling}: first-order share of {key}", **drawn)
        printed(found[key].total_order, f"{total:.4f}", row=f"{sampling}: total share of {key}", **drawn)
