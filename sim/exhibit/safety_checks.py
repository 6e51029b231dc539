"""The checks on spring, propeller, guard, lamp and placard: what does not depend on the shape of the cam."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.exhibit import guard, spring
from sim.exhibit.checks import OWN, Bound, Check, rounded_down, rounded_up
from sim.exhibit.drive import crank_speed, flashes_per_turn
from sim.exhibit.plates import MOST_SWING_RAD, plate_swing

if TYPE_CHECKING:
    from sim.exhibit.display import Display

MOST_TIP_SPEED_M_S = 3.0
_SHIGLEY = "Shigley, ch. 10"
"""Mechanical Engineering Design."""
_EASIER = "a lower spring rate or a smaller lift"
_STOUTER = "a rod inside the spring, or more room for the coil"
_CLASH = spring.CLASH_SHARE * 100.0
_PER_RPM = math.pi / 30.0


def _judged(name: str, value: float, limit: tuple[Bound, float, str], *, source: str, cure: str) -> Check:
    """Return a check, its limit given as bound, number and unit; the cure is kept only where it fails."""
    bound, number, unit = limit
    tried = Check(name, value, bound, number, unit, source)
    return tried if tried.passes else Check(name, value, bound, number, unit, source, cure)


def spring_checks(display: Display, chosen: spring.Spring) -> tuple[Check, ...]:
    """Return the checks of the chosen spring."""
    wish = display.spring
    off = abs(chosen.rate_n_per_m / wish.rate_n_per_m - 1.0) * 100.0
    least, most = spring.INDEX_RANGE
    bears, swings = chosen.allowed_stress_pa / 1e6, spring.SWING_LIMIT_PA / 1e6
    across, along = chosen.outer_m * 1e3, chosen.free_length_m * 1e3
    softer = "a lower preload or spring rate, or more room for the coil"
    nearer = f"a spring rate of {chosen.rate_n_per_m / 1e3:.3g} N/mm"
    coil, length = (f"room for a {what} mm" for what in (f"coil of {rounded_up(across):g}", f"spring of {along:g}"))
    rows: tuple[tuple[str, float, tuple[Bound, float, str], str, str], ...] = (
        ("spring rate error", off, ("at most", spring.RATE_BAND * 100.0, "%"), OWN, nearer),
        ("spring index, least", chosen.index, ("at least", least, ""), _SHIGLEY, softer),
        ("spring index, most", chosen.index, ("at most", most, ""), _SHIGLEY, softer),
        ("wire stress", chosen.stress_pa / 1e6, ("at most", bears, "MPa"), _SHIGLEY, softer),
        ("wire stress swing", chosen.swing_stress_pa / 1e6, ("at most", swings, "MPa"), "Zimmerli", _EASIER),
        ("clearance to solid", chosen.clash * 100.0, ("at least", _CLASH, "%"), _SHIGLEY, "a longer spring"),
        ("spring outside diameter", across, ("at most", wish.outer_space_m * 1e3, "mm"), "space given", coil),
        ("spring free length", along, ("at most", wish.length_space_m * 1e3, "mm"), "space given", length),
        ("spring slenderness", chosen.slenderness, ("at most", spring.SLENDER_LIMIT, ""), _SHIGLEY, _STOUTER),
        ("spring energy", chosen.energy_j, ("at most", spring.ENERGY_LIMIT_J, "J"), OWN, "a lower preload"),
    )
    return tuple(_judged(name, value, limit, source=source, cure=cure) for name, value, limit, source, cure in rows)


def propeller_checks(display: Display) -> tuple[Check, ...]:
    """Return the checks of what turns, and of who turns it."""
    propeller, handle, closed = display.propeller, display.handle, display.enclosure
    top_rpm = propeller.top_speed_rad_s / _PER_RPM
    energy = guard.ENERGY_LIMIT_INTERLOCKED_J if closed.stops_on_opening else guard.ENERGY_LIMIT_J
    slower = top_rpm * math.sqrt(energy / propeller.kinetic_energy_j)
    flashes = flashes_per_turn(display.window.openings, handle.gear)
    most_rpm = guard.most_crank_speed(flashes) / _PER_RPM
    limits = (
        _judged(
            "propeller energy",
            propeller.kinetic_energy_j,
            ("at most", energy, "J"),
            source="ISO 14120",
            cure=f"turn the propeller no faster than {rounded_down(slower):g} rpm",
        ),
        _judged(
            "tip speed",
            propeller.tip_speed_m_s,
            ("at most", MOST_TIP_SPEED_M_S, "m/s"),
            source=OWN,
            cure=f"turn the propeller no faster than "
            f"{rounded_down(top_rpm * MOST_TIP_SPEED_M_S / propeller.tip_speed_m_s):g} rpm",
        ),
        _judged(
            f"{handle.kind} speed for flashes",
            crank_speed(propeller.top_speed_rad_s, handle.gear) / _PER_RPM,
            ("at most", most_rpm, "rpm"),
            source="WCAG 2.3.1",
            cure=f"turn the propeller no faster than {rounded_down(most_rpm * handle.gear):g} rpm",
        ),
    )
    return (*limits, _swing_check(display), *(_reach_checks(display) if handle.kind == "crank" else ()))


def _swing_check(display: Display) -> Check:
    """Return the check that the slot of the lead plate leaves a web."""
    most_deg = math.degrees(MOST_SWING_RAD)
    lobes = math.ceil(math.degrees(display.window.lead_rad) * display.window.openings / most_deg)
    return _judged(
        "lead plate swing",
        math.degrees(plate_swing(display)),
        ("at most", most_deg, "°"),
        source="geometry",
        cure=f"at least {lobes} lobes",
    )


def _reach_checks(display: Display) -> tuple[Check, ...]:
    """Return the checks of the grip's lowest and highest place."""
    height, radius = display.handle.axis_height_m, display.handle.crank_radius_m
    lowest, highest = (height - radius) * 1e3, (height + radius) * 1e3
    low, high = guard.REACH_LOW_M * 1e3, guard.REACH_HIGH_M * 1e3
    return (
        _judged(
            "grip at its lowest",
            lowest,
            ("at least", low, "mm"),
            source="ADA 2010, 308",
            cure=f"a crank shaft at least {rounded_up(low + radius * 1e3, 1.0):g} mm above the floor",
        ),
        _judged(
            "grip at its highest",
            highest,
            ("at most", high, "mm"),
            source="ADA 2010, 308",
            cure=f"a crank shaft at most {rounded_down(high - radius * 1e3, 1.0):g} mm above the floor",
        ),
    )


