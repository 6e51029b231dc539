"""What stands round the mechanism: mast, guard with its backboard, foot, and the cover."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.display.assembly.centre import WIRES, WIRES_M, axes, bolt_spots, cover_spots, wire_spot
from sim.display.assembly.lead import knob_scale, post_direction
from sim.display.assembly.places import EDGE_M
from sim.display.assembly.screws import WIDER, Seat, across, screw, wood
from sim.display.assembly.solid import bought, box, flat
from sim.display.assembly.target import backboard_holes
from sim.display.shapes import Hole, Slot

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan
    from sim.display.rise_laws import FloatArray

    Point = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

LEVER_SLOT_M = 0.006
"""Most width of the slot for the lever, which no finger enters: ISO 13857 table 5 asks 20 mm behind it. [m]"""
SLOT_CUT_M, SLOT_FIT = 0.0056, "H14"
"""Width to which it is cut and its class, at most 5.9 mm, with 0.3 mm on either side of the post. [m]"""
FOOT_FRONT_M = 0.120
"""How far the foot stands out in front of the base. [m]"""
FOOT_BACK_M = 0.030
"""How far the foot stands out behind the backboard. [m]"""


def wall(plan: Plan) -> float:
    """Return the thickness of the walls of the guard: their middle is far enough from the edge of the panel. [m]."""
    return plan.stock.board(0.018)


def edges(plan: Plan, where: Places) -> tuple[float, float, float, float]:
    """Return the outer edges of the guard: left, low, right, high. [m]."""
    half = where.guard_half_m + wall(plan)
    above = where.cover_edges_m[3] + 0.034 + wall(plan)
    return -half, where.foot_m, half, max(where.propeller_m[1] + half, above)


def mast(plan: Plan, where: Places) -> Part:
    """Return the mast, two boards glued."""
    bolt = plan.stock.threads["bolt"]
    holes = (
        *(Hole(*axis, plan.shaft.bore_m + 0.006, "shaft") for axis in axes(where)),
        Hole(*wire_spot(where), WIRES_M, WIRES),
        *(Hole(*spot, bolt.loose_m, "bolt through base and rear plate") for spot in bolt_spots(where)),
    )
    high = where.cover_edges_m[3] + 0.030
    outline = box(-where.base_half_m, where.foot_m, where.base_half_m, high)
    return flat("mast", "birch plywood", outline, plan.mast_z, holes=holes, process="wood")


def rim_spots(plan: Plan, where: Places) -> tuple[Point, ...]:
    """Return the screws of panel and backboard into the walls. [m]."""
    left, low, right, high = edges(plan, where)
    half, rows = wall(plan) / 2.0, (0.08, 0.5, 0.92)
    sides = [(x, low + (high - low) * row) for row in rows for x in (left + half, right - half)]
    return (*sides, *((left + (right - left) * row, high - half) for row in (0.25, 0.75)))


def guard(plan: Plan, where: Places) -> Made:
    """Return the guard: clear panel in front, walls, backboard, and the screws that hold them."""
    left, low, right, high = edges(plan, where)
    thread, bolt = plan.stock.threads["medium"], plan.stock.threads["bolt"]
    rim = tuple(Hole(*spot, WIDER * thread.diameter_m, "screw to a wall") for spot in rim_spots(plan, where))
    holes = (
        *(Hole(*axis, plan.shaft.bore_m + 0.006, "shaft") for axis in axes(where)),
        Hole(*wire_spot(where), WIRES_M, WIRES),
        *(Hole(*spot, bolt.loose_m, "bolt") for spot in bolt_spots(where)),
        *rim,
    )
    outline, thick = box(left, low, right, high), wall(plan)
    back = backboard_holes(plan, where, rim_spots(plan, where))
    depth = plan.backboard_z[1], plan.panel_z[0]
    parts = (
        flat("front panel", "polycarbonate", outline, plan.panel_z, holes=holes, process="sheet"),
        flat("side wall", "birch plywood", box(left, low, left + thick, high - thick), depth, process="wood"),
        flat("side wall", "birch plywood", box(right - thick, low, right, high - thick), depth, process="wood"),
        _top(plan, box(left, high - thick, right, high), depth, (left + thick / 2.0, right - thick / 2.0)),
        flat("backboard", "birch plywood", outline, plan.backboard_z, holes=back, process="wood"),
    )
    screws = []
    for number, spot in enumerate(rim_spots(plan, where)):
        into = "side wall" if number < 6 else "top wall"
        seat = Seat(spot, plan.panel_z[1], plan.panel_z[0])
        screws.append(wood("panel screw", plan.stock, seat, joins=("front panel", into), head="pan"))
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
    aside = (plan.mast_z[1] - plan.mast_z[0]) / 4.0  # clear of the glue between its boards
    held = tuple(
        Hole(side * 0.5 * where.base_half_m, middle + side * aside, medium.passing_m, "screw to the mast", sunk_m=sunk)
        for side in (-1.0, 1.0)
    )
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
    clear = tuple(Hole(*spot, medium.loose_m, "screw to the base") for spot in cover_spots(where))
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
    slot = Slot(start, end, SLOT_CUT_M, "post of the lever", bend_m=radius, fit=SLOT_FIT)
    panel = flat(
        "cover",
        "polycarbonate",
        box(left, low, right, high),
        plan.cover_z,
        holes=clear,
        slots=(slot,),
        scribes=knob_scale(plan) if plan.swing_rad > 0.0 else (),
        process="sheet",
    )
    joins = ("cover", "cover frame", "base")
    screws = tuple(
        screw("cover screw", plan.stock, medium, Seat(spot, plan.cover_z[1], plan.base_z[0] + 0.0002, 0.0), joins=joins)
        for spot in cover_spots(where)
    )
    return (frame, panel), screws
