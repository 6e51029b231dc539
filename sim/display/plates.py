"""The two plates that hold the display together: the lead plate that carries the follower, and the base."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.cam_profile import rest_angle
from sim.display.parts import (
    SCREW_M,
    SMALL_SCREW_M,
    bearing_outside,
    cam_radius,
    contact_direction,
    guide_slots,
)
from sim.display.shapes import FlatPart, Hole, Scribe, Slot, hull, rounded_box
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray
    from sim.display.search import FoundCam

PLATE_M = 0.006
MOST_SWING_RAD = math.radians(200.0)
BELT_CENTRES_M = 0.130
"""From the cam's bearing to the propeller's where a toothed belt joins them. [m]"""


def plate_swing(display: Display) -> float:
    """Return the swing of the lead plate, the cam angle from no lead to the lead at flying speed. [rad]."""
    return display.window.lead_rad * display.cam_ratio


def _ring(display: Display, found: FoundCam) -> float:
    """Return the radius of the slot's centre line, large enough that the cam does not cover the wing nut. [m]."""
    return max(bearing_outside(display.cam.shaft_radius_m) / 2.0 + 0.014, cam_radius(display, found) + 0.010)


def _clamp(display: Display, found: FoundCam) -> float:
    """Return the direction of the clamp screw, a quarter turn behind the roller, which swings away from it. [rad]."""
    return contact_direction(display, found) + math.pi / 2.0


def lead_plate(display: Display, found: FoundCam) -> FlatPart:
    """Return the plate that swings about the cam's bearing and carries follower and lamp switch.

    The clamp screw stands in the base. The slot lets the plate swing clockwise, against the cam, by the lead at
    flying speed; the marks beside it are degrees of propeller.
    """
    bearing, ring = bearing_outside(display.cam.shaft_radius_m), _ring(display, found)
    start = _clamp(display, found)
    carried, circles = _slide(display, found) if display.follower.kind == "translating" else _pivot(display, found)
    swing = min(plate_swing(display), MOST_SWING_RAD)
    return FlatPart(
        "lead plate",
        PLATE_M,
        hull((0.0, 0.0, ring + 0.024), *circles),
        (Hole(0.0, 0.0, bearing, "outer ring of the ball bearing"), *carried),
        (_clamp_slot(ring, start, swing),) if swing > 0.0 else (),
        _degree_marks(display, ring, start, swing),
    )


def _clamp_slot(ring_m: float, start_rad: float, swing_rad: float) -> Slot:
    start, end = ((ring_m * math.cos(way), ring_m * math.sin(way)) for way in (start_rad, start_rad + swing_rad))
    return Slot(start, end, SCREW_M, "clamp screw", bend_m=ring_m)


def _slide(display: Display, found: FoundCam) -> tuple[tuple[Hole, ...], tuple[tuple[float, float, float], ...]]:
    """Return the holes for a slide, and the circles that the outline of the plate must enclose."""
    follower, lift = display.follower, display.cam.lift_m
    at = follower.offset_m
    rest = math.sqrt((found.base_radius_m + follower.roller_radius_m) ** 2 - at**2)
    screws = [rest + low + lift + 0.0015 for low in guide_slots(display)]
    far = screws[1] + lift + 0.034
    holes = [Hole(at, height, SCREW_M, "guide screw") for height in screws]
    switch = [Hole(at + side, far, SMALL_SCREW_M, "lamp switch") for side in (-0.010, 0.010)]
    return (*holes, *switch), ((at - 0.010, far, 0.008), (at + 0.010, far, 0.008))


def _pivot(display: Display, found: FoundCam) -> tuple[tuple[Hole, ...], tuple[tuple[float, float, float], ...]]:
    """Return the holes for an arm, and the circles that the outline of the plate must enclose."""
    follower = display.follower
    turned = math.pi - float(rest_angle(follower, found.base_radius_m)) - display.cam.lift_m / follower.arm_m
    reach = follower.arm_m + 0.030
    tip = (follower.pivot_m + reach * math.cos(turned), reach * math.sin(turned))
    switch = [Hole(tip[0] + side, tip[1], SMALL_SCREW_M, "lamp switch") for side in (-0.010, 0.010)]
    pivot = Hole(follower.pivot_m, 0.0, SCREW_M, "pivot pin")
    circles = ((follower.pivot_m, 0.0, 0.012), (tip[0] - 0.010, tip[1], 0.008), (tip[0] + 0.010, tip[1], 0.008))
    return (pivot, *switch), circles


def _degree_marks(display: Display, ring_m: float, start_rad: float, swing_rad: float) -> tuple[Scribe, ...]:
    """Return marks in tens of degrees of propeller beside the slot, and one at the lead at flying speed."""
    lead_deg = math.degrees(swing_rad / display.cam_ratio)
    step = 10 * math.ceil(1.0 / display.cam_ratio)
    whole = [
        float(mark) for mark in range(0, math.floor(lead_deg) + 1, step) if lead_deg - mark > 0.8 * step or not mark
    ]
    marks = whole + ([lead_deg] if lead_deg > 0.0 else [])
    ends = np.array([[ring_m + 0.004], [ring_m + 0.009]])
    leads_rad = map(math.radians, marks)
    return tuple(
        Scribe(ends * _way(start_rad + lead * display.cam_ratio), brief("lead_rad", lead, digits=3))
        for lead in leads_rad
    )


def _way(angle_rad: float) -> FloatArray:
    """Return a direction as a row."""
    return np.array([[math.cos(angle_rad), math.sin(angle_rad)]])


def base_plate(display: Display, found: FoundCam) -> FlatPart:
    """Return the base: the cam's bearing, the clamp screw of the lead plate, and the propeller's bearing if apart."""
    bearing, ring = bearing_outside(display.cam.shaft_radius_m), _ring(display, found)
    direct, way = math.isclose(display.cam_ratio, 1.0), _way(_clamp(display, found))
    holes = [
        Hole(0.0, 0.0, bearing, "bearing of cam and propeller" if direct else "cam bearing"),
        Hole(float(ring * way[0, 0]), float(ring * way[0, 1]), SCREW_M, "clamp screw of the lead plate"),
    ]
    half = max(display.cam.space_m / 2.0 + 0.020, ring + 0.046)
    left, right, low, high = -half, half, -half, half
    if not direct:
        low -= BELT_CENTRES_M
        holes.append(Hole(0.0, -BELT_CENTRES_M, bearing, "propeller bearing, toothed belt to the cam"))
    corners = [(x, y) for x in (left + 0.010, right - 0.010) for y in (low + 0.010, high - 0.010)]
    holes += [Hole(x, y, 0.0052, "screw to the backboard") for x, y in corners]
    pointer = Scribe(np.array([[ring + 0.026], [ring + 0.031]]) * way, "LEAD")
    return FlatPart("base", PLATE_M, rounded_box(left, low, right, high), tuple(holes), (), (pointer,))
