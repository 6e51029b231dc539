"""The drag brake: an aluminium disc on the crank shaft between magnets, whose drag grows with its speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.display.assembly.data import Slab
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import bought, circle, flat, made, ring, without
from sim.display.assembly.turning import hub
from sim.display.shapes import Hole, hull

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan

    Point = tuple[float, float]
    Span = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

BRAKE_OUTER_M = 0.090
"""Diameter of the disc of the drag brake. [m]"""
MAGNET_M = 0.020
"""Diameter of a magnet of the drag brake. [m]"""
MAGNET_THICK_M = 0.005
MAGNET_RADIUS_M = 0.033
"""From the axis to the middle of a magnet. [m]"""
AIR_M = 0.0015
"""Gap between magnet and disc. [m]"""
KEEPER_M = 0.004
"""Thickness of the steel behind the magnets. [m]"""
HUB_M = 0.018
"""By which the hub of the disc is wider than the shaft. [m]"""
HUB_GAP_M = 0.002
"""Gap between that hub and the keeper behind the disc. [m]"""
MARK_M = 0.0015
"""Diameter of the holes that show where the magnets are glued. [m]"""
MAGNET = "NdFeB disc magnet 20 × 5 mm (0.787 × 0.197 in), N35, magnetized through its thickness"
MAGNET_KG = 0.0118
TAPPED_RAD = tuple(math.pi / 2.0 + math.tau * each / 3.0 for each in range(3))
"""Where the screws of the disc stand on its hub, clear of its cross pin. [rad]"""
MAGNET_STEP_RAD = math.radians(37.0)


def brake(plan: Plan, where: Places, pairs: int) -> Made:
    """Return the drag brake: a disc on the crank shaft between magnets below it."""
    disc, magnets = _disc(plan, where), _magnets(plan, where, pairs)
    return (*disc[0], *magnets[0]), (*disc[1], *magnets[1])


def _disc(plan: Plan, where: Places) -> Made:
    """Return the disc with its hub and its screws."""
    at, small = where.crank_m, plan.stock.threads["small"]
    rear, front = plan.disc_z
    pitch, bore = plan.shaft.bore_m / 2.0 + 0.0055, plan.shaft.bore_m
    spots = [(pitch * math.cos(way), pitch * math.sin(way)) for way in TAPPED_RAD]
    tapped = tuple(circle(small.diameter_m, *spot) for spot in spots)
    flange = Slab(circle(bore + HUB_M), rear - 0.008, rear, (circle(bore), *tapped))
    drilled = (Hole(*spot, small.passing_m, "screw to the hub") for spot in spots)
    holes = (Hole(0.0, 0.0, bore, "shaft", "H7"), *drilled)
    disc = flat("brake disc", "aluminium", circle(BRAKE_OUTER_M), plan.disc_z, at=at, holes=holes, group="crank")
    joins = ("brake disc", "brake hub")
    seats = (Seat((at[0] + x, at[1] + y), front, rear - 0.0075, rear) for x, y in spots)
    screws = (
        screw("brake disc screw", plan.stock, small, seat, joins=joins, group="crank", washer="none") for seat in seats
    )
    return (*hub("brake hub", plan, (flange,), at=at, group="crank"), disc), tuple(screws)


def _magnets(plan: Plan, where: Places, pairs: int) -> Made:
    """Return the magnets on their keepers on both sides of the disc, with spacers and screws."""
    at, large, (rear, front) = where.crank_m, plan.stock.threads["large"], plan.disc_z
    ways = [-math.pi / 2.0 + MAGNET_STEP_RAD * (each - (pairs - 1) / 2.0) for each in range(pairs)]
    middles = [(MAGNET_RADIUS_M * math.cos(way), MAGNET_RADIUS_M * math.sin(way)) for way in ways]
    faces = (front + AIR_M, front + AIR_M + MAGNET_THICK_M), (rear - AIR_M - MAGNET_THICK_M, rear - AIR_M)
    plates = (faces[0][1], faces[0][1] + KEEPER_M), (faces[1][0] - KEEPER_M, faces[1][0])
    posts = brake_posts()
    outline = hull(*((*spot, MAGNET_M / 2.0 + 0.002) for spot in middles), *((*spot, 0.008) for spot in posts))
    outline = without(outline, circle(plan.shaft.bore_m + HUB_M + 2.0 * HUB_GAP_M))
    clear = (
        *(Hole(*spot, large.passing_m, "brake screw") for spot in posts),
        *(Hole(*spot, MARK_M, "middle of a magnet") for spot in middles),
    )
    parts, screws = [flat("brake keeper", "steel", outline, plate, at=at, holes=clear) for plate in plates], []
    for side in faces:
        parts += [_magnet((at[0] + x, at[1] + y), side) for x, y in middles]
    gaps = (plates[0][1], plan.rear_z[0]), (plates[1][1], plates[0][0])
    joins = ("brake keeper", "brake spacer", "rear plate")
    for x, y in posts:
        spot = at[0] + x, at[1] + y
        rings = ((ring(large.diameter_m + 0.005, large.passing_m, *z),) for z in gaps)
        parts += [made("brake spacer", "brass", each, at=spot) for each in rings]
        seat = Seat(spot, plates[1][0], plan.rear_z[1] - 0.0002, plan.rear_z[0])
        screws.append(screw("brake screw", plan.stock, large, seat, joins=joins))
    return tuple(parts), tuple(screws)


def _magnet(at: Point, z: Span) -> Part:
    slabs = (ring(MAGNET_M, 0.0, *z),)
    return bought("magnet", MAGNET, MAGNET_KG, slabs, at=at, material="magnet")


def brake_posts() -> tuple[Point, Point]:
    """Return where the screws of the brake stand, from the crank's axis, outside its disc. [m]."""
    return (-0.034, -0.044), (0.034, -0.044)


def brake_holes(plan: Plan, where: Places) -> tuple[Hole, ...]:
    """Return the holes of the rear plate for the screws of the brake."""
    large, (x, y) = plan.stock.threads["large"], where.crank_m
    return tuple(
        Hole(x + left, y + up, large.diameter_m, "brake screw", f"tapped {large.name}") for left, up in brake_posts()
    )
