"""The spring that presses the follower down, and the block with the bore that it stands in."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.display.assembly.data import Slab
from sim.display.assembly.follower import about, own, placed, spot_of, spring_station
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import bought, box, circle, made
from sim.display.parts import follower_at
from sim.display.shapes import Hole
from sim.units.text import amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.clutch import ClutchSpring
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.follower import Point
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.solid import Placing
    from sim.display.rise_laws import FloatArray
    from sim.display.spring import Spring
    from sim.units.quantities import System

    Held = tuple[tuple[Fastener, ...], tuple[Hole, ...], tuple[tuple[float, float, float], ...]]
    Added = tuple[tuple[Part, ...], tuple[Fastener, ...], tuple[Hole, ...], tuple[tuple[float, float, float], ...]]

BLOCK_M = 0.010
"""Height of the block, along the spring. [m]"""
SUNK_M = 0.0025
"""Depth of the bore in which the spring stands. [m]"""
ROOM_M, TENTH_M = 0.0004, 0.0001
"""By which the bore is wider than the spring, at least, and to which step its diameter is rounded up. [m]"""
SKIN_M = 0.0015
"""Of the block in front of the bore. [m]"""
SLICES = 4
"""Layers on either side of the middle of bore and spring, each as wide as these are where it is widest."""


def seat_bore(plan: Plan) -> float:
    """Return the diameter of the bore of the block, wider than the spring. [m]."""
    return TENTH_M * math.ceil((plan.spring.outer_m + ROOM_M) / TENTH_M - 1e-9)


def spring(plan: Plan) -> Added:
    """Return the spring and the block that it stands in."""
    across, along = spring_station(plan)
    middle, low = sum(plan.bar_z) / 2.0, along + 0.001
    high = low + plan.spring.free_length_m - plan.spring.preload_n / plan.spring.rate_n_per_m
    at, turn = placed(plan)
    where: Placing = {"at": at, "placed_rad": turn, "group": "lead plate"}
    coil = tuple(
        Slab(_piece(plan, (across - wide, low), (across + wide, high)), *ends)
        for wide, ends in _slices(plan.spring.outer_m, middle)
    )
    bent = bought("spring", ordered(plan, plan.spring), _spring_kg(plan), coil, material="music wire", **where)
    block, spots = _block(plan, (across, high - SUNK_M), where)
    screws, holes, circles = _from_behind(plan, spots, middle + seat_bore(plan) / 2.0 - 0.0005, "spring block")
    return (bent, block), screws, holes, circles


def _piece(plan: Plan, first: Point, last: Point) -> FloatArray:
    """Return a box in the follower's axes, its corners given across and along the motion. [m]."""
    ends = sorted((own(plan, 0.0, first[1])[1], own(plan, 0.0, last[1])[1]))
    return box(first[0], ends[0], last[0], ends[1])


def _block(plan: Plan, corner: Point, where: Placing) -> tuple[Part, list[Point]]:
    """Return the block, the middle of whose face with the bore is given, and where its screws stand."""
    small, middle, bore = plan.stock.threads["small"], sum(plan.bar_z) / 2.0, seat_bore(plan)
    (across, low), wall = corner, max(plan.spring.outer_m / 2.0 + 0.003, 0.010)
    spots = [(across + side * (wall - 0.0045), low + BLOCK_M - 0.0045) for side in (-1.0, 1.0)]
    tapped = tuple(circle(small.diameter_m, *own(plan, *spot)) for spot in spots)
    whole = _piece(plan, (across - wall, low), (across + wall, low + BLOCK_M))
    back = _piece(plan, (across - wall, low + SUNK_M), (across + wall, low + BLOCK_M))
    z = middle - bore / 2.0, middle + bore / 2.0
    slabs = (
        Slab(whole, plan.lead_z[1], z[0], tapped),
        Slab(back, *z, tapped),
        *(
            Slab(_piece(plan, (across + first, low), (across + last, low + SUNK_M)), *ends)
            for half, ends in _slices(bore, middle)
            for first, last in ((-wall, -half), (half, wall))
        ),
        Slab(whole, z[1], z[1] + SKIN_M),
    )
    block = made("spring block", "acetal", slabs, process="printed", **where)
    seat = Hole(across, middle, bore, "spring", deep_m=SUNK_M, sunk_behind=not plan.slides)
    return replace(block, upright_holes=(seat,)), spots


def _slices(wide: float, middle: float) -> Iterator[tuple[float, Point]]:
    """Yield half the width of each layer that a cylinder along y lies in, and its ends along the shaft. [m]."""
    step = wide / 2.0 / SLICES
    for number in range(-SLICES, SLICES):
        inner = min(abs(number), abs(number + 1)) * step
        half = math.sqrt(wide**2 / 4.0 - inner**2)
        yield half, (middle + number * step, middle + (number + 1) * step)


def ordered(plan: Plan, made: Spring | ClutchSpring) -> str:
    """Return a spring as it is ordered, in the system of the display."""
    units: System = "si" if plan.stock.unit == "mm" else "us"
    sizes = (amount(name, getattr(made, name), units, 4) for name in ("wire_m", "coil_m", "free_length_m"))
    wire, coil, free = sizes
    turns = f"{made.active_coils:g} active coils, closed and ground"
    rate = amount("rate_n_per_m", made.rate_n_per_m, units, 3)
    return f"EN 10270-1 DH wire {wire}, mean coil {coil}, {turns}, free length {free}, rate {rate}"


def _spring_kg(plan: Plan) -> float:
    own_spring = plan.spring
    length = math.pi * own_spring.coil_m * (own_spring.active_coils + 2.0)
    return 7850.0 * math.pi * own_spring.wire_m**2 / 4.0 * length


def _from_behind(plan: Plan, spots: list[Point], end_z: float, name: str) -> Held:
    """Return screws from behind the plate, flush with it, into what stands on it; places are in the follower's axes."""
    screws, holes, circles, thread = [], [], [], plan.stock.threads["small"]
    for spot in spots:
        point = _carried(plan, *spot)
        seat = Seat(about(plan, point), plan.lead_z[0], end_z, plan.lead_z[1])
        screws.append(
            screw(
                f"{name} screw", plan.stock, thread, seat, joins=("lead plate", name), head="sunk", group="lead plate"
            )
        )
        sunk = thread.heads_m["sunk"][0]
        holes.append(Hole(*point, thread.passing_m, f"{name} screw", sunk_m=sunk, sunk_behind=True))
        circles.append((*point, 0.008))
    return tuple(screws), tuple(holes), tuple(circles)


def _carried(plan: Plan, across_m: float, along_m: float) -> Point:
    """Return a point of the follower's axes, follower down, on the untilted plate."""
    x, y, angle = follower_at(plan.display, plan.found)
    return spot_of((x, y), angle, own(plan, across_m, along_m))
