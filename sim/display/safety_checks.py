"""The checks on spring, propeller, guard, lamp and placard: what does not depend on the shape of the cam."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.display import guard, spring
from sim.display.checks import OWN, Check, Limit, check, rounded_down, rounded_up
from sim.display.inert import MOST_FOLLOWER_KG
from sim.display.plates import MOST_SWING_RAD, plate_swing
from sim.errors import NoAnswerError
from sim.units.convert import rpm

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.display import Display
    from sim.display.hand_speed import WorstHand

MOST_TIP_SPEED_M_S = 3.0
MOST_FLASHES = 2.0
"""Flashes in any second: under the three of the standard. [1/s]"""
MOST_LOBES = 4
_SHIGLEY = "Shigley, ch. 10"
"""Mechanical Engineering Design."""


def safety_checks(display: Display, chosen: spring.Spring) -> tuple[Check, ...]:
    """Return every check that does not depend on the shape of the cam."""
    parts = (_follower, _lead_plate, _reach, _guard, _lamp)
    return tuple(map(check, (*_spring(display, chosen), *(limit for part in parts for limit in part(display)))))


def _spring(display: Display, own: spring.Spring) -> Iterator[Limit]:
    """Yield the limits on the chosen spring."""
    asked, (least, most) = display.spring, spring.INDEX_RANGE
    error = abs(own.rate_n_per_m / asked.rate_n_per_m - 1.0)
    softer = "a lower preload or spring rate, or more room for the coil"
    yield Limit(
        "spring rate error",
        "rate_error",
        error,
        "at most",
        spring.RATE_TOLERANCE,
        OWN,
        f"a spring rate of {rounded_up('rate_n_per_m', own.rate_n_per_m, 0.001)}",
    )
    yield Limit("spring index, minimum", "spring_index", own.index, "at least", least, _SHIGLEY, softer)
    yield Limit("spring index, maximum", "spring_index", own.index, "at most", most, _SHIGLEY, softer)
    yield Limit("wire stress", "wire_stress_pa", own.stress_pa, "at most", own.allowed_stress_pa, _SHIGLEY, softer)
    yield from _spring_life(display, own, softer)
    yield Limit(
        "clash allowance",
        "clash_allowance",
        own.clash_allowance,
        "at least",
        spring.CLASH_ALLOWANCE,
        _SHIGLEY,
        "a longer spring",
    )
    yield from _spring_room(display, own)
    yield Limit(
        "spring energy", "spring_energy_j", own.energy_j, "at most", spring.ENERGY_LIMIT_J, OWN, "a lower preload"
    )


def _spring_life(display: Display, own: spring.Spring, softer: str) -> Iterator[Limit]:
    """Yield the limits on the spring when pressed solid, for ever, and on its surge."""
    yield Limit(
        "safety of the spring when solid",
        "solid_safety",
        own.solid_safety,
        "at least",
        spring.SOLID_SAFETY,
        _SHIGLEY,
        softer,
    )
    yield Limit(
        "safety of the spring against fatigue",
        "fatigue_safety",
        own.fatigue_safety,
        "at least",
        spring.FATIGUE_SAFETY,
        "Zimmerli",
        softer,
    )
    lifts = display.cam_top_speed_rad_s * display.cam.lobes / math.tau
    yield Limit(
        "natural frequency of the spring over that of the lift",
        "surge_ratio",
        own.natural_per_s / lifts,
        "at least",
        spring.SURGE_RATIO,
        _SHIGLEY,
        "a slower propeller",
    )


def _spring_room(display: Display, own: spring.Spring) -> Iterator[Limit]:
    """Yield the limits on the room that the spring takes, and on its buckling."""
    yield Limit(
        "spring outside diameter",
        "spring_diameter_m",
        own.outer_m,
        "at most",
        display.spring.outer_space_m,
        "space given",
        f"room for a coil of {rounded_up('spring_diameter_m', own.outer_m)}",
    )
    yield Limit(
        "spring free length",
        "free_length_m",
        own.free_length_m,
        "at most",
        display.spring.length_space_m,
        "space given",
        f"room for a spring of {rounded_up('free_length_m', own.free_length_m)}",
    )
    yield Limit(
        "spring slenderness",
        "spring_slenderness",
        own.slenderness,
        "at most",
        spring.SLENDERNESS_LIMIT,
        _SHIGLEY,
        "a rod inside the spring, or more room for the coil",
    )


def hand_checks(display: Display, worst: WorstHand) -> tuple[Check, ...]:
    """Return the checks on what turns, at the hardest hand."""
    return tuple(map(check, _hand(display, worst)))


def _hand(display: Display, worst: WorstHand) -> Iterator[Limit]:
    """Yield the limits on what turns, at the hardest hand that clutch and brake let through."""
    top, interlocked = display.propeller.top_speed_rad_s, display.enclosure.stops_on_opening
    energy = guard.ENERGY_LIMIT_INTERLOCKED_J if interlocked else guard.ENERGY_LIMIT_J
    weaker = "a softer spring, less friction, or a smaller gear ratio"
    yield Limit("speed at the hardest hand", "crank_speed_rpm", worst.rpm, "at most", rpm(top), OWN, weaker)
    yield Limit(
        "propeller energy", "propeller_energy_j", worst.energy_j, "at most", energy, "ISO 14120", "a lighter propeller"
    )
    yield Limit(
        "tip speed",
        "display_tip_speed_m_s",
        worst.tip_m_s,
        "at most",
        MOST_TIP_SPEED_M_S,
        OWN,
        _slower(MOST_TIP_SPEED_M_S / display.propeller.diameter_m * 2.0),
    )
    yield Limit(
        "flashes in any second",
        "flashes_per_s",
        worst.flashes_per_s,
        "at most",
        MOST_FLASHES,
        "WCAG 2.3.1",
        "a longer pause of the lamp's timer",
    )


def _follower(display: Display) -> Iterator[Limit]:
    """Yield the limit on the mass that moves with the roller, from its parts."""
    most, shorter = MOST_FOLLOWER_KG, "a shorter arm, or a slide"
    yield Limit("follower mass", "follower_kg", display.follower_kg, "at most", most, OWN, shorter)


def _lead_plate(display: Display) -> Iterator[Limit]:
    """Yield the limit that keeps a web beside the slot of the lead plate."""
    lobes = math.ceil(display.window.lead_rad * display.window.openings / MOST_SWING_RAD)
    more = f"at least {lobes} lobes" if lobes <= MOST_LOBES else "a gun line with less lead, or with fewer windows"
    yield Limit(
        "lead plate swing",
        "plate_swing_deg",
        math.degrees(plate_swing(display)),
        "at most",
        math.degrees(MOST_SWING_RAD),
        "geometry",
        more,
    )


def _slower(speed_rad_s: float) -> str:
    return f"turn the propeller no faster than {rounded_down('crank_speed_rpm', rpm(speed_rad_s))}"


def _reach(display: Display) -> Iterator[Limit]:
    """Yield the limits on the lowest and the highest place of a crank's grip."""
    if display.handle.kind != "crank":
        return
    height, radius = display.handle.axis_height_m, display.handle.crank_radius_m
    low, high = guard.REACH_LOW_M, guard.REACH_HIGH_M
    shaft = rounded_up("grip_height_m", low + radius, 1.0), rounded_down("grip_height_m", high - radius, 1.0)
    yield Limit(
        "lowest grip height",
        "grip_height_m",
        height - radius,
        "at least",
        low,
        "ADA 2010, 308",
        f"a crank shaft at least {shaft[0]} above the floor",
    )
    yield Limit(
        "highest grip height",
        "grip_height_m",
        height + radius,
        "at most",
        high,
        "ADA 2010, 308",
        f"a crank shaft at most {shaft[1]} above the floor",
    )


