"""What the viewer is handed: engines that turn as the kinematics say, a gun whose rate is the closed form."""

import math
from dataclasses import replace
from random import Random

import pytest
from airplanes import BIPLANE
from hypothesis import given, settings
from hypothesis import strategies as st

from sim.live.engine import engine_picture
from sim.live.flight import by_stick, full_arrow_n_m, reading
from sim.live.gun import GunState, advance, reached_rounds_per_min, touches, wait_rad
from sim.live.scene_data import stage
from sim.model.model import model
from sim.synchronizer.cam import even, uneven
from sim.synchronizer.rate import impulse_rate, interrupter_rate, steady_rate
from sim.synchronizer.timed_gun import Scatter, TimedGun, fitted, timed

STAGE = stage(model(BIPLANE))


def fired(gun, seconds, *, step_s=1.0 / 240.0, seed=1):
    """Let the gun run and return its last state and every round that passed."""
    state, chance, passed = GunState(), Random(seed), []
    for _ in range(round(seconds / step_s)):
        state = advance(state, gun, step_s, chance)
        passed += state.passed
    return state, passed


def steady(**changes):
    """Return the gun without scatter, its cam fitted to the speed of the stage."""
    return fitted(replace(STAGE.gun.line, **changes), STAGE.gun.spin_rad_s)


def test_without_scatter_every_round_of_a_matching_cam_passes_clear():
    for action in ("interrupter", "impulse"):
        state, passed = fired(steady(action=action), 20.0)
        assert len(passed) > 100
        assert state.strikes == 0
        assert not any(round_.struck for round_ in passed)


def test_the_rate_on_the_stage_is_the_closed_form():
    gun = steady(action="interrupter")
    state, _ = fired(gun, 60.0)
    passages = gun.spin_rad_s / math.tau * 60.0 * gun.line.blades
    closed = gun.line.blades * gun.line.closed_rad / math.tau
    exact = interrupter_rate(passages, gun.line.gun_rounds_per_min, blocked=closed).rounds_per_min.item()
    assert reached_rounds_per_min(state) == pytest.approx(exact, rel=2e-3)


def test_the_rate_by_impulses_is_the_closed_form():
    gun = steady(action="impulse")
    state, _ = fired(gun, 60.0)
    passages = gun.spin_rad_s / math.tau * 60.0 * gun.line.blades
    exact = impulse_rate(passages, gun.line.gun_rounds_per_min).rounds_per_min.item()
    assert reached_rounds_per_min(state) == pytest.approx(exact, rel=2e-3)


@pytest.mark.parametrize(
    "cam", [even(0.4, 1.1, 1, turns=2), even(0.4, 0.9, 5, turns=3), uneven((0.2, 1.9, 7.0), 0.6, turns=2)]
)
def test_the_rate_through_a_cam_of_several_turns_is_the_closed_form(cam):
    gun = timed(replace(STAGE.gun.line, cam=cam, action="interrupter"), STAGE.gun.spin_rad_s)
    state, _ = fired(gun, 60.0)
    (exact,) = steady_rate(replace(gun.line, spin_rad_s=(gun.spin_rad_s,))).rounds_per_min
    assert reached_rounds_per_min(state) == pytest.approx(exact, rel=3e-3)
    assert 0.0 <= state.angle_rad < cam.period_rad


def test_the_gun_of_the_stage_fires_through_the_cam_of_the_scenario():
    assert STAGE.gun.cam == model(BIPLANE).gun_line("rotary").cam


def test_a_round_passes_after_its_delay_and_at_its_lead():
    gun = steady()
    _, passed = fired(gun, 3.0)
    for one in passed:
        assert one.pass_s - one.release_s == pytest.approx(gun.line.delay_s)
        assert one.pass_s - one.muzzle_s == pytest.approx(gun.line.flight_s)
        lead = (one.pass_rad - one.release_rad) % math.tau
        assert lead == pytest.approx(gun.spin_rad_s * gun.line.delay_s % math.tau, abs=1e-6)


def test_a_cam_cut_for_another_speed_earns_strikes():
    slow = replace(steady(), spin_rad_s=0.5 * STAGE.gun.spin_rad_s)
    state, passed = fired(slow, 20.0)
    assert state.strikes == sum(one.struck for one in passed) > 0


def test_blades_that_leave_no_gap_hold_the_gun_for_ever():
    shut = steady(blades=6, impulses_per_rev=6, blocked_rad=1.2)
    assert shut.windows_rad == ()
    state, passed = fired(shut, 2.0)
    assert (state.rounds, passed, state.holding) == (0, [], True)


