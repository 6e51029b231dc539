"""Engine and propeller meet where they are matched, and behave in between."""

import math

import pytest

from sim.atmosphere import SEA_LEVEL_KG_M3, air
from sim.flight.motion import Controls
from sim.propulsion.engine_propeller import matched_engine, matched_propeller, shaft_loads, steady_throttle

POWER_W, SPEED_RAD_S, AIRSPEED_M_S, EFFICIENCY = 97e3, 131.0, 45.0, 0.75
FULL, CUT = Controls(throttle=1.0), Controls()


def pair(rotation=1.0, ratio=1.0, windage_w=0.0):
    engine = matched_engine(
        power_w=POWER_W,
        speed_rad_s=SPEED_RAD_S,
        rotation=rotation,
        friction_torque_n_m=0.132 * POWER_W / SPEED_RAD_S,
        windage_w=windage_w,
    )
    propeller = matched_propeller(
        power_w=POWER_W, speed_rad_s=SPEED_RAD_S, airspeed_m_s=AIRSPEED_M_S, efficiency=EFFICIENCY, ratio=ratio
    )
    return engine, propeller


@pytest.mark.parametrize(("rotation", "ratio"), [(1.0, 1.0), (-1.0, 1.0), (1.0, 0.5), (1.0, -0.6), (-1.0, -0.6)])
def test_at_the_matched_point_the_shaft_holds_its_speed_and_the_thrust_its_power(rotation, ratio):
    engine, propeller = pair(rotation, ratio, windage_w=3000.0)
    spin = rotation * SPEED_RAD_S
    loads = shaft_loads(engine, propeller)((spin, AIRSPEED_M_S), SEA_LEVEL_KG_M3, FULL)
    assert loads.engine - loads.windage - ratio * loads.propeller == pytest.approx(0.0, abs=1e-9)
    assert (loads.engine - loads.windage) * spin == pytest.approx(POWER_W, rel=1e-12)
    assert loads.thrust * AIRSPEED_M_S == pytest.approx(EFFICIENCY * POWER_W, rel=1e-12)
    assert math.copysign(1.0, loads.propeller) == math.copysign(1.0, spin * ratio)


def test_the_matched_airspeed_is_the_one_of_best_efficiency():
    loads = shaft_loads(*pair())

    def efficiency(airspeed):
        found = loads((SPEED_RAD_S, airspeed), SEA_LEVEL_KG_M3, FULL)
        return found.thrust * airspeed / (found.propeller * SPEED_RAD_S)

    assert efficiency(0.98 * AIRSPEED_M_S) < efficiency(AIRSPEED_M_S) > efficiency(1.02 * AIRSPEED_M_S)


def test_a_standing_airplane_holds_four_fifths_of_the_speed_and_pulls():
    spin = SPEED_RAD_S * math.sqrt(2.0 / 3.0)
    engine, propeller = pair()
    loads = shaft_loads(engine, propeller)((spin, 0.0), SEA_LEVEL_KG_M3, FULL)
    assert loads.engine == pytest.approx(loads.propeller, rel=1e-4)
    disc_m2 = math.pi * 1.3**2
    ideal = (2.0 * SEA_LEVEL_KG_M3 * disc_m2 * (loads.propeller * spin) ** 2) ** (1.0 / 3.0)
    assert 0.6 * ideal < loads.thrust < 0.85 * ideal


def test_with_the_ignition_cut_the_air_drives_the_engine_at_speed_and_friction_stops_it_at_rest():
    loads = shaft_loads(*pair())
    diving = loads((60.0, 45.0), SEA_LEVEL_KG_M3, CUT)
    assert diving.propeller < 0.0 > diving.engine
    assert diving.thrust < 0.0
    assert loads((0.0, 0.0), SEA_LEVEL_KG_M3, CUT) == (0.0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize("altitude_m", [1000.0, 3000.0])
def test_power_falls_with_height_as_gagg_and_farrar_found(altitude_m):
    density = air(altitude_m).density_kg_m3
    share = density / SEA_LEVEL_KG_M3
    loads = shaft_loads(*pair())((SPEED_RAD_S, AIRSPEED_M_S), density, FULL)
    assert loads.engine * SPEED_RAD_S / POWER_W == pytest.approx(1.132 * share - 0.132, abs=2e-4)


@pytest.mark.parametrize("rotation", [1.0, -1.0])
def test_the_steady_throttle_holds_the_speed(rotation):
    engine, propeller = pair(rotation, windage_w=3000.0)
    throttle = steady_throttle(
        engine, propeller, spin_rad_s=rotation * 50.0, airspeed_m_s=10.0, density_kg_m3=SEA_LEVEL_KG_M3
    )
    loads = shaft_loads(engine, propeller)((rotation * 50.0, 10.0), SEA_LEVEL_KG_M3, Controls(throttle=throttle))
    assert 0.0 < throttle < 1.0
    assert loads.engine - loads.windage - loads.propeller == pytest.approx(0.0, abs=1e-10)
