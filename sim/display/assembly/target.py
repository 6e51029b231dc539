"""What the display aims at: the gun outline with its lamp on the backboard, and the wiring box behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.centre import WIRES, WIRES_M
from sim.display.assembly.data import Slab
from sim.display.assembly.lamp import lamp_words
from sim.display.assembly.screws import Seat, screw, wood
from sim.display.assembly.solid import bought, box, circle, flat, ring
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
BOX_M, BOX_WALL_M = (0.120, 0.080, 0.060), 0.002
"""Width, height and depth of the wiring box, and its walls: own choice. [m]"""
BOX_ABOVE_M = 0.070
"""Between footboard and box: room for the glands and the bend of their cables, common practice, no source. [m]"""
GLANDS, GLAND_M, GLANDS_APART_M = 3, 0.0125, 0.030
"""Holes in the lower wall of the box for glands of supply, sensor and lamp: how many, how wide, how far apart. [m]"""
WIRING_BOX = "plastic box 120 × 80 × 60 mm (4 3/4 × 3 1/8 × 2 3/8 in) with lid and 3 cable glands M12"
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
    box_parts, box_screws = _wiring_box(plan, where)
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


def _box_middle(where: Places) -> Point:
    return 0.0, where.foot_m + BOX_ABOVE_M + BOX_M[1] / 2.0


def _box_spots(where: Places) -> tuple[Point, Point]:
    """Return the screws that hold the wiring box. [m]."""
    x, y = _box_middle(where)
    return (x - 0.040, y), (x + 0.040, y)


def _wires_behind(where: Places) -> Point:
    """Return where the wires of the sensor pass the backboard, below the wiring box. [m]."""
    return 0.0, where.foot_m + 0.018


def _wiring_box(plan: Plan, where: Places) -> Made:
    """Return the box of timer, fuse and terminals behind the backboard, open as while it is wired, and its screws."""
    medium, (x, y), (wide, high, deep) = plan.stock.threads["medium"], _box_middle(where), BOX_M
    rear = plan.backboard_z[0]
    spots = _box_spots(where)
    clear = tuple(circle(medium.passing_m, a - x, b - y) for a, b in spots)
    rim = box(-wide / 2.0, -high / 2.0, wide / 2.0, high / 2.0)
    room = box(BOX_WALL_M - wide / 2.0, BOX_WALL_M - high / 2.0, wide / 2.0 - BOX_WALL_M, high / 2.0 - BOX_WALL_M)
    slabs = (Slab(rim, rear - BOX_WALL_M, rear, clear), Slab(rim, rear - deep, rear - BOX_WALL_M, (room,)))
    whole = bought("wiring box", WIRING_BOX, 0.10, slabs, at=(x, y), material="")
    seats = (Seat(spot, plan.backboard_z[1], rear - BOX_WALL_M) for spot in spots)
    joins = ("backboard", "wiring box")
    return (whole,), tuple(screw("wiring box screw", plan.stock, medium, seat, joins=joins) for seat in seats)


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
        Hole(*_wires_behind(where), WIRES_M, WIRES),
        *(Hole(*spot, thread.loose_m, "wiring box screw") for spot in _box_spots(where)),
    )
    return (lead, *wires, *(Hole(*spot, thread.passing_m, "screw", sunk_m=sunk, sunk_behind=True) for spot in spots))
