"""What stands round the mechanism: mast, guard, backboard with gun outline and lamp, foot, and the cover."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.display.assembly.centre import WIRES, WIRES_M, axes, bolt_spots, cover_spots, wire_spot
from sim.display.assembly.data import Slab
from sim.display.assembly.lamp import lamp_words
from sim.display.assembly.lead import post_direction
from sim.display.assembly.places import EDGE_M
from sim.display.assembly.screws import Seat, across, screw, wood
from sim.display.assembly.solid import bought, box, circle, flat, ring
from sim.display.shapes import Hole, Slot, hull

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan
    from sim.display.rise_laws import FloatArray

    Point = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

LAMP_M = 0.010
"""Diameter of the lamp. [m]"""
LAMP_PLACE = 0.7
"""Radius on which the lamp stands over that of the tips: common practice, no source."""
BOX_M, BOX_WALL_M = (0.120, 0.080, 0.060), 0.002
"""Width, height and depth of the wiring box, and its walls: own choice. [m]"""
WIRING_BOX = "plastic box 120 × 80 × 60 mm (4 3/4 × 3 1/8 × 2 3/8 in) with lid and 3 cable glands M12"
LEVER_SLOT_M = 0.006
"""Width of the slot for the lever, which no finger enters: ISO 13857 table 5 asks 20 mm behind it. [m]"""
FOOT_FRONT_M = 0.120
"""How far the foot stands out in front of the base. [m]"""
FOOT_BACK_M = 0.030
"""How far the foot stands out behind the backboard. [m]"""


def wall(plan: Plan) -> float:
    """Return the thickness of the walls of the guard. [m]."""
    return plan.stock.board(0.012)


def edges(plan: Plan, where: Places) -> tuple[float, float, float, float]:
    """Return the outer edges of the guard: left, low, right, high. [m]."""
    half = where.guard_half_m + wall(plan)
    above = where.cover_edges_m[3] + 0.034 + wall(plan)
    return -half, where.foot_m, half, max(where.propeller_m[1] + half, above)


def lamp_spot(plan: Plan, where: Places) -> Point:
    """Return where the lamp stands: on the bore line, right of the propeller's axis. [m]."""
    return LAMP_PLACE * plan.display.propeller.diameter_m / 2.0, where.propeller_m[1]


def mast(plan: Plan, where: Places) -> Part:
    """Return the mast, two boards glued."""
    bolt = plan.stock.threads["bolt"]
    holes = (
        *(Hole(*axis, plan.shaft.bore_m + 0.006, "shaft") for axis in axes(where)),
        Hole(*wire_spot(where), WIRES_M, WIRES),
        *(Hole(*spot, bolt.passing_m, "bolt through base and rear plate") for spot in bolt_spots(where)),
    )
    high = where.cover_edges_m[3] + 0.030
    outline = box(-where.base_half_m, where.foot_m, where.base_half_m, high)
    return flat("mast", "birch plywood", outline, plan.mast_z, holes=holes, process="wood")


def _rim(plan: Plan, where: Places) -> tuple[Point, ...]:
    """Return the screws of panel and backboard into the walls. [m]."""
    left, low, right, high = edges(plan, where)
    half, rows = wall(plan) / 2.0, (0.08, 0.5, 0.92)
    sides = [(x, low + (high - low) * row) for row in rows for x in (left + half, right - half)]
    return (*sides, *((left + (right - left) * row, high - half) for row in (0.25, 0.75)))


