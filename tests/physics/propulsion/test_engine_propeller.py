"""Engine and propeller: power, friction, ignition cut, height, throttle; the propeller's closed form everywhere."""

import cmath
import math
from dataclasses import replace

import numpy as np
import pytest
import sympy
from hypothesis import given, settings
from hypothesis import strategies as st

from sim.atmosphere import SEA_LEVEL_KG_M3, air
from sim.flight.motion import Airplane, Body, Controls, motion
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.blade_geometry import pitched_blade
from sim.propulsion.engine_propeller import STILL_M_S, Engine, Propeller, Rotor, matched_engine, shaft_loads
from sim.propulsion.engine_propeller import steady_throttle as throttle_for
from sim.propulsion.propeller_fit import fitted_propeller
from sim.propulsion.thrust import full_spin_rad_s, static_share, thrust_n

POWER_W, SPEED_RAD_S = 97e3, 131.0
FULL, CUT = Controls(throttle=1.0), Controls()
THREE = fitted_propeller(pitched_blade(3, 0.87, 0.066), diameter_m=2.47, tip_mach=0.43)
SENSES = [(1.0, 1.0), (-1.0, 1.0), (1.0, 0.5), (1.0, -0.6), (-1.0, -0.6)]


def pair(rotation=1.0, ratio=1.0, windage_w=0.0):
    engine = matched_engine(
        power_w=POWER_W,
        speed_rad_s=SPEED_RAD_S,
        rotation=rotation,
        friction_torque_n_m=0.132 * POWER_W / SPEED_RAD_S,
        windage_w=windage_w,
    )
    return engine, replace(THREE, ratio=ratio)


def at(spin, along, propeller=THREE, rotation=1.0):
    return shaft_loads(Engine(rotation), propeller)((spin, along), SEA_LEVEL_KG_M3, CUT)


@pytest.mark.parametrize(("rotation", "ratio"), SENSES)
def test_at_full_speed_the_engine_gives_its_power_whatever_turns_on_it(rotation, ratio):
    engine, propeller = pair(rotation, ratio, windage_w=3000.0)
    spin = rotation * SPEED_RAD_S
    loads = shaft_loads(engine, propeller)((spin, 9.0), SEA_LEVEL_KG_M3, FULL)
    assert (loads.engine - loads.windage) * spin == pytest.approx(POWER_W, rel=1e-12)
    assert math.copysign(1.0, loads.propeller) == math.copysign(1.0, spin * ratio)


@pytest.mark.parametrize(("rotation", "ratio"), SENSES)
def test_sense_and_gear_change_nothing_but_the_sign_of_the_torque(rotation, ratio):
    """Exactly: the speed of the propeller is held and its gear turned round."""
    usual = at(120.0, 33.0)
    found = at(120.0 * rotation / abs(ratio), 33.0, replace(THREE, ratio=ratio), rotation)
    assert found.thrust == pytest.approx(usual.thrust, rel=1e-14)
    assert found.propeller == pytest.approx(rotation * math.copysign(1.0, ratio) * usual.propeller, rel=1e-14)
    mirrored = at(-120.0, 33.0, THREE, -1.0)
    assert (mirrored.thrust, mirrored.propeller) == (usual.thrust, -usual.propeller)


def test_with_the_ignition_cut_the_air_drives_the_engine_at_speed_and_friction_stops_it_at_rest():
    loads = shaft_loads(*pair())
    diving = loads((60.0, 45.0), SEA_LEVEL_KG_M3, CUT)
    assert diving.propeller < 0.0 > diving.engine
    assert diving.thrust < 0.0
    assert loads((0.0, 0.0), SEA_LEVEL_KG_M3, CUT) == (0.0, 0.0, 0.0, 0.0)


def test_a_stopped_propeller_brakes_a_dive_and_the_air_starts_to_turn_it():
    """Its blades are plates across the wind: no more than 2 on their area, no less than a half."""
    stopped = at(0.0, 70.0)
    blades_m2 = 3 * 0.066 * 2.47 * 0.5 * 2.47 * 0.75
    assert -2.0 < stopped.thrust / (0.5 * SEA_LEVEL_KG_M3 * 70.0**2 * blades_m2) < -0.5
    assert stopped.propeller < 0.0
    assert at(0.0, -70.0).thrust == -stopped.thrust


