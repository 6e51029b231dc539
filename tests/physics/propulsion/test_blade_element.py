"""Blade elements with momentum theory: an independent solver, conservation, limits, convergence."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import fsolve

from sim.propulsion.blade_element import blade_loads, tip_factor
from sim.propulsion.blade_geometry import HUB_SHARE, Blade, largest_chord, pitched_blade, tabled_blade
from sim.propulsion.blade_section import BladeSection, section_coefficients
from sim.propulsion.propeller_curve import efficiency, figure_of_merit, propeller_points
from sim.rotor.propeller_inertia import WOODEN

PITCHED = pitched_blade(2, 0.71, 0.069)
MEASURED = tabled_blade(3, (0.23, 0.41, 0.66, 0.97), (0.041, 0.072, 0.065, 0.031), np.radians((41.0, 29.0, 19.5, 13.5)))
RATIOS = np.array([0.0, 0.13, 0.37, 0.58, 0.79, 0.96, 1.31, 2.2])
NO_DRAG = BladeSection(drag_min=0.0, drag_rise=0.0)
BLADES = pytest.mark.parametrize("blade", [PITCHED, MEASURED], ids=["pitched", "measured"])


def momentum(loads):
    """Return the coefficients of thrust and torque of each element by the change of momentum of the air."""
    x, ratio = loads.radius_share, loads.advance_ratio[:, None]
    axial = loads.wind_share * np.sin(loads.inflow_rad) - ratio
    swirl = np.pi * x - loads.wind_share * np.cos(loads.inflow_rad)
    flow = np.pi * loads.tip_factor * loads.mass_flow * loads.width_share
    return flow * x * axial, 0.5 * flow * x**2 * swirl


@BLADES
def test_the_change_of_momentum_is_the_load_on_the_blades(blade):
    loads = blade_loads(blade, RATIOS, tip_mach=0.41)
    thrust, torque = momentum(loads)
    assert thrust == pytest.approx(loads.ct_elements, abs=1e-10)
    assert torque == pytest.approx(loads.cq_elements, abs=1e-10)


@given(st.floats(0.2, 1.6), st.floats(0.02, 0.12), st.integers(1, 6), st.floats(0.0, 3.0), st.floats(-25.0, 25.0))
def test_a_solution_is_found_whatever_the_blade(pitch, chord, blades, ratio, turn_deg):
    blade = pitched_blade(blades, pitch, chord).turned(math.radians(turn_deg))
    loads = blade_loads(blade, np.array([ratio]), tip_mach=0.55)
    thrust, torque = momentum(loads)
    scale = np.abs(loads.ct_elements).max() + 1e-6
    assert thrust == pytest.approx(loads.ct_elements, abs=1e-7 * scale)
    assert torque == pytest.approx(loads.cq_elements, abs=1e-7 * scale)


def two_equations(blade, radius, ratio, guess):
    """Solve for axial and tangential velocity at the blade, over n D, with forces and momentum written out."""
    chord = np.interp(radius, blade.radius_share, blade.chord_per_diameter)
    angle = np.interp(radius, blade.radius_share, blade.blade_angle_rad)

    def equations(velocities):
        axial, around = velocities
        inflow, square = math.atan2(axial, around), axial**2 + around**2
        lift, drag = section_coefficients(MINE, np.array([angle - inflow]), np.zeros(1))
        normal = lift[0] * math.cos(inflow) - drag[0] * math.sin(inflow)
        across = lift[0] * math.sin(inflow) + drag[0] * math.cos(inflow)
        exponent = 0.5 * blade.blades * (1.0 - radius) / (radius * abs(math.sin(inflow)))
        factor = 2.0 / math.pi * math.acos(math.exp(-exponent))
        annulus = 4.0 * math.pi * radius / 2.0 * factor * axial
        strip = 0.5 * square * blade.blades * chord
        return annulus * (axial - ratio) - strip * normal, annulus * (math.pi * radius - around) - strip * across

    found, _, fine, _ = fsolve(equations, guess, xtol=1e-13, full_output=True)
    assert fine == 1
    return found


MINE = BladeSection(lift_slope=5.45, zero_lift_rad=-0.068, drag_min=0.0113, lift_at_drag_min=0.31)


@BLADES
@pytest.mark.parametrize("ratio", [0.0, 0.37, 0.79, 0.96])
def test_an_independent_solver_of_the_two_equations(blade, ratio):
    loads = blade_loads(blade, np.array([ratio]), section=MINE, elements=12)
    for place in range(2, 12):
        radius = loads.radius_share[place]
        axial, around = two_equations(blade, radius, ratio, (ratio + 0.1, math.pi * radius))
        assert loads.wind_share[0, place] * math.sin(loads.inflow_rad[0, place]) == pytest.approx(axial, abs=1e-9)
        assert loads.wind_share[0, place] * math.cos(loads.inflow_rad[0, place]) == pytest.approx(around, abs=1e-9)


@BLADES
def test_the_shaft_power_is_propulsive_induced_swirl_and_profile_power(blade):
    loads = blade_loads(blade, RATIOS)
    x, ratio = loads.radius_share, loads.advance_ratio[:, None]
    axial = loads.wind_share * np.sin(loads.inflow_rad)
    swirl = np.pi * x - loads.wind_share * np.cos(loads.inflow_rad)
    chord = np.interp(x, blade.radius_share, blade.chord_per_diameter)
    strip = 0.25 * blade.blades * chord * loads.width_share
    profile = strip * loads.wind_share**3 * loads.drag_coefficient
    across = loads.cq_elements / (0.5 * x)
    parts = loads.ct_elements * ratio, loads.ct_elements * (axial - ratio), across * swirl, profile
    assert loads.cp == pytest.approx(sum(part.sum(axis=1) for part in parts), rel=1e-9)
    assert all((part.sum(axis=1) > -1e-12).all() for part in parts[1:])


@BLADES
def test_the_efficiency_is_below_that_of_the_actuator_disc(blade):
    for point in propeller_points(blade, np.linspace(0.05, 1.1, 22)):
        if point.efficiency is not None:
            loading = 8.0 * point.ct / (math.pi * point.advance_ratio**2)
            assert 0.0 < point.efficiency < 2.0 / (1.0 + math.sqrt(1.0 + loading))


@BLADES
def test_the_figure_of_merit_is_below_1(blade):
    (static,) = propeller_points(blade, (0.0,))
    assert 0.4 < figure_of_merit(static.ct, static.cp) < 0.85


def test_at_rest_many_fine_blades_without_drag_approach_the_actuator_disc():
    stations = np.linspace(0.1, 1.0, 60)
    hover = Blade(100, stations, np.full(60, 0.0016), np.arctan(0.062 / stations) + NO_DRAG.zero_lift_rad)
    loads = blade_loads(hover, np.zeros(1), section=NO_DRAG)
    ct, cp = float(loads.ct[0]), float(loads.cp[0])
    assert figure_of_merit(ct, cp) == pytest.approx(1.0, abs=0.03)
    assert figure_of_merit(ct, cp) < 1.0
    per_area = loads.ct_elements[0] / (2.0 * loads.radius_share * loads.width_share * math.pi / 4.0)
    through = loads.wind_share[0] * np.sin(loads.inflow_rad[0])
    assert per_area[:30] == pytest.approx(2.0 * through[:30] ** 2, rel=1e-3)  # T = 2 ρ A u², the loss at the tip apart


def test_a_blade_without_chord_does_nothing():
    loads = blade_loads(pitched_blade(4, 0.9, 0.0), RATIOS)
    assert not loads.ct.any()
    assert not loads.cp.any()
    inner = np.abs(np.tan(loads.inflow_rad) - RATIOS[:, None] / (np.pi * loads.radius_share))
    assert inner.max() < 1e-9


def test_many_blades_of_one_solidity_lose_nothing_at_the_tip():
    found = [
        blade_loads(
            replace(
                PITCHED, blades=count, chord_per_diameter=tuple(np.array(PITCHED.chord_per_diameter) * 2.0 / count)
            ),
            0.4,
        )
        for count in (2, 8, 64, 512)
    ]
    thrusts = [float(each.ct[0]) for each in found]
    assert thrusts == sorted(thrusts)
    assert thrusts[-1] - thrusts[-2] < 0.005 * thrusts[-1]
    assert found[-1].tip_factor[0, :-4].min() > 0.99


def test_the_factor_for_the_tip():
    assert tip_factor(2, np.array([1.0 - 1e-9, 0.4]), np.array([0.3, 1e-6])) == pytest.approx([0.0, 1.0], abs=1e-3)
    exponent = 1.5 * 0.2 / (0.8 * math.sin(0.2))
    assert tip_factor(3, np.array([0.8]), np.array([0.2])) == pytest.approx(
        2 / math.pi * math.acos(math.exp(-exponent))
    )


@BLADES
def test_it_converges_with_the_elements(blade):
    coarse, usual, many, fine = (blade_loads(blade, RATIOS, elements=count) for count in (20, 40, 160, 640))
    for name in ("ct", "cp"):
        ends = getattr(fine, name)
        errors = [np.abs(getattr(each, name) - ends).max() / np.abs(ends).max() for each in (coarse, usual, many)]
        assert errors[1] < 1e-3
        assert errors[2] < 0.3 * errors[0]


@BLADES
def test_thrust_falls_and_turns_into_drag_without_a_jump(blade):
    ratios = np.linspace(0.0, 3.0, 1501)
    loads = blade_loads(blade, ratios)
    assert np.abs(np.diff(loads.ct)).max() < 0.004
    assert np.abs(np.diff(loads.cp)).max() < 0.006
    assert (np.diff(loads.ct[(ratios > 0.6) & (ratios < 2.0)]) < 0.0).all()
    assert loads.ct[-1] < 0.0
    assert loads.cp[-1] < 0.0


def test_blades_turned_to_reverse_pull_backwards():
    loads = blade_loads(PITCHED.turned(math.radians(-38.0)), np.array([0.0, 0.3]))
    assert (loads.ct < 0.0).all()
    assert (loads.cp > 0.0).all()


def test_a_coarser_blade_takes_more_power_and_gives_thrust_up_to_a_higher_advance_ratio():
    finer, coarser = (blade_loads(PITCHED.turned(math.radians(turn)), RATIOS) for turn in (-4.0, 4.0))
    assert (coarser.cp[:5] > finer.cp[:5]).all()
    assert finer.ct[4] < 0.0 < coarser.ct[4]


def test_mach_number_raises_the_load():
    slow, fast = (blade_loads(MEASURED, np.array([0.55]), tip_mach=mach) for mach in (0.0, 0.68))
    assert 1.02 < float(fast.ct[0] / slow.ct[0]) < 1.3
    assert fast.local_mach[0, -1] == pytest.approx(0.68 * math.hypot(fast.radius_share[-1], 0.55 / math.pi))


def test_advance_ratios_do_not_disturb_each_other():
    together = blade_loads(MEASURED, RATIOS, tip_mach=np.linspace(0.1, 0.7, 8))
    for place, (ratio, mach) in enumerate(zip(RATIOS, np.linspace(0.1, 0.7, 8), strict=True)):
        alone = blade_loads(MEASURED, np.array([ratio]), tip_mach=mach)
        assert alone.ct[0] == pytest.approx(together.ct[place], abs=1e-12)


def test_the_faces_of_a_blade_of_constant_pitch_lie_on_one_helix():
    assert np.tan(PITCHED.blade_angle_rad) * np.pi * np.array(PITCHED.radius_share) == pytest.approx(0.71)
    assert PITCHED.radius_share[0] == HUB_SHARE
    assert max(PITCHED.chord_per_diameter) == pytest.approx(0.069, rel=2e-3)
    assert largest_chord(0.12, 0.3) == pytest.approx(0.12 / WOODEN.chord_share[2])


def test_efficiency_only_where_there_is_thrust_and_power():
    assert efficiency(0.5, 0.06, 0.04) == pytest.approx(0.75)
    assert efficiency(0.9, -0.01, 0.02) is None
    assert efficiency(0.9, 0.01, -0.02) is None
    assert efficiency(0.0, 0.1, 0.05) == 0.0