def guard(plan: Plan, where: Places) -> Made:
    """Return the guard: clear panel in front, walls, backboard, and the screws that hold them."""
    left, low, right, high = edges(plan, where)
    thread, bolt = plan.stock.threads["medium"], plan.stock.threads["bolt"]
    rim = tuple(
        Hole(*spot, thread.passing_m, "screw to a wall", sunk_m=thread.heads_m["sunk"][0]) for spot in _rim(plan, where)
    )
    holes = (
        *(Hole(*axis, plan.shaft.bore_m + 0.006, "shaft") for axis in axes(where)),
        Hole(*wire_spot(where), WIRES_M, WIRES),
        *(Hole(*spot, bolt.passing_m, "bolt") for spot in bolt_spots(where)),
        *rim,
    )
    outline, thick = box(left, low, right, high), wall(plan)
    depth = plan.backboard_z[1], plan.panel_z[0]
    parts = (
        flat("front panel", "polycarbonate", outline, plan.panel_z, holes=holes, process="sheet"),
        flat("side wall", "birch plywood", box(left, low, left + thick, high - thick), depth, process="wood"),
        flat("side wall", "birch plywood", box(right - thick, low, right, high - thick), depth, process="wood"),
        _top(plan, box(left, high - thick, right, high), depth, (left + thick / 2.0, right - thick / 2.0)),
        flat(
            "backboard", "birch plywood", outline, plan.backboard_z, holes=_backboard_holes(plan, where), process="wood"
        ),
    )
    screws = []
    for number, spot in enumerate(_rim(plan, where)):
        into = "side wall" if number < 6 else "top wall"
        screws.append(
            wood("panel screw", plan.stock, Seat(spot, plan.panel_z[1], plan.panel_z[0]), joins=("front panel", into))
        )
        screws.append(
            wood(
                "backboard screw",
                plan.stock,
                Seat(spot, plan.backboard_z[0], plan.backboard_z[1]),
                joins=("backboard", into),
            )
        )
    for hole in parts[3].upright_holes:
        head = (hole.x_m, high, hole.y_m)
        screws.append(across("top wall screw", plan.stock, head, thick, joins=("top wall", "side wall")))
    return parts, tuple(screws)


def _wall_holes(plan: Plan, middles: tuple[float, float], depth: tuple[float, float]) -> tuple[Hole, ...]:
    """Return the holes, drilled along y, for the screws into the walls whose middles these are."""
    thread = plan.stock.threads["medium"]
    return tuple(
        Hole(
            x,
            depth[0] + (depth[1] - depth[0]) * share,
            thread.passing_m,
            "screw to a wall",
            sunk_m=thread.heads_m["sunk"][0],
        )
        for x in middles
        for share in (0.3, 0.7)
    )


def _top(plan: Plan, outline: FloatArray, depth: tuple[float, float], middles: tuple[float, float]) -> Part:
    holes = tuple(replace(hole, sunk_behind=True) for hole in _wall_holes(plan, middles, depth))
    return flat("top wall", "birch plywood", outline, depth, upright_holes=holes, process="wood")


def foot(plan: Plan, where: Places) -> Made:
    """Return the foot with the screws into mast and walls from below, and the clamps that hold it on a table."""
    left, low, right, _ = edges(plan, where)
    thick = plan.stock.board(0.018)
    z = plan.backboard_z[0] - FOOT_BACK_M, FOOT_FRONT_M
    middle, medium = (plan.mast_z[0] + plan.mast_z[1]) / 2.0, plan.stock.threads["medium"]
    sunk = medium.heads_m["sunk"][0]
    masts = (side * 0.5 * where.base_half_m for side in (-1.0, 1.0))
    held = tuple(Hole(x, middle, medium.passing_m, "screw to the mast", sunk_m=sunk) for x in masts)
    depth = plan.backboard_z[1], plan.panel_z[0]
    walls = _wall_holes(plan, (left + wall(plan) / 2.0, right - wall(plan) / 2.0), depth)
    outline = box(left - 0.02, low - thick, right + 0.02, low)
    board = flat("footboard", "birch plywood", outline, z, upright_holes=(*held, *walls), process="wood")
    standard = "DIN 5117 screw clamp 80" if plan.stock.hardware == "metric" else "screw clamp 3 in"
    clamps = []
    for side in (-1.0, 1.0):
        outline = box(-0.015, -0.0125, 0.015, 0.0125)
        slab = flat("", "steel", outline, (FOOT_FRONT_M - 0.040, FOOT_FRONT_M - 0.005)).slabs
        clamps.append(bought("table clamp", standard, 0.35, slab, at=(side * (right - 0.040), low + 0.0125)))
    screws = []
    for hole in board.upright_holes:
        into = "mast" if hole in held else "side wall"
        spot = (hole.x_m, low - thick, hole.y_m)
        screws.append(across(f"{into} footboard screw", plan.stock, spot, thick, joins=("footboard", into)))
    return (board, *clamps), tuple(screws)


