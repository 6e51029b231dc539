"""The display put together from what is specified, the cam and the spring."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.display.assembly import brake as brakes
from sim.display.assembly import centre, hand, housing, turning
from sim.display.assembly.data import Assembly, Group
from sim.display.assembly.follower import follower_parts
from sim.display.assembly.lead import lead_group
from sim.display.assembly.places import places
from sim.display.assembly.plan import Plan
from sim.display.assembly.solid import flat
from sim.display.assembly.target import target

if TYPE_CHECKING:
    from sim.display.assembly.data import Part
    from sim.display.assembly.places import Places
    from sim.display.display import Display
    from sim.display.search import FoundCam
    from sim.display.shapes import Hole
    from sim.display.spring import Spring

OUTSIDE = ("lever post", "knob")
"""Parts of the lead plate that may pass the cover."""


def assemble(display: Display, found: FoundCam, spring: Spring, *, magnet_pairs: int = 2) -> Assembly:
    """Return the whole display, in the order in which it is put together.

    Parameters
    ----------
    display, found, spring : Display, FoundCam, Spring
        What is specified, the cam, and the spring as it is ordered.
    magnet_pairs : int
        Pairs of magnets of the drag brake.
    """
    plan = Plan(display, found, spring)
    carried = follower_parts(plan), lead_group(plan)
    where = places(plan, tuple(part for parts, _ in carried for part in parts if part.name not in OUTSIDE))
    base = _with_holes(centre.base(plan, where), hand.motor_holes(plan, where))
    rear = centre.rear_plate(plan, where, brakes.brake_holes(plan, where))
    mast, bearings = housing.mast(plan, where), tuple(centre.bearings(plan, where))
    guard, aim, foot, cover = (make(plan, where) for make in (housing.guard, target, housing.foot, housing.cover))
    caps, friction, cam = centre.caps(plan, where), centre.friction(plan), turning.cam(plan)
    propeller, brake = turning.propeller(plan, where), brakes.brake(plan, where, magnet_pairs)
    crank, motor, radius = hand.crank(plan, where), hand.motor(plan, where), display.handle.crank_radius_m
    parts = (
        *(base, rear, *bearings, mast),
        *guard[0][:1],
        *turning.shafts(plan, where),
        *turning.drives(plan, where),
        *brake[0],
        *caps[0],
        *carried[1][0],
        *carried[0][0],
        *friction[0],
        *cam[0],
        *propeller[0],
        *crank[0],
        *motor[0],
        *aim[0],
        *foot[0],
        *guard[0][1:],
        *cover[0],
    )
    screws = (brake, caps, carried[1], carried[0], friction, cam, propeller, crank, motor, aim, foot, guard, cover)
    return Assembly(
        parts=parts,
        fasteners=(*housing.bolts(plan, where), *(each for made in screws for each in made[1])),
        groups=_groups(plan, where),
        hardware=display.hardware,
        handle_m=(*where.crank_m, radius) if display.handle.kind == "crank" else None,
        foot_m=where.foot_m - plan.stock.board(0.018),
    )


def _with_holes(part: Part, holes: tuple[Hole, ...]) -> Part:
    """Return a flat part with further holes."""
    if not holes:
        return part
    z = part.z_from_m, part.z_to_m
    assert part.outline_m is not None
    return replace(
        flat(part.name, part.material, part.outline_m, z, holes=(*part.holes, *holes), scribes=part.scribes),
        fit=part.fit,
    )


def _groups(plan: Plan, where: Places) -> tuple[Group, ...]:
    """Return what moves: turns are anticlockwise as a visitor sees them, the lead plate swings against the cam."""
    ratio = plan.display.cam_ratio
    return (
        Group("fixed", (0.0, 0.0), 0.0),
        Group("propeller", where.propeller_m, 1.0),
        Group("cam", (0.0, 0.0), ratio),
        Group("crank", where.crank_m, 1.0 / where.crank_drive.ratio),
        Group("lead plate", (0.0, 0.0), -ratio),
        Group("follower", (0.0, 0.0), -ratio),
    )
