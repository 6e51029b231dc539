"""Every remark with an airplane on each side of its limit, in whole sentences; the rest are checked by hand."""

import tomllib
from math import atan, cos, degrees, hypot, pi, sin, sqrt
from pathlib import Path

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.flight.stability_margins import static_margin
from sim.model.model import Model
from sim.model.plausibility.propeller import tip_mach
from sim.model.plausibility.remark import Usual, amount
from sim.model.plausibility.remarks import CHECKS
from sim.scenario.reading import load

SIDES = tomllib.loads((Path(__file__).parent / "remarks.toml").read_text(encoding="utf-8"))["side"]
LEAST = Path(__file__).parents[2] / "scenarios" / "valid" / "least.toml"
"""Without gun, items, layout, balance and weighing."""
AIRPLANES = {"biplane": BIPLANE, "parasol": PARASOL, "triplane": TRIPLANE}
INCH_M, FOOT_M, MPH_M_S = 0.0254, 0.3048, 0.44704


def told(file, settings):
    return Model(load(file, settings)).remarks()


@pytest.mark.parametrize("side", SIDES, ids=[side["key"] for side in SIDES])
def test_each_side_of_a_limit(side):
    key, file = side["key"], AIRPLANES[side["airplane"]]
    assert [one.text for one in told(file, side["passes"]) if one.key == key] == []
    said = [one.text for one in told(file, side["fails"]) if one.key == key]
    assert said == [f"{key}: {text}" for text in side["sentences"]]


def test_the_bundled_airplane_passes_without_a_remark():
    assert told("tollgate", ()) == ()


def test_tips_follow_their_helix():
    """A tip that turns at 3/5 of the speed of sound and advances at 4/5 of it is just sonic."""
    assert tip_mach(2.0, 0.6 * 340.0, airspeed_m_s=0.8 * 340.0, sound_m_s=340.0) == pytest.approx(1.0)


def test_the_tip_mach_of_the_flat_four_by_hand():
    sound_m_s = sqrt(1.4 * 287.05287 * (288.15 - 0.0065 * 1000.0 * FOOT_M))
    tips = hypot(0.5 * 74.0 * INCH_M * 3600.0 / 60.0 * 2.0 * pi, 80.0 * MPH_M_S) / sound_m_s
    (said,) = [one.text for one in told(BIPLANE, ["powerplant.flat_four.speed=3600 rpm"]) if "Mach" in one.text]
    assert f"at full speed is {tips:.3g};" in said


def test_the_clearance_of_a_nose_wheel_type_is_that_on_all_wheels():
    """Nose wheel 96 in ahead of the main ones and 6 in higher, disc 36 in ahead of them: nose down by atan(1/16)."""
    pitch = atan(6.0 / 96.0)
    line_in = 51.0 + (7.0 + 36.0 * sin(pitch)) / cos(pitch)
    settings = ["weighing.support.tail.station=-60 in", "weighing.support.tail.waterline=6 in"]
    lower, higher = (told(BIPLANE, [*settings, f"balance.thrust_line={line_in + by} in"]) for by in (-0.01, 0.01))
    assert [sum("nose wheel" in one.text for one in found) for found in (lower, higher)] == [1, 0]


def test_the_static_margin_told_is_that_of_an_airplane_loaded_so():
    """The heaviest pilot and empty tanks as the listed loading: the derivatives are then about that very centre."""
    aftmost = ["item.pilot.mass=220 lb", "item.fuel.mass=0 lb", "item.fuel in the centre section.mass=0 lb"]
    loaded = Model(load(BIPLANE, ["weighing.pilot=190 lb", *aftmost]))
    said = [one.text for one in told(BIPLANE, ()) if "static margin" in one.text]
    for name, text in zip(("rotary", "flat_four"), said, strict=True):
        margin = float(text.partition("chord, is ")[2].partition(" %")[0])
        assert margin == pytest.approx(100.0 * static_margin(loaded.airplane(name).airplane), abs=0.3)


def test_the_wheels_angle_by_hand():
    """From the vertical back to the centre of gravity, and the attitude on three points."""
    found = Model(load(BIPLANE))
    whole = found.mass_state("rotary").whole()
    back = atan((whole.cg_station_m / INCH_M - 36.0) / (whole.cg_waterline_m / INCH_M)) + atan(37.0 / (210.0 - 36.0))
    (said,) = [one.text for one in found.remarks() if "with rotary, tail down" in one.text]
    assert f"is {degrees(back):.4g}°;" in said


def test_a_study_is_told_what_concerns_it():
    found = Model(load(BIPLANE, ["wing.gap=1 ft", "powerplant.rotary.speed=2000 rpm"]))
    keys = {topic: {one.key for one in found.remarks(topic)} for topic in {t for own in CHECKS.values() for t in own}}
    assert [topic for topic in sorted(keys) if "wing.gap" in keys[topic]] == ["handling", "layout", "speeds"]
    assert [topic for topic in sorted(keys) if "powerplant.rotary.speed" in keys[topic]] == [
        "compare",
        "mount",
        "speeds",
        "windows",
    ]


def test_what_cannot_be_known_is_not_told():
    assert [one.key for one in told(LEAST, ())] == ["tailplane.arm"]


def test_a_derivative_of_nothing_is_no_remark_and_no_crash():
    assert not any("static margin" in one.text for one in told(PARASOL, ["derivatives.lift_alpha=0"]))


def test_a_range_and_its_words():
    assert Usual(1.0, None, "").words == "at least 1"
    assert Usual(None, 2.0, "", "mass_kg", "as ordered").words == "at most 2 kg (4.409 lb) (as ordered)"
    assert Usual(0.0, 0.5, "", percent=True).words == "from 0.0 % to 50.0 %"
    assert [Usual(0.0, 1.0, "").holds(value) for value in (-0.1, 0.0, 1.0, 1.1, float("nan"))] == [
        False,
        True,
        True,
        False,
        True,
    ]
    assert amount("station_m", 254.0) == "254000 mm (10000 in)"
    assert amount("", 12345.6) == "12346"


def test_an_inertia_that_a_list_makes_negative_is_told_and_no_crash():
    """A propeller of 1000 kg on an engine that the stated inertia is not of."""
    said = [one.text for one in told(PARASOL, ["powerplant.flat_six.propeller.mass=1000 kg"]) if "gyration" in one.text]
    assert any(" is 0; usual is from " in text for text in said)