def test_a_propeller_turned_backwards_opposes_it():
    assert at(-80.0, 0.0).propeller < 0.0 < at(80.0, 0.0).propeller
    assert at(-80.0, 0.0).thrust < 0.0


@settings(max_examples=300, deadline=None)
@given(st.floats(-1e4, 1e4), st.floats(-1e3, 1e3), st.floats(0.0, 1.5), st.floats(0.2, 1.6), st.integers(2, 5))
def test_the_loads_are_bounded_everywhere(spin, along, density, pitch, blades):
    """By a tenth more than the values at rest times the square of the scaled speed, whatever the motion."""
    propeller = fitted_propeller(pitched_blade(blades, round(pitch, 1), 0.07), diameter_m=2.1, tip_mach=0.5)
    rest = at(100.0, 0.0, propeller)
    found = shaft_loads(Engine(), propeller)((spin, along), density, CUT)
    wind = math.hypot(propeller.station_m * spin, propeller.advance_factor * along)
    share = 1.25 * density / SEA_LEVEL_KG_M3 * (wind**2 + STILL_M_S * wind) / (propeller.station_m * 100.0) ** 2
    assert abs(found.thrust) <= share * rest.thrust + 1e-12
    assert abs(found.propeller) <= share * rest.propeller + 1e-12


def test_one_formula_for_every_kind_of_number():
    engine, propeller = pair(windage_w=3000.0)
    spins, speeds = np.array([0.0, 40.0, 131.0]), np.array([0.0, 55.0, 30.0])
    rows = shaft_loads(engine, propeller, ARRAY_MATH)((spins, speeds), 1.1, FULL)
    symbols = shaft_loads(engine, propeller, sympy)(sympy.symbols("w v"), 1.1, FULL)
    for number, (spin, speed) in enumerate(zip(spins, speeds, strict=True)):
        alone = shaft_loads(engine, propeller)((spin, speed), 1.1, FULL)
        assert [row[number] for row in rows] == pytest.approx(list(alone), rel=1e-14)
        put = [float(symbol.subs({"w": spin, "v": speed})) for symbol in symbols]
        assert put == pytest.approx(list(alone), rel=1e-12, abs=1e-9)


@pytest.mark.parametrize(("spin", "along"), [(0.0, 0.0), (0.0, 40.0), (110.0, 0.0), (110.0, 35.0), (-20.0, 60.0)])
def test_the_slope_is_that_of_differences(spin, along):
    """The complex step, as trim and modes take it, also where the propeller stands and the air is at rest."""
    loads = shaft_loads(Engine(), THREE, cmath)
    step = 1e-3
    for ahead, imaginary in (((step, 0.0), (1e-30j, 0.0)), ((0.0, step), (0.0, 1e-30j))):
        exact = loads((spin + imaginary[0], along + imaginary[1]), 1.2, CUT)
        plus = shaft_loads(Engine(), THREE)((spin + ahead[0], along + ahead[1]), 1.2, CUT)
        minus = shaft_loads(Engine(), THREE)((spin - ahead[0], along - ahead[1]), 1.2, CUT)
        for own, high, low in zip(exact[2:], plus[2:], minus[2:], strict=True):
            assert own.imag / 1e-30 == pytest.approx((high - low) / (2.0 * step), rel=1e-5, abs=1e-5)


