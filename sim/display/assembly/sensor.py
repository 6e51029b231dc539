"""What the follower works: a light barrier, or an enclosed lamp switch, on its block on the lead plate."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.data import Slab
from sim.display.assembly.follower import FLAG_M, flag_station, own, placed, spot_of
from sim.display.assembly.lamp import supply
from sim.display.assembly.plan import BARRIER_M, SLACK_M
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import bought, box, flat
from sim.display.shapes import Hole

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.follower import Point
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.solid import Placing

    Added = tuple[tuple[Part, ...], tuple[Fastener, ...], tuple[Hole, ...], tuple[tuple[float, float, float], ...]]


BARRIER = (
    "slotted light barrier, body 12 × 12 × 12 mm (0.47 in), gap 5 mm (0.2 in) wide and 9 mm (0.35 in) deep, which "
    "opens at the side, square to the line of the holes; beam square to the flange, in the middle of gap and body; 3 "
    "leads of 350 mm (14 in) or more, pnp, output on while the beam is broken, at most 30 mA, {supply}, flange 26 × 12 "
    "× 3.5 mm (1.02 × 0.47 × 0.14 in), holes 19 mm (0.75 in) apart"
)


def sensor(plan: Plan) -> Added:
    """Return the light barrier or the lamp switch on its block."""
    beam = plan.display.output == "light beam"
    return _barrier(plan) if beam else _switch(plan)


def _barrier(plan: Plan) -> Added:
    """Return a slotted light barrier whose beam the flag breaks from half lift on."""
    across, along = flag_station(plan)
    small, middle = plan.stock.threads["small"], sum(plan.flag_z) / 2.0
    beam = along + FLAG_M / 2.0 + plan.display.cam.lift_m * sense_ratio(plan) / 2.0
    at, turn = placed(plan)
    spot = spot_of(at, turn, own(plan, across, beam))
    where: Placing = {"at": spot, "placed_rad": turn, "group": "lead plate"}
    body, tabs, web = (
        box(-0.006, -0.006, 0.006, 0.006),
        box(-0.006, -0.013, 0.006, 0.013),
        box(0.003, -0.006, 0.006, 0.006),
    )
    low, high = middle - 0.0025, middle + 0.0025
    gap = plan.lead_z[1], middle - BARRIER_M
    ends = [(0.0, -0.0095), (0.0, 0.0095)]
    clear = tuple(Hole(*end, small.passing_m, "light barrier screw") for end in ends)
    slabs = (
        flat("", "acetal", tabs, (gap[1], low), holes=clear).slabs[0],
        Slab(web, low, high),
        Slab(body, high, middle + BARRIER_M),
    )
    sensor = bought("light barrier", BARRIER.format(supply=supply(plan)), 0.005, slabs, material="", **where)
    block = flat("light barrier block", "acetal", tabs, gap, holes=clear, process="printed", **where)
    spots = [spot_of(spot, turn, end) for end in ends]
    return _fixed(plan, "light barrier", (sensor, block), spots=spots, top_z=low)


def _fixed(plan: Plan, name: str, parts: tuple[Part, Part], *, spots: list[Point], top_z: float) -> Added:
    """Return parts on the lead plate, held by countersunk screws from the front that end in the plate."""
    small, screws, holes, circles = plan.stock.threads["small"], [], [], []
    for spot in spots:
        seat = Seat(spot, top_z, plan.lead_z[0] + SLACK_M, plan.lead_z[1])
        joins = (name, f"{name} block", "lead plate")
        screws.append(screw(f"{name} screw", plan.stock, small, seat, joins=joins, head="sunk", group="lead plate"))
        point = spot_of((0.0, 0.0), -plan.tilt_rad, spot)
        holes.append(Hole(*point, small.diameter_m, f"{name} screw", f"tapped {small.name}"))
        circles.append((*point, 0.007))
    return parts, tuple(screws), tuple(holes), tuple(circles)


def sense_ratio(plan: Plan) -> float:
    """Return the travel of the flag where it is sensed over that of the roller."""
    return 1.0 if plan.slides else flag_station(plan)[0] / plan.display.follower.arm_m


def _switch(plan: Plan) -> Added:
    """Return an enclosed snap-action switch whose roller lever the flag works from half lift on."""
    across, along = flag_station(plan)
    small, middle = plan.stock.threads["small"], sum(plan.flag_z) / 2.0
    edge = along + FLAG_M / 2.0 + plan.display.cam.lift_m * sense_ratio(plan) + 0.002
    at, turn = placed(plan)
    spot = spot_of(at, turn, own(plan, across + 0.006, edge + 0.008))
    where: Placing = {"at": spot, "placed_rad": turn, "group": "lead plate"}
    body, low = box(-0.0139, -0.00795, 0.0139, 0.00795), middle - 0.00515
    ends = [(-0.0111, 0.0), (0.0111, 0.0)]
    clear = tuple(Hole(*end, small.passing_m, "screw of the switch") for end in ends)
    switch = flat("", "acetal", body, (low, middle + 0.00515), holes=clear).slabs
    sensor = bought(
        "lamp switch",
        "IEC 61058-1 snap-action switch 28 × 16 × 10 mm, roller lever, 0.5 N, holes 22.2 mm apart",
        0.007,
        switch,
        material="",
        **where,
    )
    block = flat("lamp switch block", "acetal", body, (plan.lead_z[1], low), holes=clear, process="printed", **where)
    return _fixed(
        plan, "lamp switch", (sensor, block), spots=[spot_of(spot, turn, end) for end in ends], top_z=middle + 0.00515
    )