def guard_checks(display: Display) -> tuple[Check, ...]:
    """Return the checks of the enclosure, the lamp and the placard."""
    closed = display.enclosure
    table = "ISO 13857, table " + ("5" if closed.place == "public" else "4")
    widest = guard.widest_opening(closed.distance_m, closed.shape, closed.place) * 1e3
    narrower = f"openings of at most {widest:g} mm" if widest else "the guard farther out"
    try:
        needed = guard.safety_distance(closed.opening_m, closed.shape, closed.place) * 1e3
        cure = f"the guard at least {needed:g} mm away, or {narrower}"
    except NoAnswerError:
        needed, cure = math.inf, narrower
    if not math.isfinite(needed):
        return (*_opening_too_wide(display, table, narrower), *_gap_and_lamp_checks(display))
    distance = _judged("guard distance", closed.distance_m * 1e3, ("at least", needed, "mm"), source=table, cure=cure)
    return (distance, *_gap_and_lamp_checks(display))


def _opening_too_wide(display: Display, table: str, narrower: str) -> tuple[Check, ...]:
    """Return the failed check of an opening beyond the table."""
    most = 100.0 if display.enclosure.place == "public" else 120.0
    wide = display.enclosure.opening_m * 1e3
    return (_judged("guard opening", wide, ("at most", most, "mm"), source=table, cure=narrower),)


def _gap_and_lamp_checks(display: Display) -> tuple[Check, ...]:
    closed, lamp = display.enclosure, display.lamp
    touchable = guard.TOUCHABLE_V[lamp.supply]
    readable = float(np.round(guard.contrast(lamp.ink, lamp.paper), 3))
    finger = guard.FINGER_GAP_M * 1e3
    return (
        _judged(
            "gap at the blade tips",
            closed.blade_gap_m * 1e3,
            ("at least", finger, "mm"),
            source="ISO 13854, finger",
            cure=f"a gap of at least {finger:g} mm",
        ),
        _judged(
            "lamp voltage",
            lamp.lamp_v,
            ("at most", touchable, "V"),
            source=f"IEC 61140, {lamp.supply}, dry",
            cure=f"a lamp of at most {touchable:g} V {lamp.supply}",
        ),
        _judged(
            "placard contrast",
            readable,
            ("at least", guard.TEXT_CONTRAST, ""),
            source="WCAG 1.4.3",
            cure="a darker ink or a lighter paper, such as #000000 on #ffffff",
        ),
    )


def safety_checks(display: Display, chosen: spring.Spring) -> tuple[Check, ...]:
    """Return every check that does not depend on the shape of the cam."""
    return spring_checks(display, chosen) + propeller_checks(display) + guard_checks(display)
