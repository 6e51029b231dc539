"""Every check can fail, and what it proposes as a cure cures it."""

import math
import re
from dataclasses import replace

import numpy as np
import pytest

from sim.display.cam_checks import cam_checks
from sim.display.cam_profile import Follower
from sim.display.checks import Limit, check, rounded_down, rounded_up
from sim.display.hand_speed import WorstHand
from sim.display.safety_checks import hand_checks, safety_checks
from sim.display.search import smallest_cam
from sim.display.spring import choose

RPM = math.pi / 30.0


def judged(made, law="cycloidal", rise_deg=25.0, base_mm=45.0):
    spring = choose(made.spring)
    shape = cam_checks(made, spring, law, rise_rad=math.radians(rise_deg), base_radius_m=base_mm / 1e3)
    return {check.name: check for check in shape + safety_checks(made, spring)}


def number(cure):
    return float(re.search(r"[\d.]+", cure)[0])


def test_the_display_of_these_tests_passes_all(display):
    made = display()
    spring = choose(made.spring)
    found = smallest_cam(made, spring)
    checks = cam_checks(made, spring, found.law, rise_rad=found.rise_rad, base_radius_m=found.base_radius_m)
    assert not [check.name for check in checks + safety_checks(made, spring) if not check.passes]


@pytest.mark.parametrize("name", ["pressure angle", "pitch curve over roller radius", "contact stress"])
def test_the_base_circle_proposed_is_the_nearest_that_passes(display, name):
    made = display(cam={"face_width_m": 0.0015})
    bad = judged(made, base_mm=15.0)[name]
    assert not bad.passes
    assert re.fullmatch(r"a base circle of at least [\d.]+ mm radius", bad.cure)
    assert judged(made, base_mm=number(bad.cure))[name].passes
    assert not judged(made, base_mm=number(bad.cure) - 0.5)[name].passes


def test_a_base_circle_beyond_the_space_is_proposed_with_the_space_for_it(display):
    """The largest radius of a cam is its base circle and the lift."""
    tight = display(cam={"face_width_m": 0.0015, "space_m": 0.04})
    bad = judged(tight, base_mm=15.0)["contact stress"]
    base, space = map(float, re.findall(r"([\d.]+) mm", bad.cure))
    assert re.fullmatch(r"a base circle of at least [\d.]+ mm radius, in a space of at least [\d.]+ mm", bad.cure)
    assert 2.0 * (base + 1e3 * tight.cam.lift_m) <= space < 2.0 * (base + 1e3 * tight.cam.lift_m) + 1.0
    roomy = display(cam={"face_width_m": 0.0015, "space_m": space / 1e3})
    assert judged(roomy, base_mm=base)["cam diameter"].passes


def test_where_no_base_circle_eases_the_contact_a_thicker_cam_does(display):
    bad = judged(display(cam={"face_width_m": 0.0004}))["contact stress"]
    assert re.fullmatch(r"a cam thickness of at least [\d.]+ mm", bad.cure)
    thick = display(cam={"face_width_m": number(bad.cure) / 1e3})
    assert judged(thick)["contact stress"].passes


def test_a_cutter_too_large_for_the_hollow_asks_for_a_larger_base_circle(display):
    made = display(cam={"cutter_radius_m": 0.035})
    bad = judged(made, base_mm=25.0)["cutter over concave radius"]
    assert not bad.passes
    assert judged(made, base_mm=number(bad.cure))["cutter over concave radius"].passes


def test_an_arm_that_never_fits_is_said_so(display):
    made = display(follower=Follower("swinging", 0.0065, arm_m=0.001, pivot_m=0.5))
    bad = judged(made)["pressure angle"]
    assert bad.cure == "another follower: no base circle up to 300 mm would do with this one"


def test_a_wide_rise_is_cut_down(display):
    made = display(cam={"setting_error_m": 0.0007})
    bad = judged(made, rise_deg=35.0)
    assert not bad["lamp error"].passes
    assert judged(made, rise_deg=number(bad["lamp error"].cure))["lamp error"].passes
    assert not judged(made, rise_deg=39.5)["low dwell"].passes
    assert judged(made, rise_deg=number(judged(made, rise_deg=39.5)["low dwell"].cure))["low dwell"].passes
    assert judged(made, rise_deg=139.5)["high dwell"].cure == "a rise of at most 139°"


@pytest.mark.parametrize(
    ("ends_deg", "dwell", "cure"),
    [
        ((80.0, 80.9), "high dwell", "a gun's cam with a longer window, or the ideal cam"),
        ((10.0, 189.2), "low dwell", "a gun's cam with a shorter window, or the ideal cam"),
    ],
)
def test_where_no_rise_leaves_a_dwell_the_window_is_what_is_to_change(display, ends_deg, dwell, cure):
    start, end = map(math.radians, ends_deg)
    assert judged(display(window={"from_rad": start, "to_rad": end}), rise_deg=5.0)[dwell].cure == cure


