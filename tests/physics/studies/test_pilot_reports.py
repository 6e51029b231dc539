"""What pilots reported beside what the model gives: the handbook's page, and that a verdict is the model's."""

import doctest
from pathlib import Path

import pytest
from airplanes import BIPLANE
from shared import built

import viz
from sim.errors import InputError
from sim.model.model import model
from sim.studies.handling import handling
from sim.studies.pilot_reports import REPORTS, pilot_reports

PAGE = Path(viz.__file__).parent / "handbook" / "pilot_reports.md"


@pytest.fixture(scope="module")
def reports():
    return pilot_reports(built(BIPLANE), "rotary")


def test_every_verdict_on_the_page_is_that_of_the_model():
    result = doctest.testfile(str(PAGE), module_relative=False)
    assert result.failed == 0
    assert result.attempted > 15


def test_the_page_asks_every_statement_once():
    text = PAGE.read_text(encoding="utf-8")
    asked = [text.count(f'print(reports["{name}"])') for name in REPORTS]
    assert asked == [1] * len(REPORTS)


def test_sources_are_named_and_each_is_used():
    text = PAGE.read_text(encoding="utf-8")
    told, sources = text.split("## Sources")
    for number in range(1, sources.count("\n") - 1):
        assert f"\n{number}. " in sources
        assert any(f"{left}{number}{right}" in told for left in ("[", " ") for right in ("]", ","))


def test_verdicts_follow_the_turns_that_handling_prints(reports):
    left, right = handling(built(BIPLANE), banks_deg=(-60.0, 60.0)).powerplants["rotary"].turns
    assert reports["nose in steep turns"].agrees == (left.gyro_pitch_n_m > 0.0 > right.gyro_pitch_n_m)
    assert reports["left foot in both turns"].agrees == (min(left.rudder_share, right.rudder_share) > 0.0)
    assert reports["almost full left rudder to the right"].agrees == (right.rudder_share >= 0.8)
    assert f"{abs(left.rudder_share):.0%} left" in reports["full right rudder to the left"].found


def test_a_verdict_changes_with_the_airplane(reports):
    """With a rotor next to none the right turn no longer asks for the left foot."""
    light = {"cylinder_mass": "0.5 lb", "crankcase_mass": "2 lb", "piston_mass": "0.1 lb", "rod_mass": "0.1 lb"}
    parts = tuple(f"powerplant.rotary.parts.{name}={mass}" for name, mass in light.items())
    light = pilot_reports(model(BIPLANE, (*parts, "powerplant.rotary.propeller.mass=3 lb")), "rotary")
    assert reports["left foot in both turns"].agrees
    assert not light["left foot in both turns"].agrees


def test_statements_are_of_a_clockwise_rotary_alone():
    with pytest.raises(InputError) as told:
        pilot_reports(built(BIPLANE), "flat_four")
    assert "must be a rotary that turns clockwise, as those of the reports" in str(told.value)
