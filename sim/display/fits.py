"""Limits of size by ISO 286 of the classes that the display uses, so that a drawing can say them in numbers."""

from __future__ import annotations

import re

from sim.units.convert import mm

MICROMETRE = 1e-6
UP_TO_MM = (3.0, 6.0, 10.0, 18.0, 30.0, 50.0, 80.0)
"""Upper ends of the ranges of nominal sizes; the first begins above 0. [mm]"""
GRADES = {
    6: (6, 8, 9, 11, 13, 16, 19),
    7: (10, 12, 15, 18, 21, 25, 30),
    8: (14, 18, 22, 27, 33, 39, 46),
    9: (25, 30, 36, 43, 52, 62, 74),
    11: (60, 75, 90, 110, 130, 160, 190),
    12: (100, 120, 150, 180, 210, 250, 300),
    14: (250, 300, 360, 430, 520, 620, 740),
}
"""Grade -> width of the tolerance in each range: ISO 286-1, table 1. [µm]"""
RUNNING = (-6, -10, -13, -16, -20, -25, -30)
"""Upper deviation of a shaft of class f in each range: ISO 286-1. [µm]"""
_CLASS = re.compile(r"(H|h|f)(\d+)")


def limits(fit: str, size_m: float) -> tuple[float, float]:
    """Return lower and upper deviation of a size from its nominal one. [m].

    Parameters
    ----------
    fit : str
        ``H`` (a hole), ``h`` or ``f`` (a shaft) and a grade: 6, 7, 8, 9, 11, 12 or 14.
    size_m : float
        Nominal size, above 0 and at most 0.08. [m]

    Raises
    ------
    KeyError
        For a class or a size that is not in the tables: a mistake of ours, never of the user.

    Examples
    --------
    >>> [round(1e6 * each) for each in limits("H7", 0.010)], [round(1e6 * each) for each in limits("f7", 0.041)]
    ([0, 15], [-50, -25])
    """
    found = _CLASS.fullmatch(fit)
    row = next((number for number, most in enumerate(UP_TO_MM) if mm(size_m) <= most + 1e-6), None)
    if found is None or row is None or int(found[2]) not in GRADES:
        raise KeyError(fit, size_m)
    wide = GRADES[int(found[2])][row] * MICROMETRE
    if found[1] == "H":
        return 0.0, wide
    upper = RUNNING[row] * MICROMETRE if found[1] == "f" else 0.0
    return upper - wide, upper
