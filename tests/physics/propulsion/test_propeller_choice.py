"""Propellers that suit an engine: full power absorbed at full speed, found again by the solver of matched speeds."""

import math

import numpy as np
import pytest

from sim.atmosphere import Air
from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_element_match import matched
from sim.propulsion.blade_geometry import pitched_blade
from sim.propulsion.engine_propeller import matched_engine
from sim.propulsion.propeller_choice import Shaft, full_power_speed_m_s, suiting

AIR = Air(281.0, 1.09 * 336.0**2 / 1.4, 1.09)
BLADE = pitched_blade(3, 0.5, 0.066)
DIAMETERS_M = (1.72, 1.97, 2.26)
SPEED_M_S = 44.0


def engine(rotation=1.0):
    return matched_engine(
        power_w=93e3, speed_rad_s=311.0, rotation=rotation, friction_torque_n_m=27.0, windage_w=4100.0
    )


def shaft(rotation=1.0, gear_ratio=0.61):
    return Shaft(engine(rotation), 311.0, gear_ratio, AIR)


def on_engine(blade, diameter_m, *speeds):
    return matched(engine(), blade, speeds, diameter_m=diameter_m, most_rad_s=3.0 * 311.0, air=AIR, gear_ratio=0.61)


def test_full_throttle_turns_it_at_full_speed_there():
    found = tuple(suiting(shaft(), BLADE, DIAMETERS_M, SPEED_M_S))
    assert [one.suited_diameter_m for one in found] == list(DIAMETERS_M)
    for one in found:
        blade = BLADE.pitched(one.suited_pitch_m / one.suited_diameter_m)
        again = on_engine(blade, one.suited_diameter_m, 0.0, SPEED_M_S)
        assert again.spin_rad_s[1] == pytest.approx(0.61 * 311.0, rel=2e-3)
        assert again.thrust_n[1] == pytest.approx(one.thrust_n, rel=5e-3)
        assert again.thrust_n[1] * SPEED_M_S / again.power_w[1] == pytest.approx(one.efficiency, rel=3e-3)
        assert again.tip_mach[1] == pytest.approx(one.tip_mach, rel=3e-3)
        assert again.spin_rad_s[0] / (0.61 * 311.0) == pytest.approx(one.static_rpm_share, rel=0.02)
        assert again.thrust_n[0] == pytest.approx(one.static_thrust_n, rel=0.03)


def test_larger_is_finer_slower_at_rest_and_pulls_more_there():
    small, middle, large = suiting(shaft(), BLADE, DIAMETERS_M, SPEED_M_S)
    assert small.suited_pitch_m > middle.suited_pitch_m > large.suited_pitch_m
    assert small.static_rpm_share > middle.static_rpm_share > large.static_rpm_share
    assert small.static_thrust_n < middle.static_thrust_n < large.static_thrust_n


def test_faster_is_coarser():
    pitches = [next(suiting(shaft(), BLADE, (2.26,), speed)).suited_pitch_m for speed in (10.0, 30.0, 50.0, 70.0)]
    assert pitches == sorted(pitches)
    assert pitches[0] < 0.7 * pitches[-1]


@pytest.mark.parametrize(("rotation", "gear_ratio"), [(-1.0, 0.61), (1.0, -0.61), (-1.0, -0.61)])
def test_the_sense_of_rotation_does_not_matter(rotation, gear_ratio):
    assert tuple(suiting(shaft(rotation, gear_ratio), BLADE, DIAMETERS_M, 30.0)) == tuple(
        suiting(shaft(), BLADE, DIAMETERS_M, 30.0)
    )


def test_a_diameter_that_takes_too_much_or_too_little_has_none():
    assert tuple(suiting(shaft(), BLADE, (0.9, 4.4), SPEED_M_S)) == ()


def test_the_airspeed_of_full_power_is_that_of_the_pair():
    """Of the higher one: blades that are stalled there take full power once more, faster."""
    small, *others = suiting(shaft(), BLADE, DIAMETERS_M, SPEED_M_S)
    stalled = full_power_speed_m_s(
        shaft(), BLADE.pitched(small.suited_pitch_m / small.suited_diameter_m), small.suited_diameter_m
    )
    assert stalled > 1.1 * SPEED_M_S
    for one in others:
        blade = BLADE.pitched(one.suited_pitch_m / one.suited_diameter_m)
        assert full_power_speed_m_s(shaft(), blade, one.suited_diameter_m) == pytest.approx(SPEED_M_S, rel=0.01)


def test_a_propeller_too_fine_absorbs_full_power_nowhere():
    blade = BLADE.pitched(0.3)
    assert full_power_speed_m_s(shaft(), blade, 1.8) is None
    spare = on_engine(blade, 1.8, 0.0, 10.0, 20.0)
    assert (spare.spin_rad_s > 0.61 * 311.0).all()


def test_the_power_coefficient_is_that_of_the_engine():
    turns = 0.61 * 311.0 / math.tau
    share = 1.09 / 1.225
    net = engine().firing_torque_n_m * share - 27.0 * 311.0 / math.hypot(311.0, 5.0) - 4100.0 / 311.0 * share
    wanted = net * 311.0 / (1.09 * turns**3 * 2.0**5)
    assert shaft().power_coefficient(2.0) == pytest.approx(wanted, rel=1e-9)
    assert shaft().tip_mach(2.0) == pytest.approx(math.pi * turns * 2.0 / 336.0)
    loads = blade_loads(BLADE, np.array([0.4]), tip_mach=shaft().tip_mach(2.0))
    assert loads.cp[0] != pytest.approx(wanted, rel=0.05)
