"""The right-hand side as whole: one text for floats, rows and complex numbers, and the pilot's signs."""

import cmath
from dataclasses import replace

import numpy as np
import pytest
from biplane import level_state, make

from sim.flight.motion import Controls, motion, right_hand_side
from sim.numerics.dop853_batch_step import BatchStepper
from sim.numerics.number import ARRAY_MATH
from sim.numerics.ode import solve
from sim.propulsion.engine_propeller import Rotor

BIPLANE = make(rotors=(Rotor(9.0), Rotor(2.5)), shaft_tilt_rad=0.02, thrust_arm_m=0.05)
LEVEL = level_state(speed_m_s=40.0, altitude_m=300.0, spin_rad_s=120.0)
P, Q, R, SPIN = 10, 11, 12, 13


def states(count):
    return np.array(LEVEL)[:, None] + np.random.default_rng(3).normal(size=(14, count))


def test_rows_and_floats_are_one_function():
    controls = Controls(0.02, -0.03, 0.05, 0.8, 10.0)
    together = motion(BIPLANE, ARRAY_MATH)(states(20), controls)
    alone = [motion(BIPLANE)(column, controls) for column in states(20).T.tolist()]
    found = np.array(together).T
    assert found == pytest.approx(np.array(alone), rel=1e-13, abs=1e-13)


