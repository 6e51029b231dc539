"""What turns: shafts, cam with its hub, propeller with its hub, pulleys and belts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.centre import CAP_M
from sim.display.assembly.data import Slab
from sim.display.assembly.plan import AXIAL_M
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import DENSITIES_KG_M3, bought, box, circle, flat, joined, made, ring, turned, volume
from sim.display.assembly.target import LOOSE_M
from sim.display.outline import area
from sim.display.parts import cam_part
from sim.display.shapes import Hole, Scribe, Slot, hull

if TYPE_CHECKING:
    from sim.display.assembly.data import Fastener, GroupName, Part
    from sim.display.assembly.places import Drive, Places
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.solid import Placing
    from sim.display.rise_laws import FloatArray

    Point = tuple[float, float]
    Span = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

HUB_M = 0.010
"""Thickness of the hub of the propeller. [m]"""
CLAMP_M = 0.004
"""Thickness of the disc behind the propeller. [m]"""
SET_RAD = math.radians(6.0)
"""By which the cam is set on its hub, either way. [rad]"""
SUNK_M = 0.001
"""By which a cross pin is shorter than its hub is wide, at least. [m]"""


def cam_group(plan: Plan) -> GroupName:
    """Return the group that the cam turns with."""
    return "propeller" if plan.direct else "cam"


def shaft(name: str, plan: Plan, z: Span, *, at: Point, group: GroupName) -> Part:
    """Return a shaft of ground bar."""
    slabs = (ring(plan.shaft.bore_m, 0.0, *z),)
    stock = f"ground bar, {plan.stock.told(plan.shaft.bore_m)}, ISO 286 h6"
    return made(name, "steel", slabs, at=at, group=group, fit="h6", stock=stock)


def sleeve(name: str, plan: Plan, z: Span, *, at: Point, group: GroupName) -> Part:
    """Return a sleeve on a shaft, against the inner ring of a bearing."""
    slabs = (ring(plan.shaft.bore_m + 0.004, plan.shaft.bore_m, *z),)
    return made(name, "brass", slabs, at=at, group=group, fit="H8 on the shaft")


def hub(
    name: str, plan: Plan, slabs: tuple[Slab, ...], *, at: Point, group: GroupName, across_rad: float = 0.0
) -> tuple[Part, Part]:
    """Return a hub and the pin that holds it on its shaft, across the middle of its last slab at an angle."""
    whole = made(name, "aluminium", slabs, at=at, group=group, fit="H7/h6 on the shaft")
    return whole, _cross_pin(plan, slabs[-1], at=at, group=group, across_rad=across_rad)


def _cross_pin(plan: Plan, boss: Slab, *, at: Point, group: GroupName, across_rad: float = 0.0) -> Part:
    """Return the pin across the middle of a boss."""
    pins = plan.stock.pins
    length, wide = pins.length(2.0 * float(boss.outline_m[:, 0].max()) - SUNK_M), pins.diameter_m
    middle, half = (boss.z_from_m + boss.z_to_m) / 2.0, length / 2.0
    outline = turned(box(-half, -wide / 2.0, half, wide / 2.0), across_rad)
    cross = Slab(outline, middle - wide / 2.0, middle + wide / 2.0)
    standard = f"{pins.name} {plan.stock.told(wide)} × {plan.stock.told(length)}"
    mass = DENSITIES_KG_M3["steel"] * math.pi * wide**2 / 8.0 * length
    return bought("cross pin", standard, mass, (cross,), at=at, group=group, fit=f"spring pin in {pins.hole}")


def cam(plan: Plan) -> Made:
    """Return the cam, its hub and its screws."""
    display, group, small = plan.display, cam_group(plan), plan.stock.threads["small"]
    drawn, turn = cam_part(display, plan.found), plan.tilt_rad
    spots = [(side * plan.cam_pitch_m, 0.0) for side in (-1.0, 1.0)]
    holes = (Hole(0.0, 0.0, plan.shaft.bore_m, "shaft", "H7"),)
    slots = tuple(_set_slot(plan, way) for way in (0.0, math.pi))
    where: Placing = {"placed_rad": turn, "group": group}
    disc = flat(
        "cam",
        display.cam.material,
        drawn.outline_m,
        plan.cam_z,
        holes=holes,
        slots=slots,
        scribes=drawn.scribes,
        fit="H7/h6 on the shaft",
        **where,
    )
    z = plan.keeper_z[1] + AXIAL_M, plan.cam_z[0]
    tapped = tuple(circle(small.diameter_m, *_turned(spot, turn)) for spot in spots)
    flange = Slab(circle(plan.flange_m), *z, (circle(plan.shaft.bore_m), *tapped))
    screws = tuple(
        screw(
            "cam screw",
            plan.stock,
            small,
            Seat(_turned(spot, turn), plan.cam_z[1], z[0] + 0.0005, z[1]),
            joins=("cam", "cam hub"),
            washer="none",
            group=group,
        )
        for spot in spots
    )
    across = turn + math.pi / 2.0
    return (*hub("cam hub", plan, (flange,), at=(0.0, 0.0), group=group, across_rad=across), disc), screws


def _set_slot(plan: Plan, way_rad: float) -> Slot:
    """Return the slot of a screw of the cam, in which the cam is turned on its hub until the lamp is in time."""
    radius = plan.cam_pitch_m
    first, last = ((radius * math.cos(way), radius * math.sin(way)) for way in (way_rad - SET_RAD, way_rad + SET_RAD))
    return Slot(first, last, plan.stock.threads["small"].passing_m, "screw to the hub", bend_m=radius)


def _turned(point: Point, angle_rad: float) -> Point:
    cosine, sine = math.cos(angle_rad), math.sin(angle_rad)
    return cosine * point[0] - sine * point[1], sine * point[0] + cosine * point[1]


def blades(plan: Plan) -> FloatArray:
    """Return the outline of the propeller: flat blades, as wide as its mass asks, blade 1 to the right. [m]."""
    tip, count = plan.display.propeller.diameter_m / 2.0, plan.display.window.blades
    root, thick = plan.shaft.bore_m / 2.0 + 0.022, plan.propeller_z[1] - plan.propeller_z[0]

    def whole(half: float) -> FloatArray:
        blade = hull((0.0, 0.0, 0.8 * half), (0.55 * tip, 0.0, half), (tip - 0.7 * half, 0.0, 0.7 * half))
        return joined(circle(2.0 * root), *(turned(blade, math.tau * each / count) for each in range(count)))

    low, high = 0.008, 0.3 * tip
    for _ in range(40):
        middle = (low + high) / 2.0
        heavy = area(whole(middle)) * thick * DENSITIES_KG_M3["birch plywood"] > plan.display.propeller.mass_kg
        low, high = (low, middle) if heavy else (middle, high)
    return whole(low)


def _blade_1(plan: Plan) -> Scribe:
    """Return the mark of blade 1, the one that points to the lamp with the propeller at 0."""
    ends = plan.shaft.bore_m / 2.0 + 0.030 + np.array([0.0, 0.008])
    return Scribe(np.column_stack([ends, 0.0 * ends]), "1")


def propeller(plan: Plan, where: Places) -> Made:
    """Return the propeller between its hub and a disc, and their screws."""
    at, medium, (rear, front) = where.propeller_m, plan.stock.threads["medium"], plan.propeller_z
    pitch, outer = plan.shaft.bore_m / 2.0 + 0.012, plan.shaft.bore_m + 0.038
    spots = [
        (pitch * math.cos(way), pitch * math.sin(way))
        for way in (math.pi / 4.0 + math.pi / 2.0 * each for each in range(4))
    ]
    tapped = tuple(circle(medium.diameter_m, *spot) for spot in spots)
    flange = Slab(circle(outer), front, front + HUB_M, (circle(plan.shaft.bore_m), *tapped))
    clear = tuple(Hole(*spot, medium.passing_m, "screw to the hub") for spot in spots)
    bore = Hole(0.0, 0.0, plan.shaft.bore_m, "shaft", "H8")
    turning: Placing = {"at": at, "group": "propeller"}
    holes = (bore, *clear)
    drilled = (
        Hole(0.0, 0.0, plan.shaft.bore_m + LOOSE_M, "shaft, free of it"),
        *(Hole(*spot, medium.loose_m, "screw to the hub") for spot in spots),
    )
    disc = flat(
        "propeller",
        "birch plywood",
        blades(plan),
        plan.propeller_z,
        process="wood",
        holes=drilled,
        scribes=(_blade_1(plan),),
        **turning,
    )
    back = flat("propeller clamp", "aluminium", circle(outer), (rear - CLAMP_M, rear), holes=holes, **turning)
    joins = ("propeller clamp", "propeller", "propeller hub")
    screws = tuple(
        screw(
            "propeller screw",
            plan.stock,
            medium,
            Seat((at[0] + x, at[1] + y), rear - CLAMP_M, front + HUB_M - 0.0005, front),
            joins=joins,
            group="propeller",
        )
        for x, y in spots
    )
    return (*hub("propeller hub", plan, (flange,), at=at, group="propeller"), disc, back), screws


def pulley(name: str, plan: Plan, teeth: int, z: Span, *, at: Point, group: GroupName) -> tuple[Part, Part]:
    """Return a pulley with flanges, pinned to its shaft through the boss behind it."""
    belts = plan.stock.belts
    pitch, side, bore = teeth * belts.tooth_m / math.pi, belts.flange_m / 2.0, plan.shaft.bore_m
    boss = ring(pitch - belts.hub_m, bore, z[0] - belts.boss_m, z[0])
    slabs = (
        boss,
        ring(pitch + 0.004, bore, z[0], z[0] + side),
        ring(pitch - 0.002, bore, z[0] + side, z[1] - side),
        ring(pitch + 0.004, bore, z[1] - side, z[1]),
    )
    pin = _cross_pin(plan, boss, at=at, group=group)
    least = plan.stock.told(float(np.ptp(pin.slabs[0].outline_m[:, 0])) + SUNK_M)
    whole = bought(
        name,
        f"{belts.name} pulley, {teeth} teeth, pilot bore, boss diameter at least {least}",
        DENSITIES_KG_M3["aluminium"] * volume(slabs),
        slabs,
        at=at,
        group=group,
        fit="H7/h6 on the shaft",
        material="aluminium",
    )
    return whole, pin


def belt(name: str, plan: Plan, drive: Drive, z: Span, *, ends: tuple[Point, Point]) -> Part:
    """Return a belt round two pulleys, whose axes are the ends."""
    belts = plan.stock.belts
    side = belts.flange_m / 2.0
    radii = [each * belts.tooth_m / math.tau for each in drive.teeth]

    def loop(out: float) -> FloatArray:
        return hull(*((*end, radius + out) for end, radius in zip(ends, radii, strict=True)))

    slab = Slab(loop(0.0008), z[0] + side, z[1] - side, (loop(-0.001),))
    standard = f"{belts.name}, length {plan.stock.told(drive.length_m)}"
    return bought(name, standard, 0.022 * drive.length_m, (slab,), material="rubber")


def shafts(plan: Plan, where: Places) -> tuple[Part, ...]:
    """Return shafts and sleeves of cam and propeller, and the collar of a propeller shaft of its own."""
    bearing_rear = plan.rear_z[1] - plan.shaft.width_m
    bearing_front = plan.base_z[0] + plan.shaft.width_m
    behind = plan.propeller_z[0] - CLAMP_M - 0.002
    front = plan.cam_z[1]
    hub_z = plan.keeper_z[1] + AXIAL_M
    group = cam_group(plan)
    rear = behind if plan.direct else plan.cam_belt_z[0] - plan.stock.belts.boss_m - 0.001
    first_pulley = plan.belt_z[1] if plan.direct else plan.cam_belt_z[1]
    own = (
        shaft(
            "cam and propeller shaft" if plan.direct else "cam shaft", plan, (rear, front), at=(0.0, 0.0), group=group
        ),
        sleeve("front sleeve", plan, (bearing_front, hub_z), at=(0.0, 0.0), group=group),
        sleeve("rear sleeve", plan, (first_pulley, bearing_rear), at=(0.0, 0.0), group=group),
    )
    if plan.direct:
        return own
    at, collar_z = where.propeller_m, (CAP_M + AXIAL_M, CAP_M + AXIAL_M + 0.008)
    collar = (ring(plan.shaft.bore_m + 0.012, plan.shaft.bore_m, *collar_z),)
    return (
        *own,
        shaft("propeller shaft", plan, (behind, collar_z[1]), at=at, group="propeller"),
        sleeve("front sleeve", plan, (bearing_front, collar_z[0]), at=at, group="propeller"),
        sleeve("rear sleeve", plan, (plan.belt_z[1], bearing_rear), at=at, group="propeller"),
        *hub("shaft collar", plan, collar, at=at, group="propeller"),
    )


def drives(plan: Plan, where: Places) -> tuple[Part, ...]:
    """Return pulleys and belts: from the crank to the propeller, and on to the cam where it is apart."""
    propeller_at, crank = where.propeller_m, where.crank_m
    first, second = where.crank_drive.teeth
    parts = [
        *pulley("crank pulley", plan, first, plan.belt_z, at=crank, group="crank"),
        *pulley("propeller pulley", plan, second, plan.belt_z, at=propeller_at, group="propeller"),
        belt("crank belt", plan, where.crank_drive, plan.belt_z, ends=(crank, propeller_at)),
    ]
    if where.cam_drive is not None:
        first, second = where.cam_drive.teeth
        parts += [
            *pulley("cam drive pulley", plan, first, plan.cam_belt_z, at=propeller_at, group="propeller"),
            *pulley("cam pulley", plan, second, plan.cam_belt_z, at=(0.0, 0.0), group="cam"),
            belt("cam belt", plan, where.cam_drive, plan.cam_belt_z, ends=(propeller_at, (0.0, 0.0))),
        ]
    return tuple(parts)
