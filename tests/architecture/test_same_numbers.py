"""Every command gives the numbers in ``tests/fixtures/before.json.xz``, whatever its words and keys are called.

Each case is a command line and the JSON object it printed. The tables below say what is called otherwise than there.
"""

import json
import lzma
import math
from functools import reduce
from pathlib import Path

import pytest
from click.testing import CliRunner

from viz.cli import main

ROOT = Path(__file__).parents[2]
CASES = json.loads(lzma.decompress((ROOT / "tests/fixtures/before.json.xz").read_bytes()))
CLOSE = 1e-12
"""Of the value; of 1 where the value is less than this, which is rounding left where 0 is meant."""

ARGUMENTS: dict[str, str] = {
    "band": "safe-range",
    "warmth": "cooling",
    "band.propellers.1.bands.1.to_rpm": "safe_range.propellers.1.bands.1.to_rpm",
    "exhibit.sheet.cam.law": "exhibit.cam.law",
    "exhibit.sheet.cam.pressure_angle_deg": "exhibit.cam.pressure_angle_deg",
}
"""Word of a command line there -> here: a command, an option, a path to collect."""
RENAMED: dict[str, dict[str, tuple[str, float]]] = {
    "band": {"propellers.*.price": ("propellers.*.sensitivity", 1.0)},
    "warmth": {"cases.*.clearance_lost_mm": ("cases.*.clearance_lost_m", 1e-3)},
    "exhibit": {
        "cam.base_radius_mm": ("cam.base_radius_m", 1e-3),
        "cam.lift_mm": ("cam.lift_m", 1e-3),
        "cam.min_radius_mm": ("cam.min_radius_m", 1e-3),
        "cam.contact_stress_mpa": ("cam.contact_stress_pa", 1e6),
        "spring.wire_mm": ("spring.wire_m", 1e-3),
        "spring.coil_mm": ("spring.coil_m", 1e-3),
        "spring.rate_n_mm": ("spring.rate_n_per_m", 1e3),
        "spring.stress_mpa": ("spring.stress_pa", 1e6),
    },
}
"""Command there -> path in its JSON -> (path here, number here over number there).

A path is keys and numbers from 0 with dots between, ``*`` for any one of them; what lies below it goes along. The
first path of a command that fits counts.
"""
UNITS: dict[str, tuple[str, float]] = {"mm": ("m", 1e-3), "MPa": ("Pa", 1e6), "%": ("", 1e-2)}
"""Unit there -> (unit here, number here over number there), for the value and limit of a check that names its unit."""
ADDED: dict[str, tuple[str, ...]] = {
    "*": ("cautions",),
    "exhibit": (
        "cam.low_dwell_deg",
        "cam.roller_speed_rpm",
        "spring.full_force_n",
        "spring.free_length_m",
        "spring.solid_length_m",
        "spring.allowed_stress_pa",
        "spring.alternating_stress_pa",
        "spring.rise_energy_j",
        "spring.clash_allowance",
        "drive.shaft_torque_n_m",
        "drive.speed_fluctuation",
        "drive.clutch_n_m",
        "drive.tip_force_n",
        "drive.motor_power_w",
        "checks.*.bound",
        "checks.*.quantity",
    ),
}
"""Command there, ``*`` for every one -> paths that its JSON has only here."""
ROUNDED: dict[str, tuple[str, ...]] = {"exhibit": ("cam.min_radius_mm", "cam.dwell_deg")}
"""Command there -> paths whose numbers were cut to 12 digits there, which is all that can be held."""
REWORDED: dict[str, str] = {
    "a limb at its quickest": "control movement at the pilot's rate limit",
    "greatest lift reached": "maximum lift reached",
    "alpha' = \\Omega": "\\epsilon = \\Omega",
    "alpha' = Ω": "ε = Ω",
    "<mi>alpha'</mi>": "<mi>&#949;</mi>",
    "no steady flight at -45° of bank and 14 m/s": "no steady turn with 45° of left bank at 14 m/s (31.3 mph)",
    "wire stress swing": "alternating wire stress",
    "Mend the items, or let --write set the keys.": "Correct the items, or write the keys from the balance.",
    "band.propellers": "safe_range.propellers",
    "exhibit.sheet": "exhibit",
    " itself; for each taken out, ": ", used in place of this section's values; remove a key to use ",
    "this section's value goes into the derivatives.": "the section's value.",
    "Angle without lift, lift slope and": "Zero-lift angle, lift-curve slope and",
    "of this section go into the derivatives.": "of this section are used for the derivatives.",
    "The scales make the group ": "The weighing suggests that the group ",
    " suspect, heavier": " is heavier",
    " suspect, lighter": " is lighter",
    "listed: a suspicion from two numbers, not a fact.": "listed: check it first.",
    "marked as past builds are shares of": "marked (past builds) are estimated from the group's share of",
    "weigh the part to know better.": "weigh the parts.",
    "The flights go by keys that the items do not bear out:": "Keys used for flight disagree with the item list:",
    "of lead, every round passes ": "of lead: every round clears blade and margin by ",
    " or more clear.": " or more.",
    " this cam would let rounds meet a blade: ": " rounds of this cam strike a blade: ",
    ": the delay has become ": ": with ",
    " of turn, which brings a blade into the window's place.": " of lead a blade is in line when they arrive.",
    "the window and the scatter sweep ": "window and scatter together span ",
    "more than the arc between two blades": "more than the clear arc between two blades",
    "exact form holds from": "exact values are those of",
    " the second pattern on.": " the locked pattern, reached after some rounds.",
    "The air that turned blades carry along adds under": "The added inertia of the air is under",
    " to the value of a wooden": " of the value of a wooden",
    "The value holds the air the airplane carries along,": "The value includes the added inertia of the air:",
    "inertia of a light airplane (NACA": "inertia in tests of light airplanes (NACA",
    "from these wings at most ": "by theory at most ",
    "% of the true inertia. It": "% for these wings. It",
    "It is not taken off here.": "It is not subtracted here.",
    "pitch over roller radius": "pitch curve over roller radius",
    "cutter over hollow radius": "cutter over concave radius",
    "spring index, least": "spring index, minimum",
    "spring index, most": "spring index, maximum",
    "wall round the shaft": "wall around the shaft",
    "dwell up": "high dwell",
    "dwell down": "low dwell",
    "grip at its lowest": "lowest grip height",
    "grip at its highest": "highest grip height",
    "clearance to solid": "clash allowance",
    "play and yielding taken up": "take-up of play and elastic windup",
    "push along the": "pulse along the",
    "weight at -0.4 of it": "weight at -0.4 of the load factor",
    "best place": "best phase",
    "place given": "phase given",
    "The whole engine was swung: ": "The value is that of the whole engine: ",
    "what stands still in flight": "subtract the parts that do not rotate when it runs,",
    " (of a fixed engine all but the running gear)": " in a fixed engine all but",
    " must not be counted as spinning.": " the crankshaft and what it drives.",
}
"""Phrase there -> here, in any text of the JSON."""
UNREAD: dict[str, tuple[str, ...]] = {
    "derive": ("title", "words"),
    "maneuver": ("meaning",),
    "schema": ("description",),
    "sweep": ("meaning",),
}
"""Command there -> keys that hold prose alone, not compared."""


