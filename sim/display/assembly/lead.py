"""The lead plate and all that it carries: guides, spring and its block, light barrier or switch, lever with its knob.

Places are those of the plate at no lead, before cam and plate are tilted.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.data import Slab
from sim.display.assembly.follower import (
    about,
    bush,
    guides,
)
from sim.display.assembly.plan import SEAT_BUSH_M, SLACK_M
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.sensor import sensor
from sim.display.assembly.solid import bought, circle, flat, made, ring
from sim.display.assembly.spring_block import spring
from sim.display.parts import follower_at
from sim.display.shapes import Hole, Scribe, Slot, hull
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.plan import Plan
    from sim.display.rise_laws import FloatArray

    Added = tuple[tuple[Part, ...], tuple[Fastener, ...], tuple[Hole, ...], tuple[tuple[float, float, float], ...]]

POST_M = 0.005
"""Diameter of the lever's post, which the slot in the cover lets through. [m]"""
STUD_M = 0.008
"""Length of the post's thread in the knob. [m]"""
LABEL_M, RIM_M = (-0.0045, -0.0052), (0.0083, 0.0115)
"""Beyond the middle of the slot: ends of the marks that bear degrees, and of those at the rim. [m]"""
KNOB_CLEAR_M, KNOB_MARK_M, FIGURE_M = 0.001, 0.003, 0.004
"""On the cover: between knob and marks, length of these, and height of their figures, which are read from 0.8 m at a
two-hundredth of the distance: common practice, no source. [m]"""
FLAT_M, FLAT_HIGH_M = 0.002, 0.006
"""By which the flats of the post are nearer to each other than its round is wide, and how long they are. [m]"""


def lead_group(plan: Plan) -> tuple[tuple[Part, ...], tuple[Fastener, ...]]:
    """Return the lead plate with what it carries, and its screws."""
    added = (_guides(plan), spring(plan), sensor(plan), _lever(plan))
    parts = tuple(part for each in added for part in each[0])
    screws = tuple(held for each in added for held in each[1])
    holes = tuple(hole for each in added for hole in each[2])
    circles = tuple(circle_m for each in added for circle_m in each[3])
    bore = Hole(0.0, 0.0, plan.cap_m, "lead cap", "H8")
    outline = hull((0.0, 0.0, plan.ring_m + 0.012), *circles)
    plate = flat(
        "lead plate",
        "aluminium",
        outline,
        plan.lead_z,
        placed_rad=plan.tilt_rad,
        holes=(bore, *holes),
        slots=(friction_slot(plan),) if plan.swing_rad > 0.0 else (),
        scribes=_marks(plan),
        group="lead plate",
        fit="H8/f7 on the cap",
    )
    return (plate, *parts), screws


def friction_direction() -> float:
    """Return the direction from the cam in which the friction screw stands in the base. [rad]."""
    return -math.pi / 2.0


def friction_slot(plan: Plan) -> Slot:
    """Return the slot in which the friction screw stands; its ends are the stops of the lead plate."""
    start = friction_direction() - plan.tilt_rad
    ends = (start, start + plan.swing_rad)
    first, last = ((plan.ring_m * math.cos(way), plan.ring_m * math.sin(way)) for way in ends)
    return Slot(first, last, SEAT_BUSH_M + SLACK_M, "bush of the friction screw", bend_m=plan.ring_m, fit="H11")


def post_direction(plan: Plan) -> float:
    """Return the direction from the cam of the lever at no lead, as the plate is drawn. [rad]."""
    return math.pi / 2.0 - plan.tilt_rad + plan.swing_rad / 2.0 + math.pi / 2.0


def _marks(plan: Plan) -> tuple[Scribe, ...]:
    """Return the marks on both sides of the slot: tens of degrees of propeller, and the lead at flying speed.

    Those at the rim stand one after the other in front of the mark of the base; the degrees stand inside the slot.
    """
    start, marks = friction_direction() - plan.tilt_rad, []
    for mark in _told_deg(plan):
        way = start + math.radians(mark) * plan.display.cam_ratio
        row = np.array([[math.cos(way), math.sin(way)]])
        label, rim = (plan.ring_m + np.array([[first], [last]]) for first, last in (LABEL_M, RIM_M))
        marks.append(Scribe(label * row, brief("lead_rad", math.radians(mark), digits=3)))
        marks.append(Scribe(rim * row, ""))
    return tuple(marks)


def _told_deg(plan: Plan) -> list[float]:
    """Return the leads that have a mark: tens of degrees, and the lead at flying speed. [°]."""
    lead_deg, ratio = math.degrees(plan.display.window.lead_rad), plan.display.cam_ratio
    step = 10 * math.ceil(1.0 / ratio)
    whole = [
        float(each) for each in range(0, math.floor(lead_deg) + 1, step) if lead_deg - each > 0.8 * step or not each
    ]
    return whole + ([lead_deg] if lead_deg > 0.0 else [])


