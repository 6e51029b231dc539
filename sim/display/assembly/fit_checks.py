"""Checks of the display as it is put together: fit, sizes that are sold, shafts, nips, stability, weight."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.display import guard
from sim.display.assembly.hand import GRIP_NUT_M, clutch_z
from sim.display.assembly.housing import LEVER_SLOT_M
from sim.display.assembly.lever_force import lever_force, plate_torque
from sim.display.assembly.places import ARM_END_M, FINGER_M, HAND_M, RATIO_TOLERANCE, places
from sim.display.assembly.shaft import (
    HAND_N,
    LEAST_TURNS,
    MOST_DEFLECTION_M,
    SHAFT_SAFETY,
    STATIC_SAFETY,
    YIELD_PA,
    overhung,
    rating_life,
    tipping_pull,
)
from sim.display.assembly.target import lamp_spot
from sim.display.checks import OWN, Limit, rounded_up
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Fastener, Part
    from sim.display.assembly.interference import Clash
    from sim.display.assembly.places import Places
    from sim.display.assembly.plan import Plan
    from sim.display.assembly.sequence import Barred

EXACT_M = 1e-6
"""Most by which a shaft or a roller may miss the size that is sold. [m]"""
MOST_CAM_WIDTH = 2.0
"""Most width of the cam over that of its roller."""
LEAST_PULL_N = 100.0
"""Least pull at the grip toward the visitor that may tip the display, not clamped: a child who leans. Own limit. [N]"""
MOST_CARRIED_KG = 33.0
"""What two adults carry: two thirds of twice the reference mass of 25 kg, ISO 11228-1. [kg]"""
CRANK_BELT = "crank belt"
ACROSS_CAM = ("cam screw", "roller pin")
"""Screws that a thicker cam lengthens."""
SHORTER = "a shorter crank"
MOST_NIP_N = 75.0
"""Force of what closes on a finger: ISO 14120. [N]"""


def fit_checks(assembly: Assembly, plan: Plan, found: tuple[Clash, ...], lost: tuple[Barred, ...]) -> Iterator[Limit]:
    """Yield the limits on the display as it is put together; `found` are the parts that meet, `lost` what is barred."""
    where = _where(assembly, plan)
    yield _meeting(found)
    yield from _put_together(lost)
    yield from _sold(plan, where)
    yield _threads(assembly)
    yield from _shafts(plan)
    yield _lever(plan)
    yield from _nips(plan, where)
    yield from _standing(assembly, plan, where)


def _where(assembly: Assembly, plan: Plan) -> Places:
    from sim.display.assembly.build import OUTSIDE

    moving = (part for part in assembly.parts if part.group in ("lead plate", "follower"))
    return places(plan, tuple(part for part in moving if part.name not in OUTSIDE))


def _meeting(found: tuple[Clash, ...]) -> Limit:
    names = "; ".join(f"{each.first} and {each.second}" for each in found[:3])
    cure = f"another size for what meets: {names}"
    return Limit("parts that meet", "clashes", float(len(found)), "at most", 0.0, "geometry", cure)


def _put_together(lost: tuple[Barred, ...]) -> Iterator[Limit]:
    """Yield that every part comes into its place in the order of the steps, and a tool to every screw."""
    for name, quantity, tool in (
        ("parts that cannot be put in", "barred_parts", False),
        ("screws that no tool reaches", "barred_tools", True),
    ):
        found = [each for each in lost if each.tool is tool]
        names = "; ".join(f"{each.name}, behind {each.by}" for each in found[:3])
        cure = f"another size for what stands in the way: {names}"
        yield Limit(name, quantity, float(len(found)), "at most", 0.0, "geometry", cure)


def _sold(plan: Plan, where: Places) -> Iterator[Limit]:
    """Yield the limits that keep to sizes that are sold."""
    display, shaft, roller = plan.display, plan.shaft, plan.roller
    bore, outer = 2.0 * display.cam.shaft_radius_m, 2.0 * display.follower.roller_radius_m
    sold = [brief("shaft_diameter_m", each) for each in plan.stock.bores(bore)]
    yield Limit(
        "shaft less bore of its bearing",
        "size_error_m",
        round(abs(bore - shaft.bore_m), 9),
        "at most",
        EXACT_M,
        shaft.name,
        f"a shaft of {' or '.join(sold)}",
    )
    size = brief("roller_diameter_m", roller.outer_m)
    yield Limit(
        "roller less bearing that is sold",
        "size_error_m",
        round(abs(outer - roller.outer_m), 9),
        "at most",
        EXACT_M,
        roller.name,
        f"a roller of {size}",
    )
    width = display.cam.face_width_m / roller.width_m
    thinner = f"a cam thickness of at most {brief('face_width_m', MOST_CAM_WIDTH * roller.width_m)}"
    yield Limit("cam thickness over roller width", "width_ratio", width, "at most", MOST_CAM_WIDTH, OWN, thinner)
    for name, drive, asked in (
        (CRANK_BELT, where.crank_drive, display.handle.gear),
        ("cam belt", where.cam_drive, display.cam_ratio),
    ):
        if drive is not None:
            error = abs(drive.ratio / asked - 1.0)
            most = RATIO_TOLERANCE if name == CRANK_BELT else 1e-9
            cure = f"a gear ratio of {brief('gear', drive.ratio)}"
            yield Limit(f"{name}, error of ratio", "ratio_error", error, "at most", most, plan.stock.belts.name, cure)


def _threads(assembly: Assembly) -> Limit:
    """Return the limit on the least engaged tapped thread, over its diameter."""
    least, cure = math.inf, "a thicker plate"
    for screw in assembly.fasteners:
        if not screw.nut.startswith("tapped"):
            continue
        holder = next(part for part in assembly.parts if part.name == screw.joins[-1])
        pieces = screw.slabs[1]
        low, high = max(pieces.z_from_m, holder.z_from_m), min(pieces.z_to_m, holder.z_to_m)
        share = (high - low) / (2.0 * float(pieces.outline_m[:, 0].max()))
        if share < least:
            least, cure = share, "a thinner cam" if screw.name in ACROSS_CAM else "a thicker plate"
    return Limit(
        "engaged thread over diameter",
        "engaged",
        round(least, 9),
        "at least",
        1.0,
        "common practice",
        cure,
    )


def _shafts(plan: Plan) -> Iterator[Limit]:
    """Yield the limits on the crank shaft under one hand, which loads it more than anything else loads another."""
    bearing, z = plan.shaft, clutch_z(plan)
    span = (plan.base_z[0] + bearing.width_m / 2.0) - (plan.rear_z[1] - bearing.width_m / 2.0)
    crank = plan.display.handle.kind == "crank"
    arm = (z[3] + 0.040 if crank else z[5]) - plan.base_z[0] - bearing.width_m / 2.0
    bent = overhung(bearing.bore_m, force_n=HAND_N, span_m=span, arm_m=arm)
    stronger = "a larger shaft"
    yield Limit(
        "bending stress of the crank shaft",
        "shaft_stress_pa",
        bent.bent_pa,
        "at most",
        YIELD_PA / SHAFT_SAFETY,
        "Shigley, A-20",
        stronger,
    )
    yield Limit(
        "deflection at the grip", "deflection_m", bent.deflection_m, "at most", MOST_DEFLECTION_M, OWN, stronger
    )
    yield Limit(
        "static safety of the bearing",
        "bearing_safety",
        bearing.static_n / bent.reaction_n,
        "at least",
        STATIC_SAFETY,
        "ISO 76",
        stronger,
    )
    life = rating_life(bearing.dynamic_n, bent.reaction_n) / LEAST_TURNS
    yield Limit("rating life of the bearing over that asked", "life_ratio", life, "at least", 1.0, "ISO 281", stronger)


def _lever(plan: Plan) -> Limit:
    """Return the limit on the force that sets the lead plate, whose friction holds it against the cam."""
    force = lever_force(plate_torque(plan), plan.post_m)
    most = guard.OPERATING_FORCE_LIMIT_N
    return Limit("force at the lever", "lever_n", force, "at most", most, "ADA 2010, 309.4", "a softer spring")


def _nips(plan: Plan, where: Places) -> Iterator[Limit]:
    """Yield the limits where something closes on a hand: each is too weak, too narrow, or wide enough."""
    display, spring = plan.display, plan.spring
    force = spring.full_force_n * display.spring_ratio
    yield Limit("force of cam and roller", "nip_n", force, "at most", MOST_NIP_N, "ISO 14120", "a softer spring")
    narrow = guard.safety_distance(LEVER_SLOT_M, "slot", "public")
    yield Limit(
        "slot of the lever to the cam",
        "nip_gap_m",
        plan.post_m - LEVER_SLOT_M / 2.0 - plan.cam_radius_m,
        "at least",
        narrow - plan.cover_z[0] + plan.cam_z[1],
        "ISO 13857",
        "a smaller cam",
    )
    if display.handle.kind == "crank":
        gap = where.crank_m[1] - display.handle.crank_radius_m - ARM_END_M - where.foot_m
        yield Limit("crank to the board below", "nip_gap_m", gap, "at least", HAND_M, "ISO 13854, hand", SHORTER)
        gap = clutch_z(plan)[2] - GRIP_NUT_M
        yield Limit("crank to the base behind it", "nip_gap_m", gap, "at least", FINGER_M, "ISO 13854, finger", SHORTER)


def _standing(assembly: Assembly, plan: Plan, where: Places) -> Iterator[Limit]:
    """Yield the limits on how it stands, what it weighs, and whether its lamp is seen."""
    display = plan.display
    low = assembly.foot_m
    height = display.handle.axis_height_m - (where.crank_m[1] - low)
    higher = f"a crank height of at least {rounded_up('grip_height_m', display.handle.axis_height_m - height, 1.0)}"
    yield Limit("height of its table", "table_height_m", height, "at least", 0.0, "geometry", higher)
    pieces: list[Part | Fastener] = [*assembly.parts, *assembly.fasteners]
    middle = sum(each.mass_kg * (each.z_from_m + each.z_to_m) / 2.0 for each in pieces) / assembly.mass_kg
    front = max(part.z_to_m for part in assembly.parts if part.name == "footboard")
    pull = tipping_pull(assembly.mass_kg, arm_m=front - middle, height_m=where.crank_m[1] - low)
    yield Limit(
        "pull at the grip that tips it", "tipping_n", pull, "at least", LEAST_PULL_N, OWN, "a heavier propeller guard"
    )
    yield Limit(
        "mass for two to carry",
        "display_mass_kg",
        assembly.mass_kg,
        "at most",
        MOST_CARRIED_KG,
        "ISO 11228-1",
        "a smaller propeller",
    )
    seen = lamp_spot(plan, where)[0] - where.base_half_m
    yield Limit("lamp beside the mast", "lamp_gap_m", seen, "at least", 0.010, "geometry", "a larger propeller")
