"""The base with its bearings and caps, the ring that keeps the lead plate, and the screw that gives it friction."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.lead import friction_direction
from sim.display.assembly.places import EDGE_M
from sim.display.assembly.plan import RUNNING_M, SEAT_BUSH_M, SLACK_M, SPRING_WASHER_M
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import bought, box, flat, made, ring
from sim.display.shapes import Hole, Scribe

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan

    Point = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

CAP_M = 0.004
"""Thickness of the cap of a bearing that carries no lead plate. [m]"""
CAP_SCREWS = 3
WIRES_M = 0.009
"""Diameter of the hole for the wires of light barrier or switch in their sleeve. [m]"""
WIRES = "wires of the sensor, in their sleeve"


def axes(where: Places) -> tuple[Point, ...]:
    """Return the axis of every shaft, the cam's first. [m]."""
    shared = where.cam_drive is None
    return ((0.0, 0.0), where.crank_m) if shared else ((0.0, 0.0), where.propeller_m, where.crank_m)


def bolt_spots(where: Places) -> tuple[Point, ...]:
    """Return the bolts that clamp base, mast, guard panel and rear plate together. [m]."""
    across = where.base_half_m - 0.012
    heights = (where.cover_edges_m[3] + 0.015, where.cover_edges_m[1] - 0.015, where.base_low_m + 0.015)
    return tuple((side * across, height) for height in heights for side in (-1.0, 1.0))


def cover_spots(where: Places) -> tuple[Point, ...]:
    """Return the screws that hold the cover, in the middle of its frame: corners and middles of the long sides. [m]."""
    left, low, right, high = where.cover_edges_m
    inner, middle = EDGE_M / 2.0, (low + high) / 2.0
    return tuple((x, y) for x in (left + inner, right - inner) for y in (low + inner, middle, high - inner))


def cap_spots(plan: Plan, axis: Point) -> tuple[Point, ...]:
    """Return the screws of the cap of a bearing. [m]."""
    radius = plan.shaft.outer_m / 2.0 + 0.0036
    ways = (math.pi / 2.0 + math.tau * each / CAP_SCREWS for each in range(CAP_SCREWS))
    return tuple((axis[0] + radius * math.cos(way), axis[1] + radius * math.sin(way)) for way in ways)


def friction_spot(plan: Plan) -> Point:
    """Return where the friction screw stands. [m]."""
    way = friction_direction()
    return plan.ring_m * math.cos(way), plan.ring_m * math.sin(way)


def wire_spot(where: Places) -> Point:
    """Return where the wires of light barrier or switch pass the plates: at the lower right inside the cover. [m]."""
    _, low, right, _ = where.cover_edges_m
    return right - EDGE_M - WIRES_M, low + EDGE_M + WIRES_M / 2.0 + 0.001


def base_outline(where: Places) -> tuple[float, float, float, float]:
    """Return the edges of base and rear plate. [m]."""
    return -where.base_half_m, where.base_low_m, where.base_half_m, where.cover_edges_m[3] + 0.030


def base(plan: Plan, where: Places) -> Part:
    """Return the base."""
    threads = plan.stock.threads
    small, medium, large, bolt = (threads[size] for size in ("small", "medium", "large", "bolt"))
    seats = (Hole(*axis, plan.shaft.outer_m, "ball bearing", "H7") for axis in axes(where))
    rows = (
        (bolt_spots(where), bolt.passing_m, "bolt through mast and rear plate", ""),
        (cover_spots(where), medium.diameter_m, "cover screw", f"tapped {medium.name}"),
        (_every_cap(plan, where), small.diameter_m, "cap screw", f"tapped {small.name}"),
        ((friction_spot(plan),), large.diameter_m, "friction screw", f"tapped {large.name}"),
        ((wire_spot(where),), WIRES_M, WIRES, ""),
    )
    drilled = (Hole(*spot, size, use, fit) for spots, size, use, fit in rows for spot in spots)
    way = friction_direction()
    mark = np.array([[plan.ring_m + 0.013], [plan.ring_m + 0.018]]) * np.array([[math.cos(way), math.sin(way)]])
    return flat(
        "base",
        "aluminium",
        box(*base_outline(where)),
        plan.base_z,
        holes=(*seats, *drilled),
        scribes=(Scribe(mark, "LEAD"),),
        fit="H7 for the bearings, with retaining compound",
    )


def _every_cap(plan: Plan, where: Places) -> tuple[Point, ...]:
    return tuple(spot for axis in axes(where) for spot in cap_spots(plan, axis))