def target(plan: Plan, where: Places) -> Made:
    """Return the gun outline on the backboard with the lamp where its muzzle would be."""
    x, y = lamp_spot(plan, where)
    end, front = where.guard_half_m - 0.030, plan.backboard_z[1]
    z = front, front + plan.stock.board(0.015)
    shape = hull((x, y, 0.012), (max(end, x + 0.045), y, 0.020))
    outline = flat("gun outline", "birch plywood", shape, z, holes=(Hole(x, y, LAMP_M, "lamp", "H11"),), process="wood")
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
    return 0.0, where.foot_m + 0.030 + BOX_M[1] / 2.0


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


def _backboard_holes(plan: Plan, where: Places) -> tuple[Hole, ...]:
    thread = plan.stock.threads["medium"]
    spots = (*_rim(plan, where), *_outline_spots(plan, where))
    lead = Hole(*lamp_spot(plan, where), 0.006, "wires of the lamp")
    sunk = thread.heads_m["sunk"][0]
    wires = (
        Hole(*_wires_behind(where), WIRES_M, WIRES),
        *(Hole(*spot, thread.passing_m, "wiring box screw") for spot in _box_spots(where)),
    )
    return (lead, *wires, *(Hole(*spot, thread.passing_m, "screw", sunk_m=sunk, sunk_behind=True) for spot in spots))


def bolts(plan: Plan, where: Places) -> tuple[Fastener, ...]:
    """Return the bolts that clamp base, mast, guard panel and rear plate together."""
    joins = ("base", "mast", "front panel", "rear plate")
    return tuple(
        screw(
            "mast bolt",
            plan.stock,
            plan.stock.threads["bolt"],
            Seat(spot, 0.0, plan.rear_z[0]),
            joins=joins,
            head="hex",
        )
        for spot in bolt_spots(where)
    )


def cover(plan: Plan, where: Places) -> Made:
    """Return the cover over the mechanism: a frame, a clear panel with the slot of the lever, and its screws."""
    left, low, right, high = where.cover_edges_m
    medium = plan.stock.threads["medium"]
    clear = tuple(Hole(*spot, medium.passing_m, "screw to the base") for spot in cover_spots(where))
    inner = box(left + EDGE_M, low + EDGE_M, right - EDGE_M, high - EDGE_M)
    frame = flat(
        "cover frame",
        "birch plywood",
        box(left, low, right, high),
        plan.frame_z,
        holes=clear,
        cutouts_m=(inner,),
        process="wood",
    )
    way, radius = post_direction(plan) + plan.tilt_rad, plan.post_m
    spare = 0.002 / radius
    start, end = (
        (radius * math.cos(each), radius * math.sin(each)) for each in (way - plan.swing_rad - spare, way + spare)
    )
    slot = Slot(start, end, LEVER_SLOT_M, "post of the lever", bend_m=radius)
    panel = flat(
        "cover", "polycarbonate", box(left, low, right, high), plan.cover_z, holes=clear, slots=(slot,), process="sheet"
    )
    joins = ("cover", "cover frame", "base")
    screws = tuple(
        screw("cover screw", plan.stock, medium, Seat(spot, plan.cover_z[1], plan.base_z[0] + 0.0002, 0.0), joins=joins)
        for spot in cover_spots(where)
    )
    return (frame, panel), screws
