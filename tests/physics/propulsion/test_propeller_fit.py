"""A propeller's closed form beside the blade elements that it is fitted to, and beside momentum theory."""

import math

import numpy as np
import pytest

from sim.atmosphere import SEA_LEVEL_KG_M3, Air
from sim.flight.motion import Controls
from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_element_match import matched
from sim.propulsion.blade_geometry import pitched_blade, tabled_blade
from sim.propulsion.engine_propeller import Engine, matched_engine, shaft_loads
from sim.propulsion.propeller_fit import fitted_propeller, thrust_share
from sim.propulsion.thrust import full_spin_rad_s, thrust_n

DIAMETER_M = 2.31
USUAL = [
    *((2, 0.31, 0.052, 0.55), (2, 0.68, 0.081, 0.71), (3, 0.61, 0.069, 0.62), (2, 0.92, 0.118, 0.31)),
    *((4, 0.83, 0.061, 0.58), (3, 1.02, 0.079, 0.53), (2, 1.13, 0.082, 0.44)),
]
"""Blades, pitch and largest chord over diameter, tip Mach number."""
STEEP = (4, 1.39, 0.062, 0.51)


def coefficients(propeller, ratios, spin=120.0):
    """Return thrust and power coefficient of the closed form at advance ratios."""
    turns = spin / math.tau
    loads = shaft_loads(Engine(), propeller)
    found = np.array([loads((spin, turns * DIAMETER_M * ratio), SEA_LEVEL_KG_M3, Controls())[2:] for ratio in ratios])
    scale = SEA_LEVEL_KG_M3 * turns**2 * DIAMETER_M**4
    return found[:, 1] / scale, math.tau * found[:, 0] / (scale * DIAMETER_M)


def fitted(case, **given):
    blades, pitch, chord, mach = case
    return fitted_propeller(pitched_blade(blades, pitch, chord), diameter_m=DIAMETER_M, tip_mach=mach, **given)


@pytest.mark.parametrize(
    ("case", "thrust", "torque"), [*((case, 0.006, 0.013) for case in USUAL), (STEEP, 0.012, 0.017)], ids=str
)
def test_from_rest_to_the_end_of_the_thrust(case, thrust, torque):
    """Between the advance ratios of the fit as well, with the finer elements of the charts."""
    propeller, blade = fitted(case), pitched_blade(*case[:3])
    end = propeller.advance_m_rad * math.tau / DIAMETER_M
    ratios = np.linspace(0.0, 1.03 * end, 83)
    exact, (ct, cp) = blade_loads(blade, ratios, tip_mach=case[3]), coefficients(propeller, ratios)
    assert np.abs(ct - exact.ct).max() < thrust * exact.ct[0]
    assert np.abs(cp - exact.cp).max() < torque * exact.cp[0]
    assert np.interp(0.0, -exact.ct, ratios) == pytest.approx(end, rel=0.03)


@pytest.mark.parametrize("case", [*USUAL, STEEP], ids=str)
def test_windmilling_and_stopped(case):
    propeller, blade = fitted(case), pitched_blade(*case[:3])
    end = propeller.advance_m_rad * math.tau / DIAMETER_M
    ratios = end * np.array([1.1, 1.3, 1.7, 2.5, 5.0, 12.0])
    exact = blade_loads(blade, ratios, tip_mach=case[3] * 1.1 * end / ratios)
    rest = blade_loads(blade, np.zeros(1), tip_mach=case[3])
    ct, cp = coefficients(propeller, ratios)
    wind = 1.0 + 3.0 * (ratios / end) ** 2
    assert np.abs((ct - exact.ct) / wind).max() < 0.07 * rest.ct[0]
    assert np.abs((cp - exact.cp) / wind).max() < 0.09 * rest.cp[0]
    assert (ct < 0.0).all()
    assert (cp[:4] < 0.0).all()


@pytest.mark.parametrize("case", [*USUAL, STEEP], ids=str)
def test_momentum_theory_is_never_beaten(case):
    """At rest T ≤ (2ρA P²)^(1/3), in flight no efficiency above 2 / (1 + √(1 + T/(½ρV²A))): exact bounds."""
    propeller = fitted(case)
    ratios = np.linspace(0.05, 0.95, 19) * propeller.advance_m_rad * math.tau / DIAMETER_M
    (rest_ct,), (rest_cp,) = coefficients(propeller, [0.0])
    assert 0.3 < rest_ct / (0.5 * math.pi * rest_cp**2) ** (1.0 / 3.0) < 1.0
    ct, cp = coefficients(propeller, ratios)
    ideal = 2.0 / (1.0 + np.sqrt(1.0 + 8.0 * ct / (math.pi * ratios**2)))
    assert (ratios * ct / cp < ideal).all()