@pytest.mark.parametrize(("off", "struck"), [(0.0, True), (0.49, True), (-0.49, True), (0.51, False), (-0.51, False)])
def test_a_round_touches_within_half_the_arc_of_any_blade(off, struck):
    gun = steady(blades=3, impulses_per_rev=3)
    for blade in range(3):
        assert touches(gun, blade * math.tau / 3 + off * gun.line.blocked_rad) is struck


@given(st.floats(0.0, 6.28), st.sampled_from(["interrupter", "impulse"]))
def test_after_the_wait_the_gear_lets_go(angle, action):
    gun = TimedGun(replace(STAGE.gun.line, action=action, cam=even(1.0, 1.5, 2)), 100.0)
    wait = wait_rad(gun, angle)
    assert 0.0 <= wait < math.tau
    assert wait_rad(gun, (angle + wait) % math.tau) == pytest.approx(0.0, abs=1e-8)


@settings(max_examples=25, deadline=None)
@given(st.integers(1, 2000))
def test_the_length_of_a_step_does_not_change_the_rounds(parts):
    gun = steady()
    whole, coarse = fired(gun, 1.0, step_s=1.0 / 10.0)
    state, fine = fired(gun, 1.0, step_s=1.0 / (10 * (parts % 40 + 1)))
    assert (state.rounds, state.strikes) == (whole.rounds, whole.strikes)
    assert [one.pass_s for one in fine] == pytest.approx([one.pass_s for one in coarse])


def test_scatter_widens_where_rounds_pass():
    _, still = fired(steady(), 30.0)
    _, scattered = fired(replace(STAGE.gun, scatter=Scatter(delay_sd_s=0.002)), 30.0)
    spread = [max(one.pass_s - one.release_s for one in many) for many in (still, scattered)]
    assert spread[1] > spread[0] + 0.002
    assert all(one.pass_s - one.release_s >= STAGE.gun.line.flight_s for one in scattered)


def test_pistons_of_the_fixed_engine_move_in_pairs():
    for angle in (0.0, 0.7, 2.9):
        engine = engine_picture(STAGE.fixed_engine, angle, 250.0)
        right, left = engine.pistons_m[:2]
        assert right[0] == pytest.approx(-left[0])
        assert engine.angular_momentum_kg_m2_s == pytest.approx(250.0 * STAGE.fixed_engine.polar_inertia_kg_m2)


def test_the_rotary_holds_several_times_the_spin_momentum():
    sizes = [
        engine.polar_inertia_kg_m2 * abs(engine.spin_rad_s) for engine in (STAGE.rotary_engine, STAGE.fixed_engine)
    ]
    assert 3.0 < sizes[0] / sizes[1] < 8.0


def test_both_airplanes_start_in_level_flight_at_the_same_speed_and_height():
    for flyer in (STAGE.rotary, STAGE.fixed):
        read = reading(flyer, flyer.start)
        assert read.speed_m_s == pytest.approx(80 * 0.44704)
        assert read.altitude_m == pytest.approx(1000 * 0.3048)
        assert (read.pitch_n_m, read.yaw_n_m) == (pytest.approx(0.0, abs=1e-6), pytest.approx(0.0, abs=1e-6))


def test_the_full_arrow_is_the_couple_of_a_turn_at_a_third_of_a_radian_a_second():
    spin = STAGE.rotary.start[13]
    assert full_arrow_n_m(STAGE.rotary) == pytest.approx(STAGE.rotary_engine.polar_inertia_kg_m2 * spin / 3.0)


@pytest.mark.parametrize(
    ("stick", "moved"),
    [((1.0, 0.0, 0.0, 0.0), (0, -1, 0)), ((0.0, 1.0, 0.0, 0.0), (-1, 0, 0)), ((0.0, 0.0, 1.0, 0.0), (0, 0, -1))],
)
def test_stick_right_pull_and_right_rudder_move_the_controls_the_right_way(stick, moved):
    """A positive control makes a negative moment: stick right is negative aileron, a pull negative elevator."""
    flyer = STAGE.rotary
    aims, _ = by_stick(flyer, lambda: stick)(0.0, flyer.start, flyer.start, ())
    change = [aim - rest for aim, rest in zip(aims[:3], flyer.trim[:3], strict=True)]
    assert [(value > 1e-9) - (value < -1e-9) for value in change] == list(moved)