def knob_scale(plan: Plan) -> tuple[Scribe, ...]:
    """Return the marks on the cover that the middle of the knob points to, and their degrees, inside its slot.

    A visitor reads them beside the knob, which never covers them.
    """
    start = post_direction(plan) + plan.tilt_rad
    near = plan.post_m - plan.stock.knob.outer_m / 2.0 - KNOB_CLEAR_M
    ends = np.array([[near], [near - KNOB_MARK_M]])
    ways = (start - math.radians(mark) * plan.display.cam_ratio for mark in _told_deg(plan))
    told = (brief("lead_rad", math.radians(round(mark)), digits=3) for mark in _told_deg(plan))
    rows = (np.array([[math.cos(way), math.sin(way)]]) for way in ways)
    return tuple(Scribe(ends * row, label, letter_m=FIGURE_M) for row, label in zip(rows, told, strict=True))


def _guides(plan: Plan) -> Added:
    """Return the bushes on which the follower slides or swings, their screws, and holes in the plate."""
    thread, lead = plan.stock.threads["medium"], plan.lead_z
    if plan.slides:
        x, rest, _ = follower_at(plan.display, plan.found)
        spots = [(x, rest + low + plan.display.cam.lift_m + 0.0015) for low in guides(plan)]
        names = ("guide bush", "guide screw", "slide")
    else:
        spots, names = [(plan.display.follower.pivot_m, 0.0)], ("pivot bush", "pivot screw", "arm")
    shelf, top = plan.bar_z[0], plan.bar_z[1] + SLACK_M
    slabs = (
        ring(bush(plan) + 0.004, thread.passing_m, lead[1], shelf),
        ring(bush(plan), thread.passing_m, shelf, top),
    )
    parts, screws, holes = [], [], []
    for spot in spots:
        at = about(plan, spot)
        parts.append(made(names[0], "brass", slabs, at=at, group="lead plate", fit="f7 in the follower"))
        seat = Seat(at, top, lead[0] + SLACK_M, lead[1])
        joins = (names[0], names[2], "lead plate")
        screws.append(screw(names[1], plan.stock, thread, seat, joins=joins, washer="large", group="lead plate"))
        holes.append(Hole(*spot, thread.diameter_m, names[1], f"tapped {thread.name}"))
    return tuple(parts), tuple(screws), tuple(holes), tuple((x, y, 0.010) for x, y in spots)


def _flats(thick_m: float) -> FloatArray:
    """Return the section of the post where two flats hold it against its screw. [m]."""
    half, outline = (thick_m - FLAT_M) / 2.0, circle(thick_m)
    return np.column_stack([outline[:, 0], outline[:, 1].clip(-half, half)])


def _lever(plan: Plan) -> Added:
    """Return the post of the lever and its knob, in front of the cover."""
    large = plan.stock.threads["large"]
    way = post_direction(plan)
    point = (plan.post_m * math.cos(way), plan.post_m * math.sin(way))
    at, knob = about(plan, point), plan.stock.knob
    top = plan.cover_z[1] + 0.003
    thick = large.diameter_m + 0.007
    collar = plan.lead_z[1], plan.frame_z[1] - 0.003
    tapped, flats = collar[1] - 0.002, collar[1] - FLAT_HIGH_M
    slabs = (
        ring(thick, large.diameter_m, collar[0], flats),
        Slab(_flats(thick), flats, tapped, (circle(large.diameter_m),)),
        Slab(_flats(thick), tapped, collar[1]),
        ring(POST_M, 0.0, collar[1], top),
        ring(large.diameter_m, 0.0, top, top + STUD_M),
    )
    post = made("lever post", "steel", slabs, at=at, group="lead plate", fit="h9")
    ball = bought(
        "knob",
        knob.name,
        0.012,
        (
            ring(knob.outer_m, large.diameter_m, top, top + STUD_M),
            ring(knob.outer_m, 0.0, top + STUD_M, top + knob.height_m),
        ),
        at=at,
        group="lead plate",
        material="phenolic",
    )
    seat = Seat(at, plan.lead_z[0], tapped, plan.lead_z[1])
    held = screw(
        "lever post screw", plan.stock, large, seat, joins=("lead plate", "lever post"), head="sunk", group="lead plate"
    )
    hole = Hole(*point, large.passing_m, "lever post screw", sunk_m=large.heads_m["sunk"][0], sunk_behind=True)
    return (post, ball), (held,), (hole,), ((*point, 0.011),)
