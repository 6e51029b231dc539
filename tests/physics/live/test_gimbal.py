"""The engine on the bench: it precesses by torque over angular momentum, at right angles, to the side of its spin."""

import cmath
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from sim.live.gimbal import Gimbal, Nose, moved, steady_rate_rad_s, torque_for_n_m
from sim.rotor.couple import gyroscopic_moment

SPINS = Gimbal(angular_momentum_kg_m2_s=730.0, transverse_inertia_kg_m2=5.2, damping_kg_m2_s=41.0)
TORQUE = -37.0 + 91.0j


def test_without_damping_it_precesses_at_right_angles_by_torque_over_angular_momentum():
    rate = steady_rate_rad_s(replace(SPINS, damping_kg_m2_s=1e-9), TORQUE)
    assert abs(rate) == pytest.approx(abs(TORQUE) / 730.0, rel=1e-9)
    assert cmath.phase(rate / TORQUE) == pytest.approx(math.pi / 2, abs=1e-9)


def test_pushed_left_a_nose_with_a_clockwise_rotor_climbs_and_with_the_other_sinks():
    left = -50j
    assert moved(SPINS, Nose(), left, 1.0).angle_rad.real > 0.05
    other = replace(SPINS, angular_momentum_kg_m2_s=-730.0)
    assert moved(other, Nose(), left, 1.0).angle_rad.real < -0.05


def test_the_other_rotation_is_the_mirror_image():
    other = replace(SPINS, angular_momentum_kg_m2_s=-730.0)
    nose = Nose(0.1 - 0.2j, 0.3 + 0.05j)
    mirror = Nose(nose.angle_rad.conjugate(), nose.rate_rad_s.conjugate())
    one, two = moved(SPINS, nose, TORQUE, 0.013), moved(other, mirror, TORQUE.conjugate(), 0.013)
    assert two.angle_rad == pytest.approx(one.angle_rad.conjugate(), rel=1e-12)
    assert two.rate_rad_s == pytest.approx(one.rate_rad_s.conjugate(), rel=1e-12)


def test_a_stopped_one_goes_where_it_is_pushed():
    stopped = replace(SPINS, angular_momentum_kg_m2_s=0.0)
    nose = moved(stopped, Nose(), TORQUE, 0.4)
    assert cmath.phase(nose.angle_rad / TORQUE) == pytest.approx(0.0, abs=1e-12)
    assert steady_rate_rad_s(stopped, TORQUE) == pytest.approx(TORQUE / 41.0)


def test_it_is_the_motion_under_the_gyroscopic_moment_of_the_rotor():
    """Integrated independently, from the moment that the airplane gets from its rotor."""

    def rates(_, state):
        _, _, pitch, yaw = state
        m_pitch, m_yaw = gyroscopic_moment(730.0, pitch, yaw)
        return [
            pitch,
            yaw,
            (TORQUE.real - 41.0 * pitch + m_pitch) / 5.2,
            (TORQUE.imag - 41.0 * yaw + m_yaw) / 5.2,
        ]

    found = solve_ivp(rates, (0.0, 0.5), [0.1, -0.2, 0.3, 0.05], rtol=1e-10, atol=1e-12).y[:, -1]
    nose = moved(SPINS, Nose(0.1 - 0.2j, 0.3 + 0.05j), TORQUE, 0.5)
    told = [nose.angle_rad.real, nose.angle_rad.imag, nose.rate_rad_s.real, nose.rate_rad_s.imag]
    np.testing.assert_allclose(told, found, rtol=1e-7)


def test_two_short_pushes_are_one_long_one():
    halves = moved(SPINS, moved(SPINS, Nose(), TORQUE, 0.2), TORQUE, 0.2)
    whole = moved(SPINS, Nose(), TORQUE, 0.4)
    assert halves.angle_rad == pytest.approx(whole.angle_rad, rel=1e-12)


def test_damping_takes_the_energy_and_only_the_torque_gives_it():
    nose = moved(SPINS, Nose(0j, 0.4 - 0.3j), 0j, 0.05)
    assert abs(nose.rate_rad_s) == pytest.approx(0.5 * math.exp(-41.0 / 5.2 * 0.05), rel=1e-12)


def test_the_torque_for_a_rate_keeps_it_up():
    assert steady_rate_rad_s(SPINS, torque_for_n_m(SPINS, 0.2 - 0.1j)) == pytest.approx(0.2 - 0.1j)
