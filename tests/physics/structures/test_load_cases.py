"""The load cases of a mount: signs in the pilot's words, and nothing lost between weight, arm and couple."""

import numpy as np
import pytest

from sim.structures.load_cases import MountedPowerplant, disc_thrust, load_cases

ENGINE = MountedPowerplant(190.0, 0.5, 0.02, 4900.0, -740.0, 9, momentum_kg_m2_s=2000.0, pulsing_momentum_kg_m2_s=600.0)
WEIGHT = 190.0 * 9.80665


def cases(engine=ENGINE, **limits):
    return {case.name: case for case in load_cases(engine, **limits)}


def test_a_clockwise_engine_swung_right_is_pressed_nose_down():
    """Two blades double the propeller's share: 2.5 rad/s times 2000 + 600."""
    case = cases()["gyroscopic, right and up"]
    assert case.limit_force_n == pytest.approx((4900.0, 0.0, 2.5 * WEIGHT))
    assert case.limit_moment_n_m == pytest.approx((-740.0, -2600.0 * 2.5 - 0.5 * 2.5 * WEIGHT, 2600.0 * 1.0))


def test_the_four_gyroscopic_cases_are_every_sign():
    couples = {
        (np.sign(case.limit_moment_n_m[1] + 0.5 * 2.5 * WEIGHT), np.sign(case.limit_moment_n_m[2]))
        for name, case in cases().items()
        if name.startswith("gyroscopic")
    }
    assert couples == {(-1.0, 1.0), (-1.0, -1.0), (1.0, 1.0), (1.0, -1.0)}


def test_reversed_rotation_is_the_mirror():
    """An anticlockwise engine swung left mirrors a clockwise one swung right: pitch alike, roll and yaw turned."""
    mirror = MountedPowerplant(
        190.0, 0.5, 0.02, 4900.0, 740.0, 9, momentum_kg_m2_s=-2000.0, pulsing_momentum_kg_m2_s=-600.0
    )
    one, other = cases()["gyroscopic, right and up"], cases(mirror)["gyroscopic, left and up"]
    roll, pitch, yaw = one.limit_moment_n_m
    assert other.limit_moment_n_m == pytest.approx((-roll, pitch, -yaw))


def test_side_load_turns_about_the_firewall():
    case = cases(side_factor=1.33)["side load to the right"]
    force = np.array(case.limit_force_n)
    assert case.limit_moment_n_m == pytest.approx(np.cross((0.5, 0.0, 0.02), force))
    assert force == pytest.approx((0.0, 1.33 * WEIGHT, 0.0))


def test_weight_alone_is_weight_at_its_arm():
    case = cases(load_factor=4.4)["weight at the load factor"]
    assert case.limit_moment_n_m == pytest.approx(np.cross((0.5, 0.0, 0.02), case.limit_force_n))


@pytest.mark.parametrize(("power", "diameter"), [(97_000.0, 2.6), (110_000.0, 1.9)])
def test_static_thrust_is_that_of_the_actuator_disc(power, diameter):
    """T = 2 ρ A v², P = T v."""
    thrust = disc_thrust(power, diameter)
    inflow = power / thrust
    assert thrust == pytest.approx(2 * 1.225 * np.pi / 4 * diameter**2 * inflow**2)
