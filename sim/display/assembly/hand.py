"""The crank with its slip clutch, or a geared motor behind one, and the drag brake that limits the speed of either."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.centre import CAP_M
from sim.display.assembly.clutch import CLUTCH_M, clutch_spring, crank_slip
from sim.display.assembly.data import Slab
from sim.display.assembly.places import ARM_END_M, FINGER_M, GRIP_M
from sim.display.assembly.plan import AXIAL_M, SLACK_M
from sim.display.assembly.screws import Seat, screw
from sim.display.assembly.solid import DENSITIES_KG_M3, bought, circle, flat, made, ring, whole_mm
from sim.display.assembly.spring_block import ordered
from sim.display.assembly.turning import hub, shaft, sleeve
from sim.display.shapes import Hole, Scribe, hull

if TYPE_CHECKING:
    from sim.display.assembly.clutch import ClutchSpring
    from sim.display.assembly.data import Fastener, Part
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.solid import Placing

    Point = tuple[float, float]
    Made = tuple[tuple[Part, ...], tuple[Fastener, ...]]

FELT_M = 0.002
"""Thickness of a friction disc. [m]"""
BORE_M = 0.020
"""Depth of the tapped hole in the end of the crank shaft, which ends before the pin of the flange. [m]"""
MOTOR = "permanent-magnet motor with spur gear 37 mm, 12 V, shaft 6 mm"
GRIP_NUT_M = 0.0065
"""Height of the nut and washer of the grip behind the arm. [m]"""
GRIPS = {
    "metric": (
        "DIN 98 revolving handle 22 × 80, M8, spindle cut to {spindle}, with nut ISO 4035 M8 and washer ISO 7089 8"
    ),
    "inch": "revolving handle 7/8 in × 3 1/8 in, 5/16-18, spindle cut to {spindle}, with jam nut and washer 5/16 in",
}
DRIVE_PIN_M = 0.019
"""Radius on which a motor's pins drive the clutch. [m]"""


def clutch_z(plan: Plan) -> tuple[float, ...]:
    """Return the faces of the clutch from the rear on: flange, felt, arm, felt, pressure disc, spring, washer. [m].

    A finger passes between the base and a crank with the nut of its grip.
    """
    layers = (0.008, FELT_M, plan.stock.plate(0.006), FELT_M, 0.004, sprung(plan).set_length_m, 0.003)
    first = CAP_M + AXIAL_M + 0.002
    if plan.display.handle.kind == "crank":
        first = max(first, FINGER_M + GRIP_NUT_M + AXIAL_M - layers[0] - FELT_M)
    faces = [first]
    for layer in layers:
        faces.append(faces[-1] + layer)
    return tuple(faces)


def crank(plan: Plan, where: Places) -> Made:
    """Return the crank shaft with its slip clutch, and the crank or the motor that drives it."""
    at, z, large = where.crank_m, clutch_z(plan), plan.stock.threads["large"]
    bearing = plan.base_z[0] + plan.shaft.width_m, plan.rear_z[1] - plan.shaft.width_m
    bore, rear = plan.shaft.bore_m, plan.disc_z[0] - 0.009
    turning: Placing = {"at": at, "group": "crank"}
    loose = CLUTCH_M, bore + 0.0004
    pressed, spring = pressed_m(plan), sprung(plan)
    end = z[6] - spring.pressed_m
    parts = (
        shaft("crank shaft", plan, (rear, end), at=at, group="crank"),
        sleeve("front sleeve", plan, (bearing[0], z[0]), at=at, group="crank"),
        sleeve("rear sleeve", plan, (plan.belt_z[1], bearing[1]), at=at, group="crank"),
        *hub("clutch flange", plan, (ring(CLUTCH_M, bore, z[0], z[1]),), at=at, group="crank"),
        made("friction disc", "felt", (ring(*loose, z[1], z[2]),), **turning),
        *_driver(plan, where),
        made("friction disc", "felt", (ring(pressed, loose[1], z[3], z[4]),), **turning),
        made("pressure disc", "aluminium", (ring(pressed, bore, z[4], z[5]),), fit="H8 on the shaft", **turning),
        _spring(plan, spring, (z[5], z[6]), turning),
        made(
            "clutch washer",
            "steel",
            (ring(spring.coil_m + spring.wire_m + 0.002, large.passing_m, z[6], z[7]),),
            **turning,
        ),
    )
    held = screw(
        "clutch screw",
        plan.stock,
        large,
        Seat(at, z[7], end - BORE_M + spring.pressed_m + 0.001, end),
        joins=("clutch washer", "crank shaft"),
        group="crank",
        washer="none",
    )
    return _with_bore(parts, large.diameter_m), (held,)


def pressed_m(plan: Plan) -> float:
    """Return the outside diameter of the pressure disc and its felt, smaller between the pins of a motor. [m]."""
    return CLUTCH_M if plan.display.handle.kind == "crank" else plan.shaft.bore_m + 0.020


def sprung(plan: Plan) -> ClutchSpring:
    """Return the spring of the clutch."""
    slip = crank_slip(plan.display, plan.found, plan.spring)
    return clutch_spring(slip, plan.shaft.bore_m, (CLUTCH_M, pressed_m(plan)))


def _spring(plan: Plan, spring: ClutchSpring, z: tuple[float, float], turning: Placing) -> Part:
    """Return the spring of the clutch between two faces."""
    wire, coil = spring.wire_m, spring.coil_m
    mass = DENSITIES_KG_M3["steel"] * math.pi * wire**2 / 4.0 * math.pi * coil * (spring.active_coils + 2.0)
    coils = ring(coil + wire, coil - wire, *z)
    return bought("clutch spring", ordered(plan, spring), mass, (coils,), material="music wire", **turning)


