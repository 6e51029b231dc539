"""A rotary on the landing run: the shaft by the ignition, its closed form, and the run's energy."""

import math

import numpy as np
import pytest
from airplanes import BIPLANE
from shared import built

from sim.flight.landing_run import Blip, blipped_cycle, blipped_run_m
from sim.flight.motion import Airplane, Body
from sim.flight.on_wheels import Field, Gear, OnWheels
from sim.flight.shaft_inertia import rotor_sums
from sim.propulsion.engine_propeller import Engine, Rotor, shaft_loads
from sim.propulsion.thrust import at_throttle

BLIP = Blip(on_s=0.6, every_s=2.4)


def cycle(airplane, speed=20.0, blip=BLIP):
    return blipped_cycle(airplane, blip, speed_m_s=np.array([speed]), spin_rad_s=np.array([60.0]), density_kg_m3=1.2)


def test_ignition_is_on_at_the_end_of_each_cycle():
    told = [BLIP.throttle(time) for time in (0.0, 1.7, 1.9, 2.39, 2.41, 4.3)]
    assert told == [0.0, 0.0, 1.0, 1.0, 0.0, 1.0]


def test_in_a_cycle_that_repeats_itself_the_shaft_gains_as_much_as_it_loses():
    """Without air: gas torque over inertia in the time with the ignition on, friction over it all the time."""
    engine = Engine(firing_torque_n_m=400.0, friction_torque_n_m=25.0)
    spun = Airplane(Body(600.0, 700.0, 1000.0, 1500.0), rotors=(Rotor(8.0),), engine=engine)
    found = blipped_cycle(spun, BLIP, speed_m_s=np.array([20.0]), spin_rad_s=np.array([60.0]), density_kg_m3=1.225)
    assert found.on_rad_s[0] - found.off_rad_s[0] == pytest.approx((400.0 - 25.0) / 8.0 * 0.6, rel=0.01)


def test_steady_ignition_comes_to_the_speed_at_which_no_torque_is_left():
    airplane = built(BIPLANE).airplane("rotary").airplane
    found = cycle(airplane, blip=Blip(on_s=2.4, every_s=2.4))
    now = shaft_loads(airplane.engine, airplane.propeller)((found.on_rad_s[0], 20.0), 1.2, at_throttle(1.0))
    left = now.engine - now.windage - airplane.propeller.ratio * now.propeller
    assert left == pytest.approx(0.0, abs=1.0)
    assert found.thrust_n[0] == pytest.approx(now.thrust, rel=1e-3)


def test_longer_with_the_ignition_on_pulls_more():
    airplane = built(BIPLANE).airplane("rotary").airplane
    pulls = [cycle(airplane, blip=Blip(on_s, 2.4)).thrust_n[0] for on_s in (0.3, 0.6, 1.2)]
    assert pulls == sorted(pulls)
    assert rotor_sums(airplane).shaft > 1.0


@pytest.mark.parametrize("friction", [0.04, 0.08])
def test_a_run_on_friction_alone_is_the_closed_form(friction):
    """No air, no engine: v² over twice friction times gravity, on wheels that all roll alike."""
    airplane = Airplane(Body(612.0, 700.0, 1000.0, 1500.0), rotors=(Rotor(8.0),), sea_level_density_kg_m3=0.0)
    gear = Gear(ahead_m=0.31, below_m=1.37, tail_m=4.03, radius_m=0.29, tail_down_rad=0.2, track_m=1.6)
    wheels = OnWheels(airplane, gear, Field(friction, friction, 300.0, 1.9), lambda speed: 0.0)
    found = blipped_run_m(
        wheels,
        built(BIPLANE).airplane("rotary").travel,
        BLIP,
        mass_kg=np.array([612.0]),
        pitch_rad=0.2,
        from_m_s=np.array([20.0]),
        spin_rad_s=np.array([0.0]),
        headwind_m_s=0.0,
    )
    assert found[0] == pytest.approx(20.0**2 / (2.0 * friction * 9.80665), rel=0.01)


def test_a_run_that_does_not_slow_down_has_no_length():
    airplane = Airplane(Body(612.0, 700.0, 1000.0, 1500.0), rotors=(Rotor(8.0),), sea_level_density_kg_m3=0.0)
    gear = Gear(ahead_m=0.31, below_m=1.37, tail_m=4.03, radius_m=0.29, tail_down_rad=0.2, track_m=1.6)
    wheels = OnWheels(airplane, gear, Field(0.0, 0.0, 300.0, 1.9), lambda speed: 0.0)
    found = blipped_run_m(
        wheels,
        built(BIPLANE).airplane("rotary").travel,
        BLIP,
        mass_kg=np.array([612.0]),
        pitch_rad=0.2,
        from_m_s=np.array([20.0]),
        spin_rad_s=np.array([0.0]),
        headwind_m_s=0.0,
    )
    assert math.isnan(found[0])
