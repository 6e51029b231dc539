"""The follower with its roller, pin, flag and spring seat: a slide or an arm, drawn in its own axes.

A slide has its origin at the roller's centre and y along its motion; an arm has its origin at the pivot and x toward
the roller, and rises toward −y.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.data import Slab
from sim.display.assembly.plan import SLACK_M
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import bought, box, flat, joined, made, ring
from sim.display.parts import follower_at
from sim.display.shapes import Hole, Slot, arc, hull
from sim.units.text import amount

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.solid import Placing
    from sim.display.rise_laws import FloatArray

    Point = tuple[float, float]

SLOT_GAP_M = 0.022
"""Between the two slots of a slide, where its flag is screwed on. [m]"""
STOP_M = 0.0015
"""Travel of the follower beyond its lift, either way. [m]"""
TIP_GAP_M = 0.0003
"""By which the tip that stands in the spring is thinner than the inside of its coils. [m]"""
PROUD_M = 0.0032
"""How far the end of the roller's pin may stand out behind the follower. [m]"""
FLAG_M = 0.007
"""Height of the flag. [m]"""
FLAG_SET_M = 0.001
"""By which the flag is set along its motion, either way. [m]"""
EAR_M = 0.013
"""From the middle of an arm to that of its flag, which clears the cam there. [m]"""
PAD_M = 0.011
"""From the middle of an arm to the seat of its spring. [m]"""


def placed(plan: Plan) -> tuple[Point, float]:
    """Return where the follower's origin stands in the display, and how far the follower is turned. [m], [rad]."""
    x, y, angle = follower_at(plan.display, plan.found)
    return about(plan, (x, y)), angle + plan.tilt_rad


def about(plan: Plan, point_m: Point) -> Point:
    """Return a point of the untilted lead plate in the display. [m]."""
    cosine, sine = math.cos(plan.tilt_rad), math.sin(plan.tilt_rad)
    return cosine * point_m[0] - sine * point_m[1], sine * point_m[0] + cosine * point_m[1]


def half_width(plan: Plan) -> float:
    """Return half the width of a slide. [m]."""
    return max(0.007, plan.pin.diameter_m / 2.0 + 0.004)


def bush(plan: Plan) -> float:
    """Return the diameter on which the follower is guided. [m]."""
    return plan.stock.threads["medium"].diameter_m + 0.002


def guides(plan: Plan) -> tuple[float, float]:
    """Return the distances from the roller to the lower ends of the two slots of a slide. [m]."""
    first = plan.display.follower.roller_radius_m + 0.008
    return first, first + travel(plan) + SLOT_GAP_M


def travel(plan: Plan) -> float:
    """Return the travel of the follower from stop to stop. [m]."""
    return plan.display.cam.lift_m + 2.0 * STOP_M


def spring_station(plan: Plan) -> Point:
    """Return where the spring stands on the follower: along its length, and along its motion. [m]."""
    if plan.slides:
        return 0.0, guides(plan)[1] + travel(plan) + 0.008
    return plan.display.follower.arm_m * plan.display.spring_ratio, PAD_M


def flag_station(plan: Plan) -> Point:
    """Return the middle of the flag where the switch senses it, across and along its motion, follower down. [m]."""
    if plan.slides:
        return half_width(plan) + 0.014, guides(plan)[0] + travel(plan) + SLOT_GAP_M / 2.0
    return plan.display.follower.arm_m + 0.050, EAR_M


def own(plan: Plan, across_m: float, along_m: float) -> Point:
    """Return a point in the follower's own axes from its place across (along an arm) and along its motion. [m]."""
    return (across_m, along_m) if plan.slides else (across_m, -along_m)


def follower_parts(plan: Plan) -> tuple[tuple[Part, ...], tuple[Fastener, ...]]:
    """Return all that moves with the follower, and its screws."""
    at, turn = placed(plan)
    small, slides = plan.stock.threads["small"], plan.slides
    pin = (0.0, 0.0) if slides else (plan.display.follower.arm_m, 0.0)
    flag_holes = _flag_holes(plan)
    tapped = Hole(*pin, plan.pin.diameter_m, "roller pin", f"tapped {plan.pin.name}")
    threads = (Hole(x, y, small.diameter_m, "flag", f"tapped {small.name}") for x, y in flag_holes)
    holes, slots = (tapped, *threads), tuple[Slot, ...]()
    if slides:
        ends = (((0.0, low), (0.0, low + travel(plan))) for low in guides(plan))
        slots = tuple(Slot(*each, bush(plan), "guide bush", fit="H8") for each in ends)
    else:
        holes = (Hole(0.0, 0.0, bush(plan), "pivot bush", "H8"), *holes)
    where: Placing = {"at": at, "placed_rad": turn, "group": "follower"}
    name, outline = ("slide", _slide(plan)) if slides else ("arm", _arm(plan))
    round_tip = amount("part_diameter_m", tip(plan), "si" if plan.stock.unit == "mm" else "us", 3)
    fit = f"H8/f7 on its bushes; tip filed round to ⌀{round_tip} for the spring"
    bar = flat(name, "steel", outline, plan.bar_z, holes=holes, slots=slots, fit=fit, **where)
    passing = tuple(
        Slot((x, y - FLAG_SET_M), (x, y + FLAG_SET_M), small.passing_m, "screw to the follower") for x, y in flag_holes
    )
    flag = flat("flag", "aluminium", _flag(plan), plan.flag_z, slots=passing, process="sheet", **where)
    spot = spot_of(at, turn, pin)
    parts = (bar, flag, *_roller(plan, spot, turn), _seat(plan, at, turn))
    screws = [
        screw(
            "roller pin",
            plan.stock,
            plan.pin,
            Seat(spot, plan.roller_z[1] + 0.0005, plan.bar_z[0] - PROUD_M, plan.bar_z[1]),
            joins=("roller", "roller spacer", "roller shim", name),
            washer="none",
            group="follower",
        )
    ]
    for hole in flag_holes:
        seat = Seat(spot_of(at, turn, hole), plan.flag_z[1], plan.bar_z[0], plan.bar_z[1])
        screws.append(
            screw("flag screw", plan.stock, small, seat, joins=("flag", name), washer="none", group="follower")
        )
    return parts, tuple(screws)


