"""Friction of a smooth surface along the stream, laminar ahead and turbulent behind."""

from __future__ import annotations

import math

LEAST_REYNOLDS = 2e4
"""Below it no correlation here holds; Reynolds numbers are taken as no less."""


def friction(reynolds: float, laminar: float = 0.0) -> float:
    """Return the mean friction coefficient of one side of a flat plate.

    Parameters
    ----------
    reynolds : float
        On the length of the plate; from 2e4 to 1e9, taken as the nearer end beyond.
    laminar : float
        Share of the length ahead of transition, 0 to 1.

    Notes
    -----
    The turbulent plate as if turbulent from its edge, less the friction of its fore part, plus the laminar friction
    there (Prandtl). Good to 3 % on a smooth plate; fabric, tape and paint are not smooth.

    References
    ----------
    Blasius 1908, 1.328/√R; Schlichting, Boundary-Layer Theory, Prandtl's 0.455/(log R)^2.58 (from memory).

    Examples
    --------
    >>> round(friction(6e6), 5)
    0.00326
    """
    turbulent = _turbulent(reynolds)
    if laminar <= 0.0:
        return turbulent
    fore = max(reynolds * laminar, LEAST_REYNOLDS)
    return turbulent + laminar * (1.328 / math.sqrt(fore) - _turbulent(fore))


def _turbulent(reynolds: float) -> float:
    return float(0.455 / math.log10(min(max(reynolds, LEAST_REYNOLDS), 1e9)) ** 2.58)
