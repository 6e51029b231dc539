"""A receiver cools as lumped capacities must: exponentially while the coefficient holds, and never below the air."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import trapezoid

from sim.atmosphere import air
from sim.numerics.ode import solve
from sim.synchronizer.convection import air_properties, cylinder_coefficient_w_m2_k, cylinder_nusselt
from sim.synchronizer.cooling import (
    STEEL_J_KG_K,
    Exposure,
    Receiver,
    clearance_lost_m,
    course,
    exposed,
    first_above_s,
    first_below_s,
    settled_k,
    temperatures_k,
)


def gun(*, heat_w=0.0, **changed):
    """Return a receiver of two parts in a cold airstream, some of its values changed."""
    metal = {"mass_kg": 6.0, "inner_mass_kg": 1.5, "conductance_w_k": 6.0, "width_m": 0.1, "length_m": 0.45}
    receiver = Receiver(**{**metal, "start_k": 288.0, "oil_stiff_k": 260.0, **changed})
    return Exposure(receiver, speed_m_s=40.0, air_k=256.0, pressure_pa=55_000.0, heat_w=heat_w)


GUN = gun()
HOUR = np.linspace(0.0, 3600.0, 121)


def test_one_capacity_near_the_airs_temperature_cools_exponentially():
    case = gun(inner_mass_kg=0.0, start_k=256.5)
    found = temperatures_k(case, HOUR.tolist()) - case.air_k
    loss = case.loss_w_k(case.air_k)
    assert found == pytest.approx(0.5 * np.exp(-HOUR * loss / (STEEL_J_KG_K * 6.0)), rel=2e-3, abs=1e-9)


def test_half_the_way_takes_as_long_as_the_lumped_capacity_says():
    case = gun(inner_mass_kg=0.0, start_k=257.0)
    curve = temperatures_k(case, HOUR.tolist())
    expected = math.log(2.0) * STEEL_J_KG_K * 6.0 / case.loss_w_k(case.air_k)
    assert first_below_s(HOUR, curve, case.air_k + 0.5) == pytest.approx(expected, rel=5e-3)


@pytest.mark.parametrize("inner", [0.0, 1.5])
def test_it_settles_where_firing_and_air_balance(inner):
    case = gun(inner_mass_kg=inner, heat_w=90.0, start_k=290.0)
    long = temperatures_k(case, np.linspace(0.0, 30_000.0, 101).tolist())[-1]
    assert long == pytest.approx(settled_k(case), abs=1e-3)
    assert settled_k(replace(case, heat_w=0.0)) == case.air_k


def test_the_inner_part_lags_and_neither_falls_below_the_air():
    with_inner = temperatures_k(GUN, HOUR.tolist())
    alone = temperatures_k(gun(inner_mass_kg=0.0), HOUR.tolist())
    assert np.all(with_inner[1:40] > alone[1:40])
    assert np.all(with_inner >= GUN.air_k - 1e-6)
    assert np.all(np.diff(with_inner) <= 1e-6)


def test_the_same_equations_integrated_step_by_step():
    """The general integrator on the same rates, the coefficient following the metal all the time."""
    heat, inner_heat = STEEL_J_KG_K * 6.0, STEEL_J_KG_K * 1.5

    def rates(_, state):
        inward = 6.0 * (state[0] - state[1])
        lost = GUN.loss_w_k(state[0]) * (state[0] - GUN.air_k)
        return (-lost - inward) / heat, inward / inner_heat

    exact = solve(rates, (290.0, 290.0), HOUR).states[:, 1]
    assert temperatures_k(gun(start_k=290.0), HOUR.tolist()) == pytest.approx(exact, abs=0.005)


def test_a_perfect_contact_makes_one_capacity_of_two():
    joined = temperatures_k(gun(conductance_w_k=3000.0), HOUR.tolist())
    one = temperatures_k(gun(mass_kg=7.5, inner_mass_kg=0.0), HOUR.tolist())
    assert joined == pytest.approx(one, abs=0.05)


def test_a_cowling_slows_and_warms_the_air_and_firing_heats():
    receiver = replace(GUN.receiver, heat_w=90.0, cowl_speed_share=0.2, cowl_rise_k=25.0)
    outside = air(4000.0)
    bare, both = (exposed(receiver, outside, 40.0, cowled=on, firing=on) for on in (False, True))
    assert (bare.speed_m_s, bare.air_k, bare.heat_w) == (40.0, outside.temperature_k, 0.0)
    assert (both.speed_m_s, both.air_k, both.heat_w) == (8.0, outside.temperature_k + 25.0, 90.0)
    assert bare.pressure_pa == both.pressure_pa == outside.pressure_pa


def test_thin_air_and_slow_air_cool_less():
    def of(**changed):
        given = {"width_m": 0.1, "speed_m_s": 40.0, "air_k": 260.0, "body_k": 280.0, "pressure_pa": 1e5}
        return cylinder_coefficient_w_m2_k(**{**given, **changed})

    assert of(pressure_pa=5e4) < of()
    assert of(speed_m_s=6.0) < of()
    assert of(width_m=0.2) < of()


@pytest.mark.parametrize(("reynolds", "flat"), [(1e-3, 0.3), (1e7, None)])
def test_the_limits_of_the_correlation(reynolds, flat):
    """Creeping flow leaves the constant 0.3; a fast one grows nearly with the speed (power 1)."""
    if flat:
        assert cylinder_nusselt(reynolds, 0.7) == pytest.approx(flat, abs=0.05)
    else:
        power = math.log(cylinder_nusselt(10 * reynolds, 0.7) / cylinder_nusselt(reynolds, 0.7)) / math.log(10.0)
        assert power == pytest.approx(1.0, abs=0.05)


@pytest.mark.parametrize(
    ("celsius", "conductivity", "viscosity", "prandtl"),
    [(-20, 0.02211, 1.169e-5, 0.7408), (20, 0.02514, 1.516e-5, 0.7309), (60, 0.02808, 1.896e-5, 0.7202)],
)
def test_air_is_within_3_percent_of_tables(celsius, conductivity, viscosity, prandtl):
    """Çengel, table A-15, at 1 atm. Mark: M but for 60 °C."""
    found = air_properties(celsius + 273.15, 101_325.0)
    assert found.conductivity_w_m_k == pytest.approx(conductivity, rel=0.035)
    assert found.kinematic_viscosity_m2_s == pytest.approx(viscosity, rel=0.03)
    assert found.prandtl == pytest.approx(prandtl, rel=0.04)


def test_warming_takes_as_long_to_a_limit_as_the_lumped_capacity_says():
    """From half a kelvin below the air to a fifth of a kelvin below it: ln 2.5 time constants."""
    case = gun(inner_mass_kg=0.0, start_k=255.5)
    expected = math.log(2.5) * STEEL_J_KG_K * 6.0 / case.loss_w_k(case.air_k)
    found = first_above_s(HOUR, temperatures_k(case, HOUR.tolist()), case.air_k - 0.2)
    assert found == pytest.approx(expected, rel=5e-3)
    assert first_above_s(HOUR, temperatures_k(case, HOUR.tolist()), case.air_k + 0.2) is None


def test_a_limit_that_is_not_reached_is_none():
    assert first_below_s(HOUR, np.full(HOUR.size, 280.0), 260.0) is None
    assert first_below_s(HOUR, np.full(HOUR.size, 250.0), 260.0) == 0.0


def test_warming_opens_the_fit_again():
    assert clearance_lost_m(0.02, -30.0) == -clearance_lost_m(0.02, 30.0)


def test_brass_closes_on_the_steel_inside_it_as_both_cool():
    """It shrinks by 7 millionths more a kelvin."""
    assert clearance_lost_m(0.02, 30.0) == pytest.approx(7.0e-6 * 0.02 * 30.0)


@pytest.mark.parametrize(("inner", "heat_w"), [(0.0, 0.0), (0.0, 60.0), (1.5, 60.0)])
def test_heat_stored_is_heat_put_in_less_heat_given_off(inner, heat_w):
    """Over an hour: the energy of both parts changes by what firing brings less what the air takes."""
    case = gun(inner_mass_kg=inner, heat_w=heat_w, start_k=290.0)
    times = np.linspace(0.0, 3600.0, 721)
    found = course(case, times.tolist())
    lost_j = trapezoid(found.given_off_w, times)
    outer_k = case.air_k + found.given_off_w[-1] / case.loss_w_k(case.air_k + 5.0)
    for _ in range(20):
        outer_k = case.air_k + found.given_off_w[-1] / case.loss_w_k(outer_k)
    inner_k = found.temperature_k[-1] if inner else 0.0
    stored_j = STEEL_J_KG_K * (6.0 * (outer_k - 290.0) + inner * (inner_k - 290.0))
    assert stored_j == pytest.approx(3600.0 * heat_w - lost_j, abs=2e-3 * lost_j)
    assert found.given_off_w[0] == pytest.approx(case.loss_w_k(290.0) * (290.0 - case.air_k))