CHANGES = {
    "float speed": (
        {"follower_kg": 60.0},
        lambda made, value: replace(made, propeller=replace(made.propeller, top_speed_rad_s=value * RPM)),
    ),
    "cam diameter": (
        {"cam": {"space_m": 0.07}},
        lambda made, value: replace(made, cam=replace(made.cam, space_m=value / 1e3)),
    ),
    "crank force": (
        {"handle": {"crank_radius_m": 0.004}},
        lambda made, value: replace(made, handle=replace(made.handle, crank_radius_m=value / 1e3)),
    ),
    "lowest grip height": (
        {"handle": {"axis_height_m": 0.4}},
        lambda made, value: replace(made, handle=replace(made.handle, axis_height_m=value / 1e3)),
    ),
    "highest grip height": (
        {"handle": {"axis_height_m": 1.2}},
        lambda made, value: replace(made, handle=replace(made.handle, axis_height_m=value / 1e3)),
    ),
    "guard distance": (
        {"enclosure": {"distance_m": 0.005}},
        lambda made, value: replace(made, enclosure=replace(made.enclosure, distance_m=value / 1e3)),
    ),
    "guard opening": (
        {"enclosure": {"opening_m": 0.150}},
        lambda made, value: replace(made, enclosure=replace(made.enclosure, opening_m=value / 1e3)),
    ),
    "gap at the blade tips": (
        {"enclosure": {"blade_gap_m": 0.010}},
        lambda made, value: replace(made, enclosure=replace(made.enclosure, blade_gap_m=value / 1e3)),
    ),
    "lamp voltage": (
        {"lamp": {"lamp_v": 48.0, "supply": "ac"}},
        lambda made, value: replace(made, lamp=replace(made.lamp, lamp_v=value)),
    ),
    "lead plate swing": (
        {"cam": {"lobes": 1}, "window": {"lead_rad": math.radians(150.0)}},
        lambda made, value: replace(made, cam=replace(made.cam, lobes=int(value))),
    ),
    "spring outside diameter": (
        {"spring": {"outer_space_m": 0.002, "preload_n": 1.0}},
        lambda made, value: replace(made, spring=replace(made.spring, outer_space_m=value / 1e3)),
    ),
    "spring free length": (
        {"spring": {"length_space_m": 0.012}},
        lambda made, value: replace(made, spring=replace(made.spring, length_space_m=value / 1e3)),
    ),
}


@pytest.mark.parametrize("name", CHANGES)
def test_the_cure_cures(display, name):
    parts, cured = CHANGES[name]
    bad = display(**parts)
    failed = judged(bad)[name]
    assert not failed.passes
    assert failed.margin < 0.0
    good = judged(cured(bad, number(failed.cure)))
    assert name not in good or good[name].passes


def test_the_stop_on_opening_allows_more_energy(display):
    hard = WorstHand(70.0, 2.0, 2.2, energy_j=6.0)
    energy = {each.name: each for each in hand_checks(display(), hard)}["propeller energy"]
    assert not energy.passes
    stops = display(enclosure={"stops_on_opening": True})
    assert {each.name: each for each in hand_checks(stops, hard)}["propeller energy"].limit == 10.0


def test_a_motor_is_held_by_its_clutch(display):
    made = judged(display(handle={"kind": "motor", "friction_torque_n_m": 40.0}))
    assert not made["tip force at the slip clutch"].passes
    assert "crank force" not in made
    assert "lowest grip height" not in made


def test_pale_ink_on_white_paper_fails(display):
    assert judged(display(lamp={"ink": "#777777"}))["placard contrast"].cure == (
        "a darker ink or a lighter paper, such as #000000 on #ffffff"
    )


def test_spring_limits_fail_one_by_one(display):
    hard = judged(display(spring={"preload_n": 20.0, "outer_space_m": 0.004, "length_space_m": 0.010}))
    failed = [name for name, check in hard.items() if not check.passes]
    assert {"wire stress", "spring free length"} & set(failed)


def test_a_check_without_a_value_fails():
    assert not check(Limit("x", "limit", float("nan"), "at most", 1.0, "")).passes
    assert check(Limit("x", "limit", 1.0, "at least", 1.0, "")).passes
    assert np.isclose(check(Limit("x", "limit", 0.4, "at most", 1.0, "")).margin, 0.6)


def test_a_check_says_value_and_limit_in_the_unit_of_its_quantity(display):
    made = judged(display())
    assert (made["contact stress"].unit, made["contact stress"].limit) == ("Pa", 200e6)
    assert (made["cam diameter"].unit, made["cam diameter"].limit) == ("m", 0.120)
    assert (made["spring rate error"].unit, made["spring rate error"].limit) == ("", 0.05)
    assert (made["float speed"].unit, made["float speed"].limit) == ("rpm", pytest.approx(180.0))


def test_a_number_is_rounded_to_the_safe_side():
    assert rounded_up("cam_diameter_m", 0.1202) == "120.2 mm"
    assert rounded_up("cam_diameter_m", 0.12021, 0.5) == "120.5 mm"
    assert rounded_down("rise_deg", 28.99) == "28.9°"
