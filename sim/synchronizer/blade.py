"""How much of a turn one propeller blade takes away from a line of fire through the disc."""

from __future__ import annotations

import math
from typing import Literal

Action = Literal["interrupter", "impulse"]


def helix_rad(pitch_m: float, radius_m: float) -> float:
    """Return the angle between the blade and the plane of the disc at a radius, for a true helix.

    Parameters
    ----------
    pitch_m : float
        Advance in one turn without slip, 0 or more. [m]
    radius_m : float
        Distance from the shaft axis, above 0. [m]

    References
    ----------
    Jackman & Russell 1910: 7 ft diameter and 7 ft pitch give 17¾° at the tip.

    Examples
    --------
    >>> round(math.degrees(helix_rad(2.1336, 1.0668)), 2)
    17.66
    """
    return math.atan2(pitch_m, 2.0 * math.pi * radius_m)


def projected_width_m(chord_m: float, thickness_m: float, helix_angle_rad: float) -> float:
    """Return the width of the blade seen along the shaft: chord · cos β + thickness · sin β, in metres.

    The blade is taken as a rectangle, so the width is at most a few per cent too large: on the safe side.

    Examples
    --------
    >>> round(projected_width_m(0.20, 0.03, 0.0), 3)
    0.2
    """
    return chord_m * math.cos(helix_angle_rad) + thickness_m * math.sin(helix_angle_rad)


def blocked_arc_rad(width_m: float, bullet_diameter_m: float, radius_m: float) -> float:
    """Return the arc in which a round's centre would touch one blade, margins not counted.

    Parameters
    ----------
    width_m : float
        Width of the blade seen along the shaft at the bore line. [m]
    bullet_diameter_m : float
        Diameter of the round, 0 for its centre line alone. [m]
    radius_m : float
        Distance of the bore line from the shaft axis where it crosses the disc. [m]

    Returns
    -------
    float
        The whole arc 2 asin((width + diameter) / 2r), a full turn where the blade is wider than the circle. [rad]

    Examples
    --------
    >>> width = projected_width_m(0.20, 0.03, helix_rad(2.0, 0.5))
    >>> round(math.degrees(blocked_arc_rad(width, 0.0, 0.5)), 2)
    21.3
    """
    half_chord = (width_m + bullet_diameter_m) / (2.0 * radius_m)
    return 2.0 * math.pi if half_chord >= 1.0 else 2.0 * math.asin(half_chord)


def untimed_strike_share(blades: int, blocked_rad: float) -> float:
    """Return the share of rounds, fired at any instant without timing, that would meet a blade; at most 1.

    Examples
    --------
    >>> round(1.0 / untimed_strike_share(2, math.radians(10.0)), 6)
    18.0
    """
    return min(1.0, blades * blocked_rad / (2.0 * math.pi))
