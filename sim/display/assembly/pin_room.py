"""Room to press the cross pin of the cam hub: its drift and prop pass between the lead plate and what stands on it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from shapely import LineString, get_coordinates, union_all

from sim.display.assembly.interference import shape_of
from sim.display.assembly.order import steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from shapely import Polygon

    from sim.display.assembly.data import Assembly

DRIFT_M = 0.006
"""Diameter of drift and prop: common practice, no source. [m]"""
CLAMP_M = 0.010
"""Half the width of the pads of a screw clamp, by which drift and prop stand beyond the rim: common practice, no
source. [m]"""
FAR_M = 0.120
"""How far from the shaft the way of drift and prop is looked at. [m]"""
WHOLE_M = 0.001
"""Drift and prop are cut to whole steps of this. [m]"""
STEP_DEG = 2


@dataclass(frozen=True, slots=True)
class PinRoom:
    """Where the cross pin of the cam hub is pressed in.

    Attributes
    ----------
    angle_rad : float
        Of the pin in the middle of the widest clear sector, lead plate at lead 0, from the horizontal at the right,
        anticlockwise as seen from the front, 0 to pi. [rad]
    drift_m : float
        Least length of drift and of prop, from the cam hub to beyond the lead plate on either side. [m]
    clamp_open_m : float
        Over prop, cam hub, a cross pin as long as it is wide, and drift, which the screw clamp spans. [m]
    """

    angle_rad: float
    drift_m: float
    clamp_open_m: float


def pin_room(assembly: Assembly) -> PinRoom | None:
    """Return along which angle drift and prop reach the cam hub, and how long they are; None where none is clear."""
    hub = assembly.part("cam hub")
    middle_m, radius_m = (hub.z_from_m + hub.z_to_m) / 2.0, float(hub.slabs[0].outline_m[:, 0].max())
    barred = union_all(list(_standing(assembly, middle_m)))
    clear = [
        not any(_way(degrees + side, radius_m).intersects(barred) for side in (0, 180))
        for degrees in range(0, 180, STEP_DEG)
    ]
    if not any(clear):
        return None
    angle_deg = _widest(clear)
    long_m = WHOLE_M * math.ceil((_rim(assembly, angle_deg) + CLAMP_M - radius_m) / WHOLE_M)
    return PinRoom(math.radians(angle_deg), long_m, 2.0 * (long_m + radius_m) + 2.0 * radius_m)


def _standing(assembly: Assembly, middle_m: float) -> Iterator[Polygon]:
    """Yield the outline of everything that stands before the step of the cam and meets drift or prop."""
    for step, taken in steps(assembly):
        if step.title == "Cam":
            return
        for each in taken:
            for slab in each.slabs:
                if slab.z_from_m < middle_m + DRIFT_M / 2.0 and middle_m - DRIFT_M / 2.0 < slab.z_to_m:
                    yield shape_of(slab, each)


def _way(angle_deg: float, start_m: float) -> Polygon:
    """Return the way of a drift outward from the cam hub."""
    x, y = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    return LineString([(start_m * x, start_m * y), (FAR_M * x, FAR_M * y)]).buffer(DRIFT_M / 2.0, cap_style="flat")


def _widest(clear: list[bool]) -> float:
    """Return the middle of the widest run of clear angles, the last joined to the first. [°]."""
    count = len(clear)
    runs = [
        (next((far for far in range(count) if not clear[(start + far) % count]), count), start)
        for start in range(count)
        if clear[start] and not clear[start - 1]
    ]
    wide, start = max(runs, default=(count, 0))
    return (start + (wide - 1) / 2.0) * STEP_DEG % 180.0


def _rim(assembly: Assembly, angle_deg: float) -> float:
    """Return how far from the shaft the lead plate reaches below drift and prop, the farther side. [m]."""
    plate = assembly.part("lead plate")
    whole = shape_of(plate.slabs[0], plate)
    ways = (whole.intersection(_way(angle_deg + side, 0.0)) for side in (0, 180))
    return max(float(np.hypot(*get_coordinates(way).T).max()) for way in ways)