def test_what_the_propeller_takes_from_the_motion_is_torque_times_speed_less_thrust_times_airspeed():
    """Energy of airplane and rotors by the equations of motion, without weight, wing and engine."""
    airplane = Airplane(
        Body(600.0, 700.0, 1000.0, 1500.0, 40.0),
        rotors=(Rotor(9.0), Rotor(2.5, -0.6)),
        propeller=replace(THREE, ratio=-0.6),
        shaft_tilt_rad=0.07,
        gravity_m_s2=0.0,
    )
    u, w, spin = 31.0, 4.0, 210.0
    rates = motion(airplane)((0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, u, 0.0, w, 0.0, 0.0, 0.0, spin), CUT)
    along = u * math.cos(0.07) - w * math.sin(0.07)
    turned = rates[10] * math.cos(0.07) - rates[12] * math.sin(0.07)
    gained = 600.0 * (u * rates[7] + w * rates[9])
    gained += sum(inertia * ratio * spin * (ratio * rates[13] + turned) for inertia, ratio in ((9.0, 1.0), (2.5, -0.6)))
    loads = shaft_loads(airplane.engine, airplane.propeller)((spin, along), SEA_LEVEL_KG_M3, CUT)
    assert loads.propeller * -0.6 * spin > 1e4
    assert gained == pytest.approx(loads.thrust * along - loads.propeller * -0.6 * spin, rel=1e-9)


def test_no_propeller_has_no_loads():
    loads = shaft_loads(Engine(), Propeller())((120.0, 40.0), SEA_LEVEL_KG_M3, CUT)
    assert (loads.propeller, loads.thrust) == (0.0, 0.0)


@pytest.mark.parametrize("speed_m_s", [0.0, 20.0, 60.0])
def test_full_throttle_balances_torques_or_is_throttled_back(speed_m_s):
    engine, propeller = pair(ratio=0.9, windage_w=3000.0)
    free = full_spin_rad_s(engine, propeller, speed_m_s=speed_m_s, density_kg_m3=1.1, most_rad_s=400.0)
    loads = shaft_loads(engine, propeller)((free, speed_m_s), 1.1, FULL)
    assert loads.engine - loads.windage == pytest.approx(0.9 * loads.propeller, rel=1e-9)
    held = 0.9 * free
    limited = full_spin_rad_s(engine, propeller, speed_m_s=speed_m_s, density_kg_m3=1.1, most_rad_s=held)
    assert limited == held
    pulled = shaft_loads(engine, propeller)((held, speed_m_s), 1.1, FULL).thrust
    assert thrust_n(engine, propeller, 1.1, held)(speed_m_s) == pulled


@pytest.mark.parametrize(("rotation", "ratio"), SENSES)
def test_the_static_speed_is_where_the_torques_balance(rotation, ratio):
    engine, propeller = pair(rotation, ratio, windage_w=9000.0)
    torque = shaft_loads(engine, propeller)((rotation * SPEED_RAD_S, 0.0), 1.1, FULL).propeller
    found = static_share(engine, abs(torque), full_speed_rad_s=SPEED_RAD_S, gear_ratio=ratio, density_kg_m3=1.1)
    free = full_spin_rad_s(engine, propeller, speed_m_s=0.0, density_kg_m3=1.1, most_rad_s=600.0)
    assert found == pytest.approx(free / SPEED_RAD_S, rel=2e-3)


@pytest.mark.parametrize("altitude_m", [1000.0, 3000.0])
def test_power_falls_with_height_as_gagg_and_farrar_found(altitude_m):
    density = air(altitude_m).density_kg_m3
    share = density / SEA_LEVEL_KG_M3
    loads = shaft_loads(*pair())((SPEED_RAD_S, 45.0), density, FULL)
    assert loads.engine * SPEED_RAD_S / POWER_W == pytest.approx(1.132 * share - 0.132, abs=2e-4)


@pytest.mark.parametrize("rotation", [1.0, -1.0])
def test_the_steady_throttle_holds_the_speed(rotation):
    engine, propeller = pair(rotation, windage_w=3000.0)
    throttle = throttle_for(
        engine, propeller, spin_rad_s=rotation * 50.0, airspeed_m_s=10.0, density_kg_m3=SEA_LEVEL_KG_M3
    )
    loads = shaft_loads(engine, propeller)((rotation * 50.0, 10.0), SEA_LEVEL_KG_M3, Controls(throttle=throttle))
    assert 0.0 < throttle < 1.0
    assert loads.engine - loads.windage - loads.propeller == pytest.approx(0.0, abs=1e-10)
