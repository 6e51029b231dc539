"""The flat parts of the display: cam, follower, the lead plate that carries it, and the base with its bearings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.cam_profile import cutter_path, profile, rest_angle
from sim.display.outline import cut_angles, path_at, points
from sim.display.schedule import schedule_of
from sim.display.shapes import CHORD_ERROR_M, FlatPart, Hole, Scribe, Slot, hull
from sim.units.convert import MM_PER_M
from sim.units.text import fixed

if TYPE_CHECKING:
    from sim.display.cam_profile import RollerPath
    from sim.display.display import Display
    from sim.display.rise_laws import FloatArray
    from sim.display.search import FoundCam

SCREW_M = 0.0042
SMALL_SCREW_M = 0.0032
SLIDE_M = 0.004
_BEARINGS_MM = ((5, 16), (6, 19), (8, 22), (10, 26), (12, 28), (15, 32), (17, 35), (20, 42))
"""Bore and outside diameter of deep-groove ball bearings, ISO 15. [mm]"""


def bearing_outside(shaft_radius_m: float) -> float:
    """Return the outside diameter of the ball bearing for a shaft, ISO 15 dimensions. [m]."""
    bore_mm = 2.0 * shaft_radius_m * MM_PER_M
    outside = next((outer for inner, outer in _BEARINGS_MM if inner >= bore_mm - 1e-9), bore_mm + 22.0)
    return outside / MM_PER_M


def cam_part(display: Display, found: FoundCam) -> FlatPart:
    """Return the cam, seen so that it turns anticlockwise, with its marks for no lead and the lead at flying speed."""
    schedule, roller = schedule_of(display, found), display.follower.roller_radius_m
    cutter = display.cam.cutter_radius_m
    size = {"lift_m": display.cam.lift_m, "base_radius_m": found.base_radius_m}

    def path(inset_m: float) -> RollerPath:
        cuts = cut_angles(schedule, display.follower, **size, chord_error_m=CHORD_ERROR_M, inset_m=inset_m)
        return path_at(schedule, display.follower, cuts, **size)

    outline, mill = profile(path(roller), roller), cutter_path(path(roller - cutter), roller, cutter)
    shaft = display.cam.shaft_radius_m
    holes = [Hole(0.0, 0.0, 2.0 * shaft, "shaft")]
    if found.base_radius_m - shaft >= 0.010:
        pitch = (found.base_radius_m + shaft) / 2.0
        holes += [Hole(side * pitch, 0.0, SMALL_SCREW_M, "screw to the hub") for side in (-1.0, 1.0)]
    lead = display.window.lead_rad * display.cam_ratio
    contact = contact_direction(display, found)
    marks = (("0", contact), (f"LEAD {fixed('lead_rad', lead, 'si', 1)}", contact - lead))
    ray = np.array([[shaft + 0.002], [found.base_radius_m - 0.001]])
    scribes = [Scribe(ray * np.array([[math.cos(way), math.sin(way)]]), label, along=True) for label, way in marks]
    return FlatPart("cam", display.cam.face_width_m, points(outline), tuple(holes), (), tuple(scribes), points(mill))


def cam_radius(display: Display, found: FoundCam) -> float:
    """Return the radius of the circle the cam sweeps. [m]."""
    turn = np.linspace(0.0, 2.0 * math.pi, 1441)
    path = path_at(
        schedule_of(display, found),
        display.follower,
        turn,
        lift_m=display.cam.lift_m,
        base_radius_m=found.base_radius_m,
    )
    return float(np.max(np.abs(profile(path, display.follower.roller_radius_m))))


def contact_direction(display: Display, found: FoundCam) -> float:
    """Return the direction from the cam's centre to the roller when it is down. [rad]."""
    follower = display.follower
    prime = found.base_radius_m + follower.roller_radius_m
    if follower.kind == "translating":
        return math.acos(follower.offset_m / prime)
    rest = float(rest_angle(follower, found.base_radius_m))
    return math.atan2(follower.arm_m * math.sin(rest), follower.pivot_m - follower.arm_m * math.cos(rest))


def follower_part(display: Display) -> FlatPart:
    """Return the slide or the arm; the roller's pin is at the origin of a slide, an arm's pivot at that of an arm."""
    if display.follower.kind == "swinging":
        return _arm(display.follower.arm_m)
    half, travel = 0.008, display.cam.lift_m + 0.003
    slots = tuple(Slot((0.0, low), (0.0, low + travel), SCREW_M, "guide screw") for low in guide_slots(display))
    top = guide_slots(display)[1] + travel + 0.022
    holes = (Hole(0.0, 0.0, SCREW_M, "roller pin"), Hole(0.0, top - 0.008, SMALL_SCREW_M, "lamp flag and spring seat"))
    return FlatPart("follower", SLIDE_M, _bar(half, -half, top), holes, slots)


def _bar(half: float, bottom: float, top: float) -> FloatArray:
    """Return the outline of the slide: round below, where the roller sits, and rounded above."""
    return hull((0.0, bottom + half, half), (half - 0.003, top - 0.003, 0.003), (0.003 - half, top - 0.003, 0.003))


def guide_slots(display: Display) -> tuple[float, float]:
    """Return the distances from the roller's pin to the lower ends of the two guide slots of a slide. [m]."""
    first = display.follower.roller_radius_m + 0.008
    return first, first + display.cam.lift_m + 0.003 + 0.016


def _arm(arm_m: float) -> FlatPart:
    """Return the arm of a swinging follower."""
    tip = arm_m + 0.018
    holes = (
        Hole(0.0, 0.0, SCREW_M, "pivot pin"),
        Hole(arm_m, 0.0, SCREW_M, "roller pin"),
        Hole(arm_m / 2.0, 0.0, SMALL_SCREW_M, "spring seat"),
        Hole(tip - 0.002, 0.0, SMALL_SCREW_M, "lamp flag"),
    )
    return FlatPart("follower", SLIDE_M, hull((0.0, 0.0, 0.009), (arm_m, 0.0, 0.008), (tip, 0.0, 0.006)), holes)


def follower_at(display: Display, found: FoundCam) -> tuple[float, float, float]:
    """Return place (x, y) and angle of the follower's origin while it is down. [m], [rad]."""
    follower = display.follower
    if follower.kind == "swinging":
        return follower.pivot_m, 0.0, math.pi - float(rest_angle(follower, found.base_radius_m))
    prime = found.base_radius_m + follower.roller_radius_m
    return follower.offset_m, math.sqrt(prime**2 - follower.offset_m**2), 0.0
