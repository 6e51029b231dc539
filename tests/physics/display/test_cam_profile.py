"""The pitch curve against textbook formulas, and the outline against its own polyline."""

import numpy as np
import pytest

from sim.display.cam_profile import (
    Follower,
    cutter_path,
    profile,
    rest_angle,
    roller_path,
    roller_speed,
    switch_error,
)
from sim.display.outline import cut_angles, path_at
from sim.display.schedule import lift_fraction

LIFT, BASE, ROLLER = 0.006, 0.030, 0.0065
TURN = np.linspace(0.0, 2.0 * np.pi, 7201)[:-1]


def moved(schedule, angle=TURN):
    return tuple(LIFT * part for part in lift_fraction(schedule, angle))


def path_of(schedule, follower, angle=TURN):
    return path_at(schedule, follower, angle, lift_m=LIFT, base_radius_m=BASE)


def fine_polyline(schedule, follower):
    """Return a generated polyline so fine that its own corners tell curvature, and the angles of its corners."""
    angles = cut_angles(schedule, follower, lift_m=LIFT, base_radius_m=BASE, chord_error_m=1e-11, inset_m=ROLLER)
    ends = np.mod(schedule.breaks(), 2.0 * np.pi)
    apart = np.abs(np.mod(angles[:, None] - ends + np.pi, 2.0 * np.pi) - np.pi).min(axis=1)
    return angles, apart > 0.01


def test_the_pressure_angle_of_a_slide_is_the_textbook_one(schedule):
    for offset in (0.0, 0.005, -0.004):
        follower = Follower("translating", ROLLER, offset_m=offset)
        lift, slope, _ = moved(schedule)
        formula = np.arctan((slope - offset) / (lift + np.sqrt((BASE + ROLLER) ** 2 - offset**2)))
        assert path_of(schedule, follower).pressure_angle_rad == pytest.approx(formula, abs=1e-12)


def test_the_pressure_angle_of_an_arm_is_that_of_the_instant_centre(schedule):
    arm, pivot = 0.06, 0.075
    follower = Follower("swinging", ROLLER, arm_m=arm, pivot_m=pivot)
    lift, slope, _ = moved(schedule)
    psi = rest_angle(follower, BASE) + lift / arm
    formula = np.arctan((arm + slope - pivot * np.cos(psi)) / (pivot * np.sin(psi)))
    assert path_of(schedule, follower).pressure_angle_rad == pytest.approx(formula, abs=1e-12)


def outline_curvature(path):
    """Return the curvature of the curve parallel to the pitch curve at the roller's radius."""
    return path.curvature_per_m / (1.0 - ROLLER * path.curvature_per_m)


def test_the_curvature_of_a_slide_in_line_is_the_textbook_one(schedule):
    lift, slope, bend = moved(schedule)
    radius = BASE + ROLLER + lift
    formula = (radius**2 + 2.0 * slope**2 - radius * bend) / (radius**2 + slope**2) ** 1.5
    assert path_of(schedule, Follower("translating", ROLLER)).curvature_per_m == pytest.approx(formula, rel=1e-12)


def test_curvature_and_pressure_angle_of_the_polyline_equal_the_formulas(schedule, follower):
    angles, inside = fine_polyline(schedule, follower)
    path = path_of(schedule, follower, angles)
    outline = profile(path, ROLLER)
    before, after = np.roll(outline, 1), np.roll(outline, -1)
    a, b, c = outline - before, after - outline, after - before
    menger = 2.0 * np.imag(np.conj(a) * b) / np.abs(a * b * c)
    formula = outline_curvature(path)
    assert np.abs(menger + formula)[inside].max() < 1e-4 * np.abs(formula).max()
    tangent = a / np.abs(a) ** 2 + b / np.abs(b) ** 2
    swung = np.zeros(angles.size)
    if follower.kind == "swinging":
        swung = rest_angle(follower, BASE) + moved(schedule, angles)[0] / follower.arm_m
    rising = 1j * np.exp(-1j * swung)
    numeric = np.angle(1j * tangent / (rising * np.exp(-1j * angles)))
    assert np.abs(numeric - path.pressure_angle_rad)[inside].max() < 1e-4


def test_the_outline_is_the_base_circle_on_the_low_dwell(schedule, follower):
    low = np.full(1, schedule.breaks()[3] + schedule.low_dwell_rad / 2.0)
    assert np.abs(profile(path_of(schedule, follower, low), ROLLER)) == pytest.approx([BASE], rel=1e-12)


@pytest.mark.parametrize("cutter", [0.001, 0.003, 0.0065, 0.020])
def test_the_cutter_path_drawn_back_in_is_the_outline(schedule, follower, cutter):
    path = path_of(schedule, follower)
    mill = cutter_path(path, ROLLER, cutter)
    ahead = np.gradient(mill, TURN)
    back = mill - cutter * 1j * ahead / np.abs(ahead)
    assert np.abs(back - profile(path, ROLLER))[2:-2].max() < 2e-7
    assert np.abs(mill - profile(path, ROLLER)) == pytest.approx(np.full(TURN.size, cutter))


def test_a_cutter_as_large_as_the_roller_runs_on_the_pitch_curve(schedule, follower):
    path = path_of(schedule, follower)
    assert cutter_path(path, ROLLER, ROLLER) == pytest.approx(path.centre_m)


def test_a_cam_without_lift_turns_the_roller_by_the_ratio_of_radii():
    follower = Follower("translating", ROLLER)
    still = (np.zeros(3), np.zeros(3), np.zeros(3))
    path = roller_path(follower, BASE, np.arange(3.0), still)
    assert roller_speed(path, ROLLER, 10.0) == pytest.approx(np.full(3, 10.0 * BASE / ROLLER))
    assert outline_curvature(path) == pytest.approx(np.full(3, 1.0 / BASE))


def test_an_outline_drawn_in_too_far_turns_inside_out():
    """A pitch curve tighter than the roller undercuts: the outline's curvature comes out negative."""
    bend = np.array([-0.2])
    path = roller_path(Follower("translating", ROLLER), 0.01, np.zeros(1), (np.zeros(1), np.zeros(1), bend))
    assert path.curvature_per_m[0] > 1.0 / ROLLER
    assert outline_curvature(path)[0] < 0.0


def test_an_arm_that_makes_no_triangle_has_no_answer():
    assert np.isnan(rest_angle(Follower("swinging", ROLLER, arm_m=0.01, pivot_m=0.1), BASE))


def test_a_switch_set_wrong_errs_by_the_lift_over_the_slope():
    assert switch_error(0.006, 2.0, 0.6, 0.0001) == pytest.approx(0.0001 / (0.006 * 2.0 / 0.6))
    assert switch_error(0.0, 2.0, 0.6, 0.0001) == np.inf
