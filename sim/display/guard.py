"""Limits that keep visitors from harm: openings, gaps, reach, force, voltage, flashes, contrast."""

from __future__ import annotations

import math
from typing import Literal

from sim.errors import NoAnswerError
from sim.units.convert import MM_PER_M
from sim.units.text import brief

Shape = Literal["slot", "square", "round"]
Place = Literal["public", "workshop"]

_COLUMNS: tuple[Shape, ...] = ("slot", "square", "round")
_REACH_MM: dict[Place, tuple[tuple[float, tuple[float, float, float]], ...]] = {
    "workshop": (
        (4, (2, 2, 2)),
        (6, (10, 5, 5)),
        (8, (20, 15, 5)),
        (10, (80, 25, 20)),
        (12, (100, 80, 80)),
        (20, (120, 120, 120)),
        (30, (850, 120, 120)),
        (40, (850, 200, 120)),
        (120, (850, 850, 850)),
    ),
    "public": (
        (4, (2, 2, 2)),
        (6, (20, 10, 10)),
        (8, (40, 30, 20)),
        (10, (80, 60, 60)),
        (12, (100, 80, 80)),
        (20, (900, 120, 120)),
        (30, (900, 550, 120)),
        (100, (900, 900, 900)),
    ),
}
"""Opening up to -> safety distance for a slot, a square and a round hole: ISO 13857 table 4 (aged 14 and over,
workshop) and table 5 (aged 3 and over, public). [mm]"""
SHORT_SLOT_MM = 65.0

FINGER_GAP_M = 0.025
"""Least gap that crushes no finger, ISO 13854. [m]"""
TIP_FORCE_LIMIT_N = 75.0
ENERGY_LIMIT_J = 4.0
ENERGY_LIMIT_INTERLOCKED_J = 10.0
"""Force and energy of a moving part that may meet a person; the larger energy with a device that stops it at once:
ISO 14120, and EN 953 before it. [N], [J]"""
REACH_LOW_M = 0.380
REACH_HIGH_M = 1.220
OPERATING_FORCE_LIMIT_N = 22.2
"""Reach from a wheelchair and force of one hand: ADA Standards 2010, 308 and 309.4. [m], [N]"""
TOUCHABLE_V = {"ac": 25.0, "dc": 60.0}
"""Voltage that may be touched in a dry place, IEC 61140. [V]"""
FLASHES_PER_S = 3.0
"""Most flashes a second, WCAG 2.x success criterion 2.3.1. [1/s]"""
TEXT_CONTRAST = 4.5
"""Least contrast of text, WCAG 2.x success criterion 1.4.3."""


def safety_distance(opening_m: float, shape: Shape, place: Place, slot_length_m: float = math.inf) -> float:
    """Return how far behind an opening of a guard the nearest moving part must be. [m].

    Parameters
    ----------
    opening_m : float
        Width of a slot, side of a square or diameter of a round hole, above 0. [m]
    shape : str
        ``slot``, ``square`` or ``round``.
    place : str
        ``public`` where children from 3 years come, ``workshop`` for people of 14 and over.
    slot_length_m : float
        Length of a slot; in a workshop one of 65 mm or shorter stops the arm at the thumb. [m]

    Raises
    ------
    NoAnswerError
        When the opening is larger than any the standard allows.

    Notes
    -----
    Between two rows the larger distance counts. The table's numbers must be checked in the standard before cutting.

    References
    ----------
    ISO 13857, tables 4 and 5.

    Examples
    --------
    >>> safety_distance(0.006, "slot", "public")
    0.02
    """
    rows = _REACH_MM[place]
    opening_mm = opening_m * MM_PER_M
    for most_mm, distances in rows:
        if opening_mm <= most_mm + 1e-9:
            short = place == "workshop" and shape == "slot" and slot_length_m <= SHORT_SLOT_MM / MM_PER_M
            if short and most_mm == 30:
                return 0.200
            return distances[_COLUMNS.index(shape)] / MM_PER_M
    message = (
        f"a guard opening of {brief('guard_opening_m', opening_m)} lets a whole person's arm through; ISO 13857 knows "
        f"none above {brief('guard_opening_m', largest_opening(place))}, so take a smaller opening"
    )
    raise NoAnswerError(message)


def widest_opening(distance_m: float, shape: Shape, place: Place) -> float:
    """Return the widest opening allowed at a distance, 0 where none is. [m]."""
    fits = [most for most, far in _REACH_MM[place] if far[_COLUMNS.index(shape)] <= distance_m * MM_PER_M + 1e-9]
    return max(fits, default=0.0) / MM_PER_M


def largest_opening(place: Place) -> float:
    """Return the largest opening that the standard allows at any distance. [m]."""
    return _REACH_MM[place][-1][0] / MM_PER_M


def most_crank_speed(flashes_per_turn: float) -> float:
    """Return the fastest crank at which the lamp flashes no more than three times a second. [rad/s]."""
    return FLASHES_PER_S / flashes_per_turn * 2.0 * math.pi


def contrast(ink: str, paper: str) -> float:
    """Return the contrast of two colours written ``#rrggbb``, 1 to 21.

    References
    ----------
    WCAG 2.x, relative luminance and contrast ratio.

    Examples
    --------
    >>> contrast("#000000", "#ffffff")
    21.0
    """
    light, dark = sorted((_luminance(ink), _luminance(paper)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[start : start + 2], 16) / 255.0 for start in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
