"""The display of a scenario shows that scenario's firing windows, and its answer hangs together."""

import json
import math

import numpy as np
import pytest
from airplanes import BIPLANE

from sim.errors import NoAnswerError
from sim.model.model import model
from sim.studies.exhibit import exhibit
from sim.studies.windows import window_rows


@pytest.fixture(scope="module")
def sized():
    return exhibit(model(BIPLANE))


@pytest.mark.parametrize("name", ["rotary", "flat_four"])
def test_the_windows_are_those_of_the_study_of_windows(name):
    asked = model(BIPLANE, [f'exhibit.powerplant="{name}"'])
    window = asked.display.window
    row = list(window_rows(asked.gun_line(name, ideal=True)))[-1]
    assert math.degrees(window.lead_rad) == pytest.approx(row.lead_deg)
    assert math.degrees(window.to_rad - window.from_rad) == pytest.approx(row.open_deg)
    assert math.degrees(2.0 * window.from_rad) == pytest.approx(row.blocked_deg)
    released = {round(arc.from_deg, 6) for arc in row.windows_deg}
    shown = {
        round((math.degrees(window.from_rad - window.lead_rad) + 360.0 * k / window.openings) % 360.0, 6)
        for k in range(window.openings)
    }
    assert shown == released


def test_the_lamp_switches_at_the_ends_of_the_window(sized):
    turn, window = sized.revolution(), sized.display.window
    lit = turn.lift_m > sized.cam.lift_m / 2.0
    edges = np.degrees(turn.propeller_rad[1:][np.diff(lit.astype(int)) != 0])
    ends = math.degrees(window.from_rad), math.degrees(window.to_rad)
    assert edges == pytest.approx([ends[0], ends[1], ends[0] + 180.0, ends[1] + 180.0], abs=0.25)


def test_a_turn_of_the_crank_takes_the_friction_alone(sized):
    turn = sized.revolution()
    work = np.trapezoid(turn.torque_n_m, turn.propeller_rad)
    assert work == pytest.approx(sized.display.handle.friction_torque_n_m * 2.0 * math.pi, rel=1e-3)


def test_the_largest_of_a_turn_is_what_the_sheet_says(sized):
    turn = sized.revolution()
    assert np.abs(np.degrees(turn.pressure_angle_rad)).max() == pytest.approx(sized.cam.pressure_angle_deg, rel=1e-3)
    assert turn.torque_n_m.max() == pytest.approx(sized.drive.torque_n_m, rel=1e-3)
    assert sized.drive.crank_force_n * 0.080 == pytest.approx(sized.drive.torque_n_m)


def test_a_motor_gets_torque_power_and_clutch():
    made = exhibit(model(BIPLANE, ['exhibit.drive="motor"', "exhibit.gear_ratio=0.25"]))
    assert made.drive.torque_n_m == pytest.approx(made.drive.shaft_torque_n_m / 4.0)
    assert made.drive.clutch_n_m > made.drive.shaft_torque_n_m
    assert not made.failures


def test_a_window_used_once_a_turn_turns_the_cam_once():
    display = model(BIPLANE, ["gun.impulses_per_rev=1", "exhibit.lobes=1"]).display
    assert display.cam_ratio == 1.0
    assert display.window_rad == pytest.approx(display.window.to_rad - display.window.from_rad)


def test_while_a_check_fails_there_is_nothing_to_cut():
    made = exhibit(model(BIPLANE, ['exhibit.base_radius="15 mm"']))
    assert made.failures
    with pytest.raises(NoAnswerError) as told:
        made.parts()
    failed = "; ".join(f"{check.name}: {check.cure}" for check in made.failures)
    assert str(told.value) == f"nothing is written to cut from while a check fails ({failed})"


def test_an_arm_that_reaches_no_cam_is_an_answer_without_numbers_in_it():
    settings = ['exhibit.follower="swinging"', 'exhibit.arm="5 mm"', 'exhibit.pivot="400 mm"']
    made = exhibit(model(BIPLANE, settings))
    answer = json.loads(made.to_json())
    assert answer["cam"]["pressure_angle_deg"] is None
    assert not made.found.passes


def test_blades_that_leave_no_window_have_no_answer():
    with pytest.raises(NoAnswerError) as told:
        exhibit(model(BIPLANE, ['gun.margin="80 °"']))
    assert str(told.value).endswith(
        "with its margins and leaves no window to show; raise the bore line or take a narrower blade"
    )
