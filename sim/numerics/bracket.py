"""Roots of many functions of one variable at once, each in a bracket that it never leaves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

MAX_STEPS: Final = 200
"""More than bisection alone needs for the last bit of a float."""


def bracketed_roots(residual: Callable[[Array], Array], low: Array, high: Array, *, tolerance: float = 1e-13) -> Array:
    """Return a root of each function between two values at which its signs differ.

    Parameters
    ----------
    residual : function
        Array of values -> array of residuals of the same shape; continuous.
    low, high : array
        Ends of the brackets, of one shape.
    tolerance : float
        Half the bracket left at the end, in the unit of the variable.

    Returns
    -------
    array
        The roots; where both ends have the same sign, the end with the smaller residual.

    Notes
    -----
    Inverse quadratic interpolation where it is safe, bisection elsewhere.

    References
    ----------
    Chandrupatla, Advances in Engineering Software 28, 1997, pp. 145-149.
    """
    a, b = np.array(high, float), np.array(low, float)
    at_a, at_b = residual(a), residual(b)
    c, at_c = a.copy(), at_a.copy()
    enclosed = np.sign(at_a) != np.sign(at_b)
    share = np.full(a.shape, 0.5)
    best = np.where(np.abs(at_a) < np.abs(at_b), a, b)
    for _ in range(MAX_STEPS):
        x = a + share * (b - a)
        at_x = residual(x)
        same = np.sign(at_x) == np.sign(at_a)
        c, at_c = np.where(same, a, b), np.where(same, at_a, at_b)
        b, at_b = np.where(same, b, a), np.where(same, at_b, at_a)
        a, at_a = x, at_x
        best = np.where(enclosed, np.where(np.abs(at_a) < np.abs(at_b), a, b), best)
        width = np.abs(b - a)
        if not (enclosed & (width > 2.0 * tolerance) & (at_a != 0.0) & (at_b != 0.0)).any():
            break
        share = _next_share((a, b, c), (at_a, at_b, at_c))
        least = np.minimum(0.5, tolerance / np.maximum(width, tolerance))
        share = np.clip(share, least, 1.0 - least)
    return best


def _next_share(x: tuple[Array, Array, Array], f: tuple[Array, Array, Array]) -> Array:
    """Return where to look next, as a share of the way from a to b."""
    (a, b, c), (at_a, at_b, at_c) = x, f
    with np.errstate(divide="ignore", invalid="ignore"):
        xi, phi = (a - b) / (c - b), (at_a - at_b) / (at_c - at_b)
        inverse = at_a / (at_b - at_a) * at_c / (at_b - at_c)
        inverse += (c - a) / (b - a) * at_a / (at_c - at_a) * at_b / (at_c - at_b)
        safe = (phi**2 < xi) & ((1.0 - phi) ** 2 < 1.0 - xi) & np.isfinite(inverse)
    return np.where(safe, inverse, 0.5)