def leaves(value, path=()):
    """Yield the path and the value of every number, text, null and empty table or list."""
    if isinstance(value, dict | list) and value:
        for key, below in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(below, (*path, str(key)))
    else:
        yield path, value


def with_units(value):
    """Return the answer there, each check in the unit of here."""
    if isinstance(value, list):
        return [with_units(item) for item in value]
    if not isinstance(value, dict):
        return value
    unit, factor = UNITS.get(value.get("unit"), ("", 1.0)) if "limit" in value else ("", 1.0)
    if factor == 1.0:
        return {key: with_units(item) for key, item in value.items()}
    numbers = {key: value[key] * factor for key in ("value", "limit") if value[key] is not None}
    return {**value, **numbers, "unit": unit}


def below(path, pattern):
    """Return what stands in place of each ``*`` and what is left of the path; None where the pattern does not fit."""
    steps = pattern.split(".")
    if len(path) < len(steps) or any(step not in ("*", found) for step, found in zip(steps, path, strict=False)):
        return None
    return [found for step, found in zip(steps, path, strict=False) if step == "*"], path[len(steps) :]


def renamed(path, command):
    """Return the path here and the factor."""
    for pattern, (place, factor) in RENAMED.get(command, {}).items():
        if (fit := below(path, pattern)) is not None:
            free, rest = iter(fit[0]), fit[1]
            return (*(next(free) if step == "*" else step for step in place.split(".")), *rest), factor
    return path, 1.0


