"""Work in equals work out, and the fly-wheel's swing is energy over energy."""

import math

import pytest

from sim.display.drive import CLUTCH_FACTOR, DisplayPropeller, Handle, crank_speed, drive, flashes_per_turn

PROPELLER = DisplayPropeller(0.6, 0.4, 2.0 * math.pi)


def handle(**parts):
    return Handle(
        **{
            "kind": "crank",
            "crank_radius_m": 0.08,
            "gear": 1.0,
            "axis_height_m": 0.9,
            "friction_torque_n_m": 0.02,
            "most_force_n": 22.2,
            **parts,
        }
    )


def test_a_gear_trades_force_for_turns():
    slow, fast = (
        drive(PROPELLER, handle(gear=gear), cam_torque_n_m=0.1, cam_ratio=1.0, rise_energy_j=0.03)
        for gear in (1.0, 3.0)
    )
    assert fast.torque_n_m == pytest.approx(3.0 * slow.torque_n_m)
    assert fast.torque_n_m * crank_speed(PROPELLER.top_speed_rad_s, 3.0) == pytest.approx(slow.motor_power_w)
    assert slow.crank_force_n * 0.08 == pytest.approx(slow.torque_n_m)


def test_a_crank_geared_up_takes_more_force():
    """1.7 turns of the propeller a turn of the crank: .02 N m of friction and .1 of the cam take .204 there."""
    work = drive(PROPELLER, handle(gear=1.7), cam_torque_n_m=0.1, cam_ratio=1.0, rise_energy_j=0.03)
    assert work.torque_n_m == pytest.approx(0.204)
    assert work.crank_force_n == pytest.approx(0.204 / 0.08)


def test_a_cam_that_turns_twice_as_fast_takes_twice_the_torque():
    one, two = (
        drive(PROPELLER, handle(friction_torque_n_m=0.0), cam_torque_n_m=0.1, cam_ratio=ratio, rise_energy_j=0.03)
        for ratio in (1.0, 2.0)
    )
    assert two.shaft_torque_n_m == pytest.approx(2.0 * one.shaft_torque_n_m)


def test_the_propeller_is_two_slender_rods():
    inertia = 2.0 * (0.2 * 0.3**2 / 3.0)
    assert PROPELLER.polar_inertia_kg_m2 == pytest.approx(inertia)
    assert PROPELLER.kinetic_energy_j == pytest.approx(inertia * (2.0 * math.pi) ** 2 / 2.0)
    assert PROPELLER.tip_speed_m_s == pytest.approx(2.0 * math.pi * 0.3)


def test_the_swing_of_speed_is_that_of_the_energy():
    """From E = I ω²/2: between fastest and slowest the energy differs by I ω Δω."""
    work = drive(PROPELLER, handle(), cam_torque_n_m=0.1, cam_ratio=1.0, rise_energy_j=0.001)
    faster = math.sqrt(2.0 * (PROPELLER.kinetic_energy_j + 0.0005) / PROPELLER.polar_inertia_kg_m2)
    slower = math.sqrt(2.0 * (PROPELLER.kinetic_energy_j - 0.0005) / PROPELLER.polar_inertia_kg_m2)
    assert work.speed_fluctuation == pytest.approx((faster - slower) / PROPELLER.top_speed_rad_s, rel=1e-4)


def test_the_clutch_lets_go_above_the_largest_torque():
    work = drive(PROPELLER, handle(kind="motor"), cam_torque_n_m=0.1, cam_ratio=1.0, rise_energy_j=0.03)
    assert work.clutch_n_m == pytest.approx(CLUTCH_FACTOR * 0.12)
    assert work.tip_force_n == pytest.approx(work.clutch_n_m / 0.3)


def test_the_lamp_flashes_once_an_opening():
    assert flashes_per_turn(2, 3.0) == 6.0
