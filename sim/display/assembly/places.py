"""Where the shafts, the cover and the guard stand, and the belts between the shafts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.display.assembly.lead import friction_direction
from sim.display.assembly.moving import swept_box
from sim.display.assembly.solid import whole_mm
from sim.display.assembly.stock import stock

if TYPE_CHECKING:
    from sim.display.assembly.data import Part
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.sold import Belts
    from sim.display.assembly.stock import Bearing
    from sim.display.display import Display

    Point = tuple[float, float]

WIRE_STRIP_M = 0.012
"""Height of the strip below all that swings, for wires and the mark of the lead. [m]"""
EDGE_M = 0.018
"""Width of the frame of the cover. [m]"""
HAND_M = 0.100
"""Gap that crushes no hand, ISO 13854. [m]"""
FINGER_M = 0.025
"""Gap that crushes no finger, ISO 13854. [m]"""
GRIP_M = 0.022
"""Diameter of the grip. [m]"""
ARM_END_M = 0.014
"""Radius of the end of the crank's arm round its grip. [m]"""
SAWN_M = 0.005
"""By which gaps between sawn boards are wider than they must be. [m]"""
CAM_TEETH = 24
"""Least teeth of the pulleys to the cam, whose play shifts the lamp the less, the larger they are: own limit."""
WALL_M = 0.0028
"""Least wall of a pulley's boss round its shaft, through which its pin is driven: common practice, no source. [m]"""
RATIO_TOLERANCE = 0.02
"""Most by which a belt may miss the ratio asked for."""


@dataclass(frozen=True, slots=True)
class Drive:
    """Two pulleys and the belt between them.

    Attributes
    ----------
    teeth : tuple of int
        Teeth of the driving and of the driven pulley.
    length_m : float
        Length of the belt. [m]
    centres_m : float
        Distance of the shafts. [m]
    """

    teeth: tuple[int, int]
    length_m: float
    centres_m: float

    @property
    def ratio(self) -> float:
        """Turns of the driven pulley in a turn of the driving one."""
        return self.teeth[0] / self.teeth[1]


def belt_drive(belts: Belts, ratio: float, least_teeth: int, least_m: float) -> Drive:
    """Return the smallest pulleys of the ratio nearest to that asked for, with the shortest belt that reaches.

    Parameters
    ----------
    belts : Belts
        Belts and pulleys sold.
    ratio : float
        Turns of the driven pulley in a turn of the driving one.
    least_teeth : int
        Least teeth whose boss leaves a wall round the shaft.
    least_m : float
        Least distance of the shafts. [m]

    Notes
    -----
    Distance C of pulleys of pitch radii R and r with a belt of length L: L = 2 C cos a + π (R + r) + 2 a (R − r),
    sin a = (R − r)/C.
    """
    pair = _nearest(belts, ratio, least_teeth)
    for length in belts.lengths_m:
        centres = _centres(length, *(each * belts.tooth_m / math.tau for each in pair))
        if centres >= least_m:
            return Drive(pair, length, centres)
    return Drive(
        pair, belts.lengths_m[-1], _centres(belts.lengths_m[-1], *(each * belts.tooth_m / math.tau for each in pair))
    )


def crank_ratio(display: Display) -> float:
    """Return the turns of the propeller in a turn of the crank, by the pulleys sold whose ratio is the nearest."""
    sold = stock(display.hardware)
    bearing = sold.bearing(2.0 * display.cam.shaft_radius_m)
    driving, driven = _nearest(sold.belts, display.handle.gear, _least_teeth(sold.belts, bearing))
    return driving / driven


def _least_teeth(belts: Belts, bearing: Bearing) -> int:
    """Return the least teeth whose boss leaves a wall round the shaft in a bearing."""
    return math.ceil(math.pi * (bearing.bore_m + 2.0 * WALL_M + belts.hub_m) / belts.tooth_m)


