"""What the display aims at: the gun outline with its lamp on the backboard, and the wiring box behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.centre import WIRES, WIRES_M
from sim.display.assembly.lamp import lamp_words
from sim.display.assembly.screws import Seat, wood
from sim.display.assembly.solid import bought, flat, ring
from sim.display.assembly.wiring_box import box_spots, wiring_box
from sim.display.shapes import Hole, hull

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan

    Point = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

LAMP_M = 0.010
"""Diameter of the lamp. [m]"""
LAMP_PLACE = 0.7
"""Radius on which the lamp stands over that of the tips: common practice, no source."""
LOOSE_M = 0.0005
"""By which a drilled hole in wood is wider than what is pushed through it: common practice, no source. [m]"""


def lamp_spot(plan: Plan, where: Places) -> Point:
    """Return where the lamp stands: on the bore line, right of the propeller's axis. [m]."""
    return LAMP_PLACE * plan.display.propeller.diameter_m / 2.0, where.propeller_m[1]


def target(plan: Plan, where: Places) -> Made:
    """Return the gun outline on the backboard with the lamp where its muzzle would be."""
    x, y = lamp_spot(plan, where)
    end, front = where.guard_half_m - 0.030, plan.backboard_z[1]
    z = front, front + plan.stock.board(0.015)
    shape = hull((x, y, 0.012), (max(end, x + 0.045), y, 0.020))
    outline = flat(
        "gun outline", "birch plywood", shape, z, holes=(Hole(x, y, LAMP_M + LOOSE_M, "lamp, glued"),), process="wood"
    )
    lamp = bought(
        "lamp",
        lamp_words(plan),
        0.005,
        (ring(LAMP_M, 0.0, z[0], z[1]), ring(0.014, 0.0, z[1], z[1] + 0.003)),
        at=(x, y),
        material="",
    )
    box_parts, box_screws = wiring_box(plan, where)
    screws = tuple(
        wood(
            "outline screw",
            plan.stock,
            Seat(spot, plan.backboard_z[0], front),
            joins=("backboard", "gun outline"),
            deep_m=z[1] - z[0],
        )
        for spot in _outline_spots(plan, where)
    )
    return (outline, lamp, *box_parts), (*screws, *box_screws)


def wires_behind(where: Places) -> Point:
    """Return where the wires of the sensor pass the backboard, below the wiring box. [m]."""
    return 0.0, where.foot_m + 0.018


def _outline_spots(plan: Plan, where: Places) -> tuple[Point, Point]:
    """Return the screws that hold the gun outline from behind. [m]."""
    x, y = lamp_spot(plan, where)
    return (x + 0.025, y), (max(where.guard_half_m - 0.030, x + 0.045), y)


def backboard_holes(plan: Plan, where: Places, rim: tuple[Point, ...]) -> tuple[Hole, ...]:
    """Return the holes of the backboard, those of the screws at its rim among them."""
    thread = plan.stock.threads["medium"]
    spots = (*rim, *_outline_spots(plan, where))
    lead = Hole(*lamp_spot(plan, where), 0.006, "wires of the lamp")
    sunk = thread.heads_m["sunk"][0]
    wires = (
        Hole(*wires_behind(where), WIRES_M, WIRES),
        *(Hole(*spot, thread.loose_m, "wiring box screw") for spot in box_spots(where)),
    )
    return (lead, *wires, *(Hole(*spot, thread.passing_m, "screw", sunk_m=sunk, sunk_behind=True) for spot in spots))