def rear_plate(plan: Plan, where: Places, extra: tuple[Hole, ...]) -> Part:
    """Return the plate behind the mast that carries the second bearing of each shaft."""
    bolt = plan.stock.threads["bolt"]
    seats = (Hole(*axis, plan.shaft.outer_m, "ball bearing", "H7") for axis in axes(where))
    bolts = (Hole(*spot, bolt.passing_m, "bolt through mast and base") for spot in bolt_spots(where))
    fit = "H7 for the bearings, with retaining compound"
    holes = (*seats, *bolts, *extra, Hole(*wire_spot(where), WIRES_M, WIRES))
    return flat("rear plate", "aluminium", box(*base_outline(where)), plan.rear_z, holes=holes, fit=fit)


def bearings(plan: Plan, where: Places) -> Iterator[Part]:
    """Yield two bearings a shaft, each against mast or guard panel, so that neither can move along the shaft."""
    front = plan.base_z[0], plan.base_z[0] + plan.shaft.width_m
    rear = plan.rear_z[1] - plan.shaft.width_m, plan.rear_z[1]
    for axis in axes(where):
        for z in (front, rear):
            slabs = (ring(plan.shaft.outer_m, plan.shaft.bore_m, *z),)
            yield bought(
                "ball bearing", plan.shaft.ordered, plan.shaft.mass_kg, slabs, at=axis, fit="H7 outside, h6 inside"
            )


def caps(plan: Plan, where: Places) -> Made:
    """Return the caps in front of the bearings; that of the cam carries the lead plate and its keeper."""
    bore, small = plan.shaft.bore_m + 0.006, plan.stock.threads["small"]
    parts, screws = [], []
    top = plan.lead_z[1] + SLACK_M
    for axis in axes(where):
        lead = axis == (0.0, 0.0)
        sunk_m = 0.0 if lead else small.heads_m["sunk"][0]
        holes = tuple(
            Hole(x - axis[0], y - axis[1], small.passing_m, "cap screw", sunk_m=sunk_m)
            for x, y in cap_spots(plan, axis)
        )
        z = (0.0, top if lead else CAP_M)
        name = "lead cap" if lead else "bearing cap"
        parts.append(_drilled(name, "brass", (plan.cap_m, bore, z), holes, at=axis))
        joins: tuple[str, ...] = (name, "base")
        if lead:
            keeper = (plan.cap_m + 0.008, bore, plan.keeper_z)
            sunk = tuple(
                Hole(x, y, small.passing_m, "cap screw", sunk_m=small.heads_m["sunk"][0])
                for x, y in cap_spots(plan, axis)
            )
            parts.append(_drilled("lead keeper", "brass", keeper, sunk, at=axis))
            joins = ("lead keeper", *joins)
        face = plan.keeper_z[1] if lead else CAP_M
        for spot in cap_spots(plan, axis):
            seat = Seat(spot, face, plan.base_z[0] + SLACK_M, 0.0)
            screws.append(screw("cap screw", plan.stock, small, seat, joins=joins, head="sunk"))
    thrust = made("thrust washer", "PTFE", (ring(plan.cap_m + 0.016, plan.cap_m + 0.0002, 0.0, RUNNING_M),))
    return (*parts[:1], thrust, *parts[1:]), tuple(screws)


def _drilled(
    name: str, material: str, size: tuple[float, float, tuple[float, float]], holes: tuple[Hole, ...], *, at: Point
) -> Part:
    """Return a turned ring of outside and inside diameter with its drilled holes."""
    outer, inner, z = size
    whole = ring(outer, 0.0, *z).outline_m
    fit = "f7 in the lead plate" if name == "lead cap" else ""
    return flat(
        name, material, whole, z, at=at, holes=(Hole(0.0, 0.0, inner, "shaft"), *holes), process="turned", fit=fit
    )


def friction(plan: Plan) -> Made:
    """Return the screw on which the slot of the lead plate stops, with its bush and the washer that gives friction."""
    large, at, front = plan.stock.threads["large"], friction_spot(plan), plan.lead_z[1]
    top = front + SPRING_WASHER_M
    bush = made("stop bush", "steel", (ring(SEAT_BUSH_M, large.passing_m, 0.0, top),), at=at, fit="h9")
    wave = bought(
        "friction spring",
        "DIN 137 form B 8" if plan.stock.hardware == "metric" else "wave spring washer, bore 21/64 in",
        0.0008,
        (ring(0.0148, SEAT_BUSH_M + 0.0004, front, top),),
        at=at,
    )
    seat = Seat(at, top, plan.base_z[0] + SLACK_M, 0.0)
    held = screw("friction screw", plan.stock, large, seat, joins=("stop bush", "base"), washer="large")
    return (bush, wave), (held,)