def _nearest(belts: Belts, ratio: float, least_teeth: int) -> tuple[int, int]:
    """Return the teeth of the smallest driving and driven pulley of the nearest ratio."""
    sizes = [each for each in belts.teeth if each >= least_teeth]
    pairs = [(first, second) for first in sizes for second in sizes]
    nearest = min(abs(math.log(first / second / ratio)) for first, second in pairs)
    good = [pair for pair in pairs if abs(math.log(pair[0] / pair[1] / ratio)) <= nearest + 1e-9]
    return min(good, key=sum)


def _centres(length_m: float, first_m: float, second_m: float) -> float:
    """Return the distance of two pulleys of these radii joined by a belt, 0 where it is too short. [m]."""
    small, large = sorted((first_m, second_m))

    def belt(centres: float) -> float:
        lean = math.asin((large - small) / centres)
        return 2.0 * centres * math.cos(lean) + math.pi * (small + large) + 2.0 * lean * (large - small)

    low, high = large - small + 1e-9, length_m
    if belt(low) > length_m:
        return 0.0
    for _ in range(80):
        middle = (low + high) / 2.0
        low, high = (middle, high) if belt(middle) < length_m else (low, middle)
    return low


@dataclass(frozen=True, slots=True)
class Places:
    """Where the shafts, the cover and the guard stand.

    Attributes
    ----------
    propeller_m, crank_m : tuple of float
        Axes of propeller and crank, x and y; that of the cam is the origin. [m]
    crank_drive : Drive
        From the crank to the propeller.
    cam_drive : Drive or None
        From the propeller to the cam, None where they share a shaft.
    cover_edges_m : tuple of float
        Left, low, right and high edge of the cover. [m]
    base_half_m : float
        Half the width of base and mast. [m]
    foot_m : float
        Top of the foot, y. [m]
    guard_half_m : float
        Half the inner width of the guard. [m]
    """

    propeller_m: Point
    crank_m: Point
    crank_drive: Drive
    cam_drive: Drive | None
    cover_edges_m: tuple[float, float, float, float]
    base_half_m: float
    foot_m: float
    guard_half_m: float

    @property
    def base_low_m(self) -> float:
        """Lower edge of base and rear plate. [m]."""
        return self.crank_m[1] - 0.070


def places(plan: Plan, moving: tuple[Part, ...]) -> Places:
    """Return where everything stands round the parts that the lead plate carries."""
    display, belts = plan.display, plan.stock.belts
    cover = _cover(plan, moving)
    least = _least_teeth(belts, plan.shaft)
    clear = max(0.110, plan.cap_m + 0.006 - cover[1])
    apart = None if plan.direct else belt_drive(belts, display.cam_ratio, max(least, CAM_TEETH), clear)
    propeller = (0.0, 0.0 if apart is None else -apart.centres_m)
    reach = display.handle.crank_radius_m + ARM_END_M if display.handle.kind == "crank" else 0.045
    lowest = min(cover[1], propeller[1] - plan.cap_m / 2.0)
    crank = belt_drive(belts, display.handle.gear, least, propeller[1] - lowest + reach + FINGER_M + 0.005)
    axis = (0.0, propeller[1] - crank.centres_m)
    half = display.propeller.diameter_m / 2.0 + display.enclosure.blade_gap_m
    foot = min(propeller[1] - half, axis[1] - reach - HAND_M - SAWN_M)
    wide = max(0.080, -cover[0], cover[2])
    return Places(propeller, axis, crank, apart, cover, wide, foot, half)


def _cover(plan: Plan, moving: tuple[Part, ...]) -> tuple[float, float, float, float]:
    """Return the edges of the cover round all that swings below it, and round the friction screw."""
    left, low, right, high = swept_box(moving, plan.swing_rad)
    way, gap = friction_direction(), 0.004 + EDGE_M
    low = min(low, plan.ring_m * math.sin(way) - 0.009, -plan.cam_radius_m) - WIRE_STRIP_M
    return tuple(math.copysign(whole_mm(abs(edge)), edge) for edge in (left - gap, low - gap, right + gap, high + gap))  # type: ignore[return-value]
