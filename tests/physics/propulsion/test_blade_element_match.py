"""A propeller by blade elements on an engine: balance of torques, scaling, mirror, throttling back."""

import math

import numpy as np
import pytest

from sim.atmosphere import HEAT_RATIO, Air
from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_element_match import matched
from sim.propulsion.blade_geometry import pitched_blade
from sim.propulsion.engine_propeller import matched_engine

BLADE = pitched_blade(3, 0.83, 0.071)


def air(density_kg_m3, sound_m_s):
    return Air(285.0, density_kg_m3 * sound_m_s**2 / HEAT_RATIO, density_kg_m3)


AIR = air(1.09, 336.0)
SPEEDS = (0.0, 17.0, 33.0, 51.0, 90.0)


def engine(rotation=1.0):
    return matched_engine(
        power_w=97e3, speed_rad_s=231.0, rotation=rotation, friction_torque_n_m=31.0, windage_w=6300.0
    )


def on(rotation=1.0, gear_ratio=0.73, around=AIR, most=231.0):
    return matched(engine(rotation), BLADE, SPEEDS, diameter_m=2.31, most_rad_s=most, air=around, gear_ratio=gear_ratio)


def test_the_torques_balance():
    found, own = on(), engine()
    shaft = found.spin_rad_s / 0.73
    gas = own.firing_torque_n_m * AIR.density_kg_m3 / 1.225
    windage = own.windage_n_m_s2 * AIR.density_kg_m3 / 1.225 * shaft**2
    free = ~found.throttled
    assert free.tolist() == [True, True, True, False, False]
    assert (0.73 * found.torque_n_m)[free] == pytest.approx((gas - own.friction_torque_n_m - windage)[free], rel=1e-3)


def test_coefficients_become_newtons_and_watts():
    found = on()
    turns = found.spin_rad_s / math.tau
    loads = blade_loads(BLADE, np.array(SPEEDS) / (turns * 2.31), tip_mach=found.spin_rad_s * 1.155 / 336.0)
    assert found.thrust_n == pytest.approx(loads.ct * 1.09 * turns**2 * 2.31**4)
    assert found.power_w == pytest.approx(loads.cp * 1.09 * turns**3 * 2.31**5)
    assert found.power_w == pytest.approx(found.torque_n_m * found.spin_rad_s)
    assert found.tip_mach == pytest.approx(np.sqrt((found.spin_rad_s * 1.155) ** 2 + np.square(SPEEDS)) / 336.0)


@pytest.mark.parametrize(("rotation", "gear_ratio"), [(-1.0, 0.73), (1.0, -0.73), (-1.0, -0.73)])
def test_the_sense_of_rotation_does_not_matter(rotation, gear_ratio):
    mirrored, usual = on(rotation, gear_ratio), on()
    assert mirrored.thrust_n == pytest.approx(usual.thrust_n, rel=1e-9)
    assert mirrored.spin_rad_s == pytest.approx(usual.spin_rad_s, rel=1e-9)


def test_the_pilot_throttles_back_to_full_speed():
    found, faster = on(), on(most=400.0)
    assert found.spin_rad_s[found.throttled] == pytest.approx(0.73 * 231.0)
    assert (faster.spin_rad_s[found.throttled] > 0.73 * 231.0).all()
    assert faster.spin_rad_s[:3] == pytest.approx(found.spin_rad_s[:3], rel=1e-8)


def test_thin_air_gives_less_thrust_at_nearly_the_same_speed():
    high, low = on(around=air(0.81, 328.0)), on()
    assert (high.thrust_n[:2] < 0.8 * low.thrust_n[:2]).all()
    assert high.spin_rad_s[0] == pytest.approx(low.spin_rad_s[0], rel=0.05)


def test_the_static_thrust_is_below_that_of_the_actuator_disc():
    """An ideal disc gives (2 ρ A P²)^(1/3) at rest; a real propeller 55 to 85 % of it."""
    found = on()
    ideal = (2.0 * 1.09 * math.pi * 1.155**2 * found.power_w[0] ** 2) ** (1.0 / 3.0)
    assert 0.55 < found.thrust_n[0] / ideal < 0.85
