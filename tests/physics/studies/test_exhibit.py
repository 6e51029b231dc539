"""The display of a scenario shows the windows of that scenario's cam, and its answer hangs together."""

import json
import math
import re

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.errors import NoAnswerError
from sim.model.model import model
from sim.studies.exhibit import exhibit
from sim.studies.windows import windows


@pytest.fixture(scope="module")
def sized():
    return exhibit(model(BIPLANE))


LINES = [
    (BIPLANE, "rotary"),
    (BIPLANE, "flat_four"),
    (PARASOL, "flat_six"),
    (PARASOL, "upright_four"),
    (TRIPLANE, "geared_six"),
]


def asked(path, name, *settings):
    return model(path, [f'exhibit.powerplant="{name}"', *settings])


@pytest.mark.parametrize(("path", "name"), LINES)
def test_at_any_lead_the_smallest_cam_can_be_put_in(path, name):
    """The leads of the engines turn the roller to where the cam, as drawn, has a lobe or none: it is turned first."""
    found = {check.name: check.passes for check in exhibit(asked(path, name)).checks}
    assert found["parts that cannot be put in"]
    assert found["parts that meet"]


@pytest.mark.parametrize("ideal", [False, True])
@pytest.mark.parametrize(("path", "name"), LINES)
def test_the_lamp_shows_the_windows_of_the_study_of_windows(path, name, ideal):
    """Set forward by the lead it is lit where `windows` releases; an impulse is the middle of the lit arc."""
    airplane = asked(path, name)
    window = airplane.display(ideal=ideal).window
    row = windows(airplane, powerplant=name, ideal=ideal).rows[-1]
    least = min(each.clearance_deg for each in row.windows_deg)
    either_side = 0.0 if row.open_deg else least
    assert math.degrees(window.lead_rad) == pytest.approx(row.lead_deg)
    assert math.degrees(window.to_rad - window.from_rad) == pytest.approx(row.open_deg + 2.0 * either_side)
    assert math.degrees(window.closed_rad) == pytest.approx(row.blocked_deg)
    shown = [
        math.degrees(window.from_rad - window.lead_rad) + either_side + 360.0 * k / window.openings
        for k in range(window.openings)
    ]
    assert sorted(round(each % 360.0, 6) for each in shown) == [round(each.from_deg, 6) for each in row.windows_deg]


@pytest.mark.parametrize(("path", "name"), LINES)
def test_the_ideal_display_is_lit_for_the_whole_clear_arc(path, name):
    """From the trailing edge of a closed arc to the leading edge of the next, whatever the kind of gear."""
    airplane = asked(path, name)
    line, window = airplane.gun_line(name, ideal=True), airplane.display(ideal=True).window
    half = line.closed_deg / 2.0
    assert math.degrees(window.from_rad) == pytest.approx(half)
    assert math.degrees(window.to_rad) == pytest.approx(360.0 / line.blades - half)


@pytest.mark.parametrize(("path", "name"), LINES)
def test_lamp_and_blades_are_as_far_apart_as_is_said(path, name):
    """Rounds released at many angles while the cam is open, each turned on by the lead and held against the blades."""
    airplane = asked(path, name)
    shown, line = exhibit(airplane).shown, airplane.gun_line(name)
    (first, *_) = line.cam.windows
    released = np.linspace(first.opens_rad, first.closes_rad, 2001)
    passes = np.degrees(released + line.lead_rad(line.spin_rad_s[-1]))
    spacing = 360.0 / line.blades
    half = line.closed_deg / 2.0

    def from_blade(turned):
        return np.min(np.abs((passes + turned + spacing / 2.0) % spacing - spacing / 2.0) - half)

    if shown.clearance_deg < 0.0:  # so far all of them would have to pass earlier or later
        assert from_blade(0.0) < 0.0
        moved = max(from_blade(shown.clearance_deg), from_blade(-shown.clearance_deg))
        assert moved == pytest.approx(0.0, abs=1e-6)
    else:
        assert shown.clearance_deg == pytest.approx(from_blade(0.0), abs=1e-6)
    assert shown.impulses == (line.action == "impulse")
    assert shown.rpm == pytest.approx(line.rpm[-1])