def _guard(display: Display) -> Iterator[Limit]:
    """Yield the limits on the distance and the openings of the guard, and on the gap at the blade tips."""
    closed = display.enclosure
    table = "ISO 13857, table " + ("5" if closed.place == "public" else "4")
    widest = guard.widest_opening(closed.distance_m, closed.shape, closed.place)
    narrower = f"openings of at most {rounded_down('guard_opening_m', widest)}" if widest else "the guard farther out"
    try:
        needed = guard.safety_distance(closed.opening_m, closed.shape, closed.place)
        cure = f"the guard at least {rounded_up('guard_distance_m', needed)} away, or {narrower}"
        yield Limit("guard distance", "guard_distance_m", closed.distance_m, "at least", needed, table, cure)
    except NoAnswerError:
        most = guard.largest_opening(closed.place)
        yield Limit("guard opening", "guard_opening_m", closed.opening_m, "at most", most, table, narrower)
    yield Limit(
        "gap at the blade tips",
        "blade_gap_m",
        closed.blade_gap_m,
        "at least",
        guard.FINGER_GAP_M,
        "ISO 13854, finger",
        f"a gap of at least {rounded_up('blade_gap_m', guard.FINGER_GAP_M)}",
    )


def _lamp(display: Display) -> Iterator[Limit]:
    """Yield the limits on the voltage of the lamp and on the contrast of the placard."""
    lamp, most = display.lamp, guard.TOUCHABLE_V[display.lamp.supply]
    yield Limit(
        "lamp voltage",
        "lamp_v",
        lamp.lamp_v,
        "at most",
        most,
        f"IEC 61140, {lamp.supply}, dry",
        f"a lamp of at most {rounded_down('lamp_v', most)} {lamp.supply}",
    )
    yield Limit(
        "placard contrast",
        "contrast",
        round(guard.contrast(lamp.ink, lamp.paper), 3),
        "at least",
        guard.TEXT_CONTRAST,
        "WCAG 1.4.3",
        "a darker ink or a lighter paper, such as #000000 on #ffffff",
    )
