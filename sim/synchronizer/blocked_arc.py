"""The arc of a turn for which one propeller blade blocks a line of fire through the disc.

On the edges: a round that passes exactly at the edge of the blocked arc is *clear*, the clear arc has both its ends; so
too at the edge of the margin. A cam is *open* from its opening instant on and *shut* from its closing instant on: a gun
that becomes ready exactly as it shuts waits for the next opening. So everywhere: windows, rate, bursts, stage, display.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from collections.abc import Sequence

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


@dataclass(frozen=True, slots=True)
class BoreLine:
    """Where a line of fire crosses the disc.

    Attributes
    ----------
    radius_m : float
        From the shaft axis. [m]
    lean_rad : float
        Sideways from straight above the shaft, right positive seen from the cockpit: the propeller angle that is
        called 0 lies there. [rad]
    """

    radius_m: float
    lean_rad: float


def bore_line(height_m: float, offset_m: float, muzzle_to_disc_m: float, converge_m: float | None = None) -> BoreLine:
    """Return where the bore line of a gun mounted to one side crosses the disc.

    Parameters
    ----------
    height_m : float
        Of the bore line above the shaft axis, at the disc. [m]
    offset_m : float
        Of the muzzle to the right of the shaft axis, seen from the cockpit. [m]
    muzzle_to_disc_m : float
        Along the line of flight. [m]
    converge_m : float, optional
        Distance ahead of the muzzle at which the bore line meets the plane of symmetry; left out, it never does. [m]

    Examples
    --------
    >>> round(bore_line(0.4, 0.3, 1.0).radius_m, 3)
    0.5
    """
    at_disc_m = offset_m * (1.0 - muzzle_to_disc_m / converge_m) if converge_m else offset_m
    return BoreLine(math.hypot(height_m, at_disc_m), math.atan2(at_disc_m, height_m))


def flex_rad(flex_m: float, radius_m: float) -> float:
    """Return the angle by which a blade may bend in the plane of the disc, to each side, in radians."""
    return math.asin(min(1.0, flex_m / radius_m))


def at_radius(radius_m: float, radii_m: Sequence[float], values: Sequence[float]) -> float:
    """Return a measure of the blade at a radius from a table along it: straight lines between its rows.

    Parameters
    ----------
    radius_m : float
        Where it is wanted; beyond the table the nearest row holds. [m]
    radii_m, values : sequence of float
        The rows, radii ascending.

    Examples
    --------
    >>> round(at_radius(0.5, (0.4, 0.6), (0.20, 0.18)), 3)
    0.19
    """
    if radius_m <= radii_m[0]:
        return values[0]
    for (low, first), (high, last) in pairwise(zip(radii_m, values, strict=True)):
        if radius_m <= high:
            return first + (last - first) * (radius_m - low) / (high - low)
    return values[-1]