def test_the_static_thrust_of_80_hp_on_eight_and_a_half_feet():
    """Momentum theory allows 805 lb; a real propeller is said to have 55 to 70 % of it (from memory)."""
    diameter_m, power_w = 8.5 * 0.3048, 80.0 * 745.7
    engine = matched_engine(power_w=power_w, speed_rad_s=125.0, rotation=1.0)
    propeller = fitted_propeller(pitched_blade(2, 0.83, 0.075), diameter_m=diameter_m, tip_mach=0.45)
    spin = full_spin_rad_s(engine, propeller, speed_m_s=0.0, density_kg_m3=SEA_LEVEL_KG_M3, most_rad_s=250.0)
    power_hp = engine.firing_torque_n_m * spin / 745.7
    pounds = thrust_n(engine, propeller, SEA_LEVEL_KG_M3, 250.0)(0.0) / 4.448222
    assert 0.5 < pounds / (805.0 * (power_hp / 80.0) ** (2.0 / 3.0)) < 0.75


@pytest.mark.parametrize("rotation", [1.0, -1.0])
@pytest.mark.parametrize("case", [USUAL[1], USUAL[4]], ids=str)
def test_the_matched_speed_is_that_of_the_blade_elements(case, rotation):
    """Found by another solver from blade elements: near at the Mach number of cruise, close at that of the moment."""
    engine = matched_engine(
        power_w=101e3, speed_rad_s=233.0, rotation=rotation, friction_torque_n_m=29.0, windage_w=5e3
    )
    around, blade = Air(285.0, 1.13 * 337.0**2 / 1.4, 1.13), pitched_blade(*case[:3])
    speeds = (0.0, 16.0, 31.0, 47.0, 62.0)
    given = {"diameter_m": DIAMETER_M, "most_rad_s": 400.0, "air": around, "gear_ratio": 0.79}
    exact = matched(engine, blade, speeds, **given)
    tips = 0.5 * DIAMETER_M * exact.spin_rad_s / 337.0
    for number, speed in enumerate(speeds):
        for tip_mach, near in ((tips[2], 0.02), (tips[number], 0.007)):
            ratio = math.copysign(0.79, rotation)
            propeller = fitted_propeller(blade, diameter_m=DIAMETER_M, tip_mach=float(tip_mach), ratio=ratio)
            spin = full_spin_rad_s(engine, propeller, speed_m_s=speed, density_kg_m3=1.13, most_rad_s=400.0)
            assert 0.79 * spin == pytest.approx(exact.spin_rad_s[number], rel=near)
            pulled = thrust_n(engine, propeller, 1.13, 400.0)(speed)
            assert pulled == pytest.approx(exact.thrust_n[number], abs=near * exact.thrust_n[0])


def test_a_measured_efficiency_scales_the_thrust_and_keeps_the_torque():
    own, given = fitted(USUAL[5]), fitted(USUAL[5], efficiency=0.71)
    ratios = np.linspace(0.0, 1.2, 241)
    (ct, cp), (scaled, same) = coefficients(own, ratios), coefficients(given, ratios)
    assert same.tolist() == cp.tolist()
    share = thrust_share(pitched_blade(*USUAL[5][:3]), USUAL[5][3], 0.71)
    assert scaled == pytest.approx(share * ct, rel=1e-12)
    efficiency = np.where(scaled > 0.0, ratios * scaled / same, 0.0)
    assert efficiency.max() == pytest.approx(0.71, abs=1e-3)


def test_size_and_gear_are_no_matter_of_the_fit():
    small = fitted_propeller(pitched_blade(2, 0.7, 0.07), diameter_m=1.0, tip_mach=0.5)
    large = fitted_propeller(pitched_blade(2, 0.7, 0.07), diameter_m=3.0, tip_mach=0.5, ratio=-0.4)
    assert small.thrust_rotation == large.thrust_rotation
    thrust = [
        shaft_loads(Engine(), one)((spin, 30.0), 1.2, Controls()).thrust
        for one, spin in ((small, 300.0), (large, 250.0))
    ]
    assert thrust[1] == pytest.approx(9.0 * thrust[0], rel=1e-3)


def test_equal_blades_are_equal():
    one, other = (tabled_blade(2, [0.2, 0.6, 1.0], [0.05, 0.08, 0.04], [0.7, 0.4, 0.2]) for _ in range(2))
    assert (one, hash(one)) == (other, hash(other))
    assert one.turned(0.01) != one


@pytest.mark.parametrize("turn_deg", [-25.0, -10.0, 25.0])
def test_blades_turned_out_of_use_still_have_finite_loads(turn_deg):
    blade = pitched_blade(2, 0.6, 0.07).turned(math.radians(turn_deg))
    propeller = fitted_propeller(blade, diameter_m=DIAMETER_M, tip_mach=0.5)
    ct, cp = coefficients(propeller, np.linspace(0.0, 3.0, 31))
    assert np.isfinite([*ct, *cp]).all()