def close(path, command):
    """Return the error allowed, a share of the number."""
    cut = any(below(path, pattern) is not None for pattern in ROUNDED.get(command, ()))
    return 5e-12 if cut else CLOSE


def same(then, now, factor, close=CLOSE):
    if isinstance(then, str):
        return reduce(lambda text, phrase: text.replace(*phrase), REWORDED.items(), then) == now
    if isinstance(then, bool) or not isinstance(then, int | float):
        return type(then) is type(now) and then == now
    return (
        isinstance(now, int | float)
        and not isinstance(now, bool)
        and math.isclose(now, then * factor, rel_tol=close, abs_tol=CLOSE if abs(then) < CLOSE else 0.0)
    )


def differences(command, then, now):
    """Yield a line for every value that is missing, new or another one."""
    unread = set(UNREAD.get(command, ()))
    here = {path: value for path, value in leaves(now) if not unread & set(path)}
    for place, value in leaves(with_units(then)):
        if unread & set(place):
            continue
        path, factor = renamed(place, command)
        if path not in here:
            yield f"{'.'.join(path)} is missing, {value!r}"
        elif not same(value, found := here.pop(path), factor, close(place, command)):
            yield f"{'.'.join(path)} is {found!r}, not {value!r}{f' times {factor:g}' if factor != 1.0 else ''}"
    added = (*ADDED.get("*", ()), *ADDED.get(command, ()))
    yield from (f"{'.'.join(path)} is new" for path in here if all(below(path, more) is None for more in added))


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_the_numbers_are_the_same(case, monkeypatch):
    monkeypatch.chdir(ROOT)
    result = CliRunner().invoke(main, [ARGUMENTS.get(word, word) for word in case["argv"]])
    assert (result.exit_code, result.stderr) == (0, "")
    assert not list(differences(case["argv"][0], case["answer"], json.loads(result.stdout)))


def test_every_renamed_path_is_there():
    paths = {(case["argv"][0], path) for case in CASES for path, _ in leaves(case["answer"])}
    idle = [
        (command, pattern)
        for command, table in RENAMED.items()
        for pattern in table
        if not any(command == name and below(path, pattern) is not None for name, path in paths)
    ]
    assert not idle


def test_what_differs_is_told(monkeypatch):
    monkeypatch.setitem(RENAMED, "exhibit", {"cam.*.lift_mm": ("shape.*.lift_m", 1e-3)})
    then = {"cam": [{"lift_mm": 6.0}, {"lift_mm": 5.0}], "zero": 0.0, "law": "cycloidal", "passes": True}
    now = {"shape": [{"lift_m": 6e-3 * (1 + 1e-13)}, {"lift_m": 5e-3 * (1 + 1e-11)}], "zero": 1e-11, "passes": 1}
    assert list(differences("exhibit", then, now | {"more": []})) == [
        "shape.1.lift_m is 0.00500000000005, not 5.0 times 0.001",
        "zero is 1e-11, not 0.0",
        "law is missing, 'cycloidal'",
        "passes is 1, not True",
        "more is new",
    ]