def _with_bore(parts: tuple[Part, ...], thread_m: float) -> tuple[Part, ...]:
    """Return the parts with the tapped hole in the end of the crank shaft."""
    from dataclasses import replace

    first = parts[0]
    rear, front = first.z_from_m, first.z_to_m
    outline = first.slabs[0].outline_m
    slabs = (Slab(outline, rear, front - BORE_M), Slab(outline, front - BORE_M, front, (circle(thread_m),)))
    return (replace(first, slabs=slabs), *parts[1:])


def _driver(plan: Plan, where: Places) -> tuple[Part, ...]:
    """Return what the clutch is driven by: the crank with its grip, or the disc that a motor drives."""
    at, z = where.crank_m, clutch_z(plan)
    bore = Hole(0.0, 0.0, plan.shaft.bore_m, "shaft", "H8")
    if plan.display.handle.kind == "motor":
        pins = tuple(Hole(side * DRIVE_PIN_M, 0.0, 0.005, "drive pin") for side in (-1.0, 1.0))
        return (
            flat(
                "clutch driver",
                "aluminium",
                circle(CLUTCH_M),
                (z[2], z[3]),
                at=at,
                holes=(bore, *pins),
                group="crank",
                fit="H8/h6 on the shaft",
            ),
        )
    radius, eye = plan.display.handle.crank_radius_m, 0.008
    end = Hole(0.0, -radius, eye, "spindle of the grip", "H11")
    arm = flat(
        "crank arm",
        "aluminium",
        hull((0.0, 0.0, CLUTCH_M / 2.0), (0.0, -radius, ARM_END_M)),
        (z[2], z[3]),
        at=at,
        holes=(bore, end),
        scribes=_arrow(radius),
        group="crank",
        fit="H8/h6 on the shaft",
    )
    slabs = (
        ring(0.013, 0.0, z[2] - GRIP_NUT_M, z[2]),
        ring(eye, 0.0, z[2], z[3]),
        ring(GRIP_M, 0.0, z[3] + 0.0005, z[3] + 0.080),
    )
    spindle = plan.stock.told(z[3] - z[2] + GRIP_NUT_M)
    standard = GRIPS[plan.stock.hardware].format(spindle=spindle)
    grip = bought("grip", standard, 0.060, slabs, at=(at[0], at[1] - radius), group="crank", material="phenolic")
    return arm, grip


def _arrow(radius_m: float) -> tuple[Scribe, ...]:
    """Return an arrow on the arm beside its grip, the way that a visitor turns: anticlockwise."""
    y, long, head = 0.022 - radius_m, 0.007, 0.0025
    lines = (
        ([[-long, y], [long, y]], "TURN"),
        ([[long - head, y + head], [long, y]], ""),
        ([[long - head, y - head], [long, y]], ""),
    )
    return tuple(Scribe(np.array(ends), label, along=bool(label)) for ends, label in lines)


def motor(plan: Plan, where: Places) -> Made:
    """Return the motor on its housing, which closes the clutch in; nothing with a crank."""
    if plan.display.handle.kind == "crank":
        return (), ()
    at, z, medium = where.crank_m, clutch_z(plan), plan.stock.threads["medium"]
    top = z[7] + plan.stock.threads["large"].heads_m["socket"][1] + 0.002
    coupling = ring(CLUTCH_M, 0.0, top, top + 0.008)
    pins = tuple(Slab(circle(0.0045, side * DRIVE_PIN_M, 0.0), z[2], top) for side in (-1.0, 1.0))
    end, thick, outer = whole_mm(coupling.z_to_m + 0.002), plan.stock.plate(0.005), circle(0.100)
    deepest = medium.washer.height_m + thick + end - plan.base_z[0] - SLACK_M
    end += plan.stretched(deepest, -plan.base_z[0], medium)
    front = end + thick
    ways = (math.pi / 4.0 + math.pi / 2.0 * each for each in range(4))
    spots = [(0.0435 * math.cos(way), 0.0435 * math.sin(way)) for way in ways]
    clear = tuple(Hole(*spot, medium.passing_m, "screw to the base") for spot in spots)
    room, boss = Hole(0.0, 0.0, 0.074, "clutch"), Hole(0.0, 0.0, 0.012, "motor boss", "H8")
    housing = flat("motor housing", "PLA", outer, (0.0, end), at=at, holes=(room, *clear), process="printed")
    plate = flat("motor plate", "aluminium", outer, (end, front), at=at, holes=(boss, *clear))
    body = (ring(0.006, 0.0, coupling.z_to_m, front), ring(0.037, 0.0, front, front + 0.070))
    fit = "H7/h6 on the motor shaft"
    joint = made("motor coupling", "aluminium", (*pins, coupling), at=at, group="crank", fit=fit)
    joins = ("motor plate", "motor housing", "base")
    seats = (Seat((at[0] + x, at[1] + y), front, plan.base_z[0] + SLACK_M, 0.0) for x, y in spots)
    screws = tuple(screw("motor screw", plan.stock, medium, seat, joins=joins) for seat in seats)
    return (joint, housing, plate, bought("geared motor", MOTOR, 0.21, body, at=at)), screws


def motor_holes(plan: Plan, where: Places) -> tuple[Hole, ...]:
    """Return the holes of the base for the screws of the motor."""
    _, screws = motor(plan, where)
    medium = plan.stock.threads["medium"]
    return tuple(
        Hole(each.x_m, each.y_m, medium.diameter_m, "screw of the motor", f"tapped {medium.name}") for each in screws
    )