def spot_of(at: Point, placed_rad: float, point: Point) -> Point:
    """Return a point of a part, in its own axes, in the display. [m]."""
    cosine, sine = math.cos(placed_rad), math.sin(placed_rad)
    return at[0] + cosine * point[0] - sine * point[1], at[1] + sine * point[0] + cosine * point[1]


def _slide(plan: Plan) -> FloatArray:
    half, (_, top) = half_width(plan), spring_station(plan)
    tongue, reach = tip(plan) / 2.0, top + _tongue(plan)
    corners = [[half, top], [tongue, top], [tongue, reach], [-tongue, reach], [-tongue, top], [-half, top]]
    return np.concatenate([arc(half, math.pi, math.tau), np.array(corners)])


def _arm(plan: Plan) -> FloatArray:
    length, (along, pad) = plan.display.follower.arm_m, spring_station(plan)
    half = plan.seat_m / 2.0
    bar = hull((0.0, 0.0, 0.009), (length, 0.0, 0.008))
    ear = hull((length, 0.0, 0.006), (length + 0.015, -EAR_M, 0.006), (length + 0.027, -EAR_M, 0.006))
    shoulder = box(along - half, -pad, along + half, 0.0)
    tongue = box(along - tip(plan) / 2.0, -pad - _tongue(plan), along + tip(plan) / 2.0, 0.0)
    return joined(bar, ear, shoulder, tongue)


def tip(plan: Plan) -> float:
    """Return the diameter of the tip that stands in the spring, filed round. [m]."""
    return plan.spring.coil_m - plan.spring.wire_m - TIP_GAP_M


def _tongue(plan: Plan) -> float:
    """Return how far the tongue stands in the spring, short of its solid length."""
    return max(0.002, min(0.008, plan.spring.solid_length_m - 0.001))


def _flag_holes(plan: Plan) -> tuple[Point, Point]:
    if plan.slides:
        middle = flag_station(plan)[1]
        return (-0.0035, middle), (0.0035, middle)
    length = plan.display.follower.arm_m
    return (length + 0.017, -EAR_M), (length + 0.027, -EAR_M)


def _flag(plan: Plan) -> FloatArray:
    (across, along), half = flag_station(plan), FLAG_M / 2.0
    start, middle = -half_width(plan) if plan.slides else across - 0.038, own(plan, across, along)[1]
    return box(start, middle - half, across + 0.002, middle + half)


def _roller(plan: Plan, spot: Point, turn: float) -> tuple[Part, ...]:
    """Return the roller with the rings that hold its inner ring clear of the follower and of the screw's head."""
    roller, outer = plan.roller, plan.pin.diameter_m + 0.002
    where: Placing = {"at": spot, "placed_rad": turn, "group": "follower"}
    full = (ring(roller.outer_m, roller.bore_m, *plan.roller_z),)
    spacer = (ring(outer, plan.pin.passing_m, plan.bar_z[1], plan.roller_z[0]),)
    shim = (ring(outer, plan.pin.passing_m, plan.roller_z[1], plan.roller_z[1] + 0.0005),)
    return (
        bought("roller", roller.ordered, roller.mass_kg, full, fit="slip fit on the pin", **where),
        made("roller spacer", "brass", spacer, **where),
        made("roller shim", "brass", shim, **where),
    )


def _seat(plan: Plan, at: Point, turn: float) -> Part:
    """Return the seat that the spring presses on: a plate with a slot for the tongue, closed in front and behind."""
    spot = spot_of(at, turn, own(plan, *spring_station(plan)))
    half, middle = plan.seat_m / 2.0, sum(plan.bar_z) / 2.0
    low, high = (0.0, 0.001) if plan.slides else (-0.001, 0.0)
    gap = (tip(plan) + SLACK_M) / 2.0
    sides = tuple((box(start, low, end, high)) for start, end in ((-half, -gap), (gap, half)))
    deep = (plan.bar_z[1] - plan.bar_z[0] + SLACK_M) / 2.0
    ends = (middle - half, middle - deep), (middle + deep, middle + half)
    slabs = (
        *(Slab(side, middle - half, middle + half) for side in sides),
        *(Slab(box(-gap, low, gap, high), *end) for end in ends),
    )
    return made("spring seat", "acetal", slabs, at=spot, placed_rad=turn, group="follower", process="printed")