def test_controls_and_airplanes_may_be_rows():
    speeds = np.array([0.0, 60.0, 120.0])
    heavy = replace(BIPLANE, body=replace(BIPLANE.body, mass_kg=np.array([600.0, 650.0, 700.0])))
    rudder = np.array([0.0, 0.05, 0.1])
    start = np.array(LEVEL)[:, None] + np.zeros(3)
    start[SPIN] = speeds
    together = np.array(motion(heavy, ARRAY_MATH)(start, Controls(rudder_rad=rudder, throttle=0.5)))
    for i, mass in enumerate((600.0, 650.0, 700.0)):
        one = replace(BIPLANE, body=replace(BIPLANE.body, mass_kg=mass))
        alone = motion(one)(start[:, i].tolist(), Controls(rudder_rad=float(rudder[i]), throttle=0.5))
        assert together[:, i] == pytest.approx(alone, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("index", range(14))
def test_a_complex_step_gives_the_slope(index):
    controls = Controls(0.02, -0.03, 0.05, 0.8)
    state = states(1)[:, 0]
    stepped = state.astype(complex)
    stepped[index] += 1e-30j
    slope = np.array(motion(BIPLANE, cmath)(stepped.tolist(), controls)).imag / 1e-30
    ahead, behind = state.copy(), state.copy()
    ahead[index] += 1e-4
    behind[index] -= 1e-4
    rates = motion(BIPLANE)
    middle = (np.array(rates(ahead.tolist(), controls)) - np.array(rates(behind.tolist(), controls))) / 2e-4
    assert slope == pytest.approx(middle, rel=1e-5, abs=1e-6)
    rows = np.array(motion(BIPLANE, ARRAY_MATH)(stepped[:, None], controls))[:, 0].imag / 1e-30
    assert rows == pytest.approx(slope, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    ("controls", "axis"),
    [(Controls(elevator_rad=0.1), Q), (Controls(aileron_rad=0.1), P), (Controls(rudder_rad=0.1), R)],
)
def test_a_positive_control_makes_a_negative_moment(controls, axis):
    assert motion(BIPLANE)(LEVEL, controls)[axis] < motion(BIPLANE)(LEVEL, Controls())[axis]


def test_full_gas_turns_a_clockwise_shaft_faster_and_the_airplane_to_the_left():
    cut, full = (motion(BIPLANE)(LEVEL, Controls(throttle=x)) for x in (0.0, 1.0))
    assert full[SPIN] > cut[SPIN]
    assert full[P] < cut[P]


def test_thrust_below_the_centre_of_gravity_lifts_the_nose():
    low, high = (motion(replace(BIPLANE, thrust_arm_m=x))(LEVEL, Controls(throttle=1.0)) for x in (0.2, -0.2))
    assert low[Q] > high[Q]


def test_attitude_keeps_its_length_and_the_spin_its_matched_speed():
    start = level_state(speed_m_s=45.0, spin_rad_s=100.0)
    f = right_hand_side(BIPLANE, Controls(throttle=1.0))
    reached = solve(f, start, (0.0, 3.0), rtol=1e-11, atol=1e-11).states[-1]
    assert np.linalg.norm(reached[3:7]) == pytest.approx(1.0, abs=1e-9)
    assert reached[SPIN] == pytest.approx(131.0, rel=0.05)


def test_a_rudder_kick_as_a_function_of_time_is_two_flights_joined():
    def kick(t):
        return Controls(throttle=0.8, rudder_rad=0.1 if 0.5 <= t < 1.5 else 0.0)

    found = solve(right_hand_side(BIPLANE, kick), LEVEL, (0.0, 2.5), breakpoints_s=(0.5, 1.5)).states[-1]
    reached = LEVEL
    for seconds, rudder in ((0.5, 0.0), (1.0, 0.1), (1.0, 0.0)):
        held = right_hand_side(BIPLANE, Controls(throttle=0.8, rudder_rad=rudder))
        reached = solve(held, reached, (0.0, seconds)).states[-1]
    assert found == pytest.approx(reached, rel=1e-7, abs=1e-7)


@pytest.mark.parametrize("step_s", [None, 0.05])
def test_a_batch_with_rudders_of_its_own_is_as_many_flights(step_s):
    rudders = np.linspace(-0.1, 0.1, 5)

    def kick(rudder):
        return lambda t: Controls(throttle=0.8, rudder_rad=rudder if t >= 0.5 else 0.0 * rudder)

    given = {
        "times_s": (0.0, 1.0, 2.0),
        "step_s": step_s,
        "breakpoints_s": (0.5,),
        "rtol": 1e-12,
        "atol": 1e-12,
    }
    start = np.array(LEVEL)[:, None] + np.zeros(5)
    together = solve(right_hand_side(BIPLANE, kick(rudders), ARRAY_MATH), start, **given).states
    for i, rudder in enumerate(rudders.tolist()):
        alone = solve(right_hand_side(BIPLANE, kick(rudder)), LEVEL, **given).states
        assert together[:, :, i] == pytest.approx(alone, rel=1e-10, abs=1e-10 if step_s is None else 1e-12)


def test_a_batch_holds_rows_of_controls():
    rudders = np.linspace(-0.1, 0.1, 7)
    f = right_hand_side(BIPLANE, Controls(throttle=0.8, rudder_rad=rudders), ARRAY_MATH)
    start = np.array(LEVEL)[:, None] + np.zeros(7)
    stepper = BatchStepper(f, start, rtol=1e-9, atol=1e-9, block=3)
    stepper.attempt(0.0, 0.1, 0.1, with_error=False)
    stepper.accept()
    whole = solve(f, start, (0.0, 0.1), step_s=0.1).states[-1]
    assert np.abs(stepper.state - whole).max() < 1e-12
    alone = solve(right_hand_side(BIPLANE, Controls(throttle=0.8, rudder_rad=-0.1)), LEVEL, (0.0, 0.1), step_s=0.1)
    assert np.abs(whole[:, 0] - alone.states[-1]).max() < 1e-12


@pytest.mark.parametrize("controls", [Controls(throttle=0.5), lambda t: Controls(throttle=0.1 * t)])
def test_symbols_and_complex_numbers_take_the_equations_as_they_stand(controls):
    plain = right_hand_side(BIPLANE, controls)(5.0, LEVEL)
    assert right_hand_side(BIPLANE, controls, cmath)(5.0, LEVEL) == pytest.approx(plain, rel=1e-12, abs=1e-12)


def test_a_geared_propeller_turning_against_the_engine_takes_its_share_of_spin():
    """Engine 4 kg m² at Ω and propeller 2 kg m² at −2 Ω have no momentum together: no couple in a turn."""
    geared = replace(BIPLANE, rotors=(Rotor(4.0), Rotor(2.0, -2.0)), sea_level_density_kg_m3=0.0)
    turning = [*LEVEL[:11], 0.4, 0.3]
    quick, slow = (motion(geared)([*turning, spin], Controls()) for spin in (120.0, 0.0))
    assert quick[Q] == pytest.approx(slow[Q], abs=1e-12)
    assert quick[R] == pytest.approx(slow[R], abs=1e-12)
