"""Left is right with the engine turning the other way."""

from dataclasses import replace

import numpy as np
import pytest
from biplane import level_state

from sim.flight.motion import STATE, Controls, motion, right_hand_side
from sim.numerics.ode import solve
from sim.propulsion.disc import Disc

SEEN_IN_MIRROR = np.array([-1.0 if name in ("east", "e1", "e3", "v", "p", "r", "spin") else 1.0 for name in STATE])


def other_side(controls):
    return Controls(controls[0], -controls[1], -controls[2], controls[3], -controls[4])


def test_the_rates_of_the_mirrored_airplane_are_mirrored(biplane, mirrored):
    random = np.random.default_rng(7)
    rates, mirrored_rates = motion(biplane), motion(mirrored)
    for _ in range(50):
        state = np.array(level_state(speed_m_s=40.0, altitude_m=300.0, spin_rad_s=120.0)) + random.normal(size=14)
        controls = Controls(*random.normal(size=3) * 0.1, 0.7, 20.0)
        here = np.array(rates(state.tolist(), controls))
        there = np.array(mirrored_rates((SEEN_IN_MIRROR * state).tolist(), other_side(controls)))
        assert there == pytest.approx(SEEN_IN_MIRROR * here, rel=1e-12, abs=1e-12)


def test_a_flight_of_the_mirrored_airplane_is_mirrored(biplane, mirrored):
    controls = Controls(-0.02, 0.03, 0.05, 0.9)
    start = np.array(level_state(speed_m_s=40.0, altitude_m=300.0, spin_rad_s=120.0))
    times = np.linspace(0.0, 5.0, 6)
    here = solve(right_hand_side(biplane, controls), start, times, step_s=0.05).states
    there = solve(right_hand_side(mirrored, other_side(controls)), SEEN_IN_MIRROR * start, times, step_s=0.05).states
    assert there == pytest.approx(SEEN_IN_MIRROR * here, rel=1e-12, abs=1e-12)


def test_a_right_turn_with_a_clockwise_rotor_pushes_the_nose_down_and_a_left_turn_up(biplane):
    """The difference that the spin makes to the nose, at the same rates of turn, beside the loads across the disc."""
    rates = motion(replace(biplane, disc=Disc()))

    def pitch_from_spin(yaw):
        turning = [*level_state(speed_m_s=40.0)[:12], yaw]
        return rates([*turning, 120.0], Controls())[11] - rates([*turning, 0.0], Controls())[11]

    level = pitch_from_spin(0.0)
    assert pitch_from_spin(0.5) - level == pytest.approx(-(9.0 + 2.5) * 120.0 * 0.5 * np.cos(0.03) / 1060.0, rel=1e-9)
    assert pitch_from_spin(-0.5) > level


def test_the_nose_pulled_up_swings_right(biplane):
    rates = motion(biplane)

    def yaw_from_spin(pitch):
        turning = [*level_state(speed_m_s=40.0)[:11], pitch, 0.0]
        return rates([*turning, 120.0], Controls())[12] - rates([*turning, 0.0], Controls())[12]

    assert yaw_from_spin(0.5) > yaw_from_spin(0.0)
