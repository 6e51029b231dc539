"""Student's t: how far a mean of few values may lie from the truth."""

from __future__ import annotations

from math import atan, cos, gamma, inf, pi, sin, sqrt
from statistics import NormalDist

MOST_IN_SERIES = 100.0
"""Whole degrees of freedom summed term by term here; for others a library is loaded, which takes long."""


def student_95(freedoms: float) -> float:
    """Return how many standard errors each way hold 95 in 100.

    Parameters
    ----------
    freedoms : float
        Degrees of freedom of the standard error, above 0; infinite for one that is known.

    Notes
    -----
    Newton's method on a probability that is concave above 0, begun below the root: it never passes it.

    Examples
    --------
    >>> round(student_95(2.0), 3)
    4.303
    """
    reach = NormalDist().inv_cdf(0.975)
    if freedoms == inf:
        return reach
    if freedoms > MOST_IN_SERIES or freedoms % 1.0:
        from scipy.special import stdtrit

        return float(stdtrit(freedoms, 0.975))
    step = reach
    while step > 1e-14 * reach:
        step = (0.95 - _within(reach, int(freedoms))) / _density(reach, freedoms)
        reach += step
    return reach


def _within(reach: float, freedoms: int) -> float:
    """Return the probability within ``reach`` each way (Abramowitz and Stegun 26.7.3, 26.7.4, from memory)."""
    angle = atan(reach / sqrt(freedoms))
    odd = freedoms % 2
    term = cos(angle) if odd else 1.0
    series = 0.0
    for power in range(odd, freedoms - 1, 2):
        series += term
        term *= cos(angle) ** 2 * (power + 1) / (power + 2)
    return (2.0 / pi) * (angle + sin(angle) * series) if odd else sin(angle) * series


def _density(reach: float, freedoms: float) -> float:
    """Return by how much that probability grows with the reach."""
    middle = gamma(0.5 * (freedoms + 1.0)) / (gamma(0.5 * freedoms) * sqrt(freedoms * pi))
    return float(2.0 * middle * (1.0 + reach**2 / freedoms) ** (-0.5 * (freedoms + 1.0)))