@pytest.mark.parametrize(("dwell", "opens"), [(40.0, 11.0), (93.0, -37.0)])
def test_the_display_follows_the_keys_of_the_cam(dwell, opens):
    airplane = model(BIPLANE, [f'cam.dwell="{dwell} °"', f'cam.opens="{opens} °"'])
    window = airplane.display().window
    lead = math.degrees(airplane.gun_line().lead_rad(airplane.gun_line().spin_rad_s[-1]))
    assert math.degrees(window.from_rad) == pytest.approx((opens + lead) % 180.0)
    assert math.degrees(window.to_rad - window.from_rad) == pytest.approx(dwell)
    made = exhibit(airplane)
    assert made.cam.rise_deg + made.cam.dwell_deg == pytest.approx(dwell)
    assert made.shown.lamp_off_deg - made.shown.lamp_on_deg == pytest.approx(dwell)
    assert made.shown.cam.says.startswith("Fixed cam: ")


def test_a_scenario_without_a_cam_shows_the_ideal_one_and_says_so(tmp_path):
    bare = tmp_path / "bare.toml"
    bare.write_text(
        re.sub(r"\n\[cam\].*?(?=\n\[)", "", BIPLANE.read_text(encoding="utf-8"), flags=re.DOTALL), encoding="utf-8"
    )
    made = exhibit(model(bare))
    assert made.shown.cam.ideal
    assert made.shown == exhibit(model(BIPLANE), ideal=True).shown
    assert made.shown.clearance_deg == 0.0


UNSHOWN = {
    "the cam never shuts, so that the lamp would never go out; give dwell a shorter angle": ['cam.dwell="180 °"'],
    "the display shows a whole number of windows in a turn, and the cam opens 1 times in 2; "
    "give it a whole number, in gun.impulses_per_rev": ["gun.impulses_per_rev=0.5"],
    "the lobes of the display are all alike, and the windows of the cam are at uneven angles; "
    "leave out the windows of the cam, or ask for the ideal cam": ['cam.windows=["0 °", "130 °"]'],
    "at 1250 rpm the impulses of the cam let rounds go that meet a blade or its margin, so that no lamp can show when "
    "they pass clear; give opens another angle, or ask for the ideal cam": [
        'gun.action="impulse"',
        'cam.opens="-64 °"',
    ],
}


@pytest.mark.parametrize("sentence", UNSHOWN)
def test_a_cam_that_equal_lobes_and_a_lamp_cannot_show_is_refused(sentence):
    with pytest.raises(NoAnswerError) as told:
        exhibit(model(BIPLANE, UNSHOWN[sentence]))
    assert str(told.value) == sentence


def test_the_lamp_switches_at_the_ends_of_the_window(sized):
    turn, window = sized.revolution(), sized.display.window
    lit = turn.lift_m > sized.cam.lift_m / 2.0
    edges = np.degrees(turn.propeller_rad[1:][np.diff(lit.astype(int)) != 0])
    ends = math.degrees(window.from_rad), math.degrees(window.to_rad)
    assert edges == pytest.approx([ends[0], ends[1], ends[0] + 180.0, ends[1] + 180.0], abs=0.25)


def test_a_turn_of_the_crank_takes_the_friction_alone(sized):
    turn = sized.revolution()
    work = np.trapezoid(turn.torque_n_m, turn.propeller_rad)
    handle = sized.display.handle
    assert work == pytest.approx(handle.gear * handle.friction_torque_n_m * 2.0 * math.pi, rel=1e-3)


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
    display = model(BIPLANE, ["gun.impulses_per_rev=1", "exhibit.lobes=1"]).display()
    assert display.cam_ratio == 1.0
    assert display.window_rad == pytest.approx(display.window.to_rad - display.window.from_rad)


def test_while_a_check_fails_there_is_nothing_to_cut():
    made = exhibit(model(BIPLANE, ['exhibit.base_radius="8 mm"']))
    assert made.failures
    with pytest.raises(NoAnswerError) as told:
        made.flat_parts()
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
