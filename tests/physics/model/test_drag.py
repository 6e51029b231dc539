"""Drag and greatest lift of a scenario: what is stated serves to the last digit, what is not is built up."""

import math

import pytest
from airplanes import BIPLANE, PARASOL, SESQUIPLANE

from sim.aerodynamics.drag_friction import friction
from sim.aerodynamics.drag_kinds import KINDS
from sim.aerodynamics.drag_wing import cell_lift
from sim.atmosphere import air
from sim.errors import InputError
from sim.model.model import Model
from sim.scenario.reading import load


@pytest.fixture(scope="module")
def built():
    return Model(load(SESQUIPLANE))


def of(*settings):
    return Model(load(SESQUIPLANE, settings))


def areas(model):
    return {part.name: part.drag_area_m2 for part in model.drag_estimate().zero_lift.parts}


@pytest.mark.parametrize("airplane", [BIPLANE, PARASOL], ids=lambda path: path.stem)
def test_what_is_stated_serves_and_nothing_is_built_up(airplane, monkeypatch):
    monkeypatch.setattr("sim.model.drag.drag_estimate", lambda *_, **__: pytest.fail("built up"))
    scenario = load(airplane)
    polar, bands = Model(scenario).polar, Model(scenario).polar_bands("rotary")
    stated = (scenario.drag.zero_lift, scenario.drag.span_efficiency, scenario.lift.max, scenario.lift.zero)
    assert (polar.drag_zero_lift, polar.span_efficiency, polar.lift_max, polar.lift_zero) == stated
    assert (bands.drag_zero_lift_band, bands.span_efficiency_band, bands.lift_max_band) == (0.0, 0.0, 0.0)


def test_one_value_stated_leaves_the_others_as_built_up(built):
    stated = of("drag.zero_lift=0.0417 ± 0.0023")
    assert stated.polar.drag_zero_lift == 0.0417
    assert stated.polar_bands("flat_four").drag_zero_lift_band == pytest.approx(0.0023)
    assert stated.polar.lift_max == built.polar.lift_max
    assert stated.polar.span_efficiency == built.polar.span_efficiency
    assert of("lift.max=1.31").polar.lift_max == 1.31


def test_the_polar_is_what_is_built_up(built):
    found = built.drag_estimate()
    assert built.polar.drag_zero_lift == found.zero_lift.drag_zero_lift.value
    assert built.polar.span_efficiency == found.efficiency.span_efficiency.value
    assert built.polar.lift_max == found.lift.lift_max.value
    assert built.polar_bands("flat_four").lift_max_band == found.lift.lift_max.band > 0.0


def test_without_parts_wing_fuselage_and_tail_remain(built):
    scenario = load(SESQUIPLANE)
    bare = Model(scenario.model_copy(update={"drag": scenario.drag.model_copy(update={"part": {}})}))
    kept = {name: area for name, area in areas(built).items() if name in ("wing", "fuselage", "tailplane", "fin")}
    assert areas(bare) == kept
    assert len(kept) == 4
    whole = 1.13 * sum(kept.values()) / bare.wing.area_m2
    assert bare.polar.drag_zero_lift == pytest.approx(whole, rel=1e-12)


def test_each_part_by_hand(built):
    found = areas(built)
    struts = KINDS["oval_strut"]
    assert found["struts"] == pytest.approx(2 * 1.48 * 0.037 * 0.35 * struts.interference.value)
    assert found["wires"] == pytest.approx(6 * 3.3 * 0.0053 * 0.37 * 1.1), "its own coefficient"
    assert found["wheels"] == pytest.approx(2 * 0.63 * 0.094 * 0.25 * 1.67), "its own interference"
    assert found["cowl"] == pytest.approx(math.pi / 4.0 * 0.87**2 * 0.15)
    assert found["exhausts"] == pytest.approx(2 * 0.0087)
    viscosity = air(430.0).kinematic_viscosity_m2_s
    tail = 2.0 * friction(1.07 * 37.3 / viscosity) * (1.0 + 2.0 * 0.08 + 60.0 * 0.08**4)
    assert found["tailplane"] == pytest.approx(1.2 * tail * 2.61 * 1.07)


def test_a_part_of_one_engine_is_fitted_with_it_alone(built):
    scenario = load(SESQUIPLANE)
    other = scenario.powerplant["flat_four"].model_copy(update={"mass_kg": 131.0})
    two = Model(scenario.model_copy(update={"powerplant": {**scenario.powerplant, "radial": other}}))
    with_it, without = (two.drag_estimate(name).zero_lift for name in ("flat_four", "radial"))
    assert with_it == built.drag_estimate().zero_lift
    assert {part.name for part in with_it.parts} - {part.name for part in without.parts} == {"cowl"}
    assert two.polar_with("radial").drag_zero_lift == without.drag_zero_lift.value


def test_a_tolerance_of_a_dimension_widens_the_band(built):
    def band(model, name):
        return next(p.drag_area_band_m2 for p in model.drag_estimate().zero_lift.parts if p.name == name)

    wide = of("drag.part.struts.width=37 mm ± 9 mm")
    assert band(wide, "struts") > 1.05 * band(built, "struts")
    assert band(wide, "cowl") == band(built, "cowl")
    surer = of("drag.part.cowl.coefficient=0.15 ± 0.01")
    assert (
        surer.polar_bands("flat_four").drag_zero_lift_band < 0.93 * built.polar_bands("flat_four").drag_zero_lift_band
    )


def test_a_section_of_more_camber_stalls_slower_and_one_of_more_depth_flies_slower(built):
    cambered, deep = of("section.naca=6411"), of("section.naca=4418")
    assert cambered.polar.stall_m_s(5600.0, 1.225) < built.polar.stall_m_s(5600.0, 1.225)
    assert deep.polar.drag_zero_lift > built.polar.drag_zero_lift


def test_more_laminar_flow_is_less_drag(built):
    assert of("section.laminar=0.4").polar.drag_zero_lift < built.polar.drag_zero_lift


def test_what_was_measured_of_the_section_replaces_its_estimate(built):
    given = of("section.lift_max=1.27 ± 0.03", "section.drag_min=0.0121", "section.drag_rise=0.009 ± 0.001")
    lift = given.drag_estimate().lift
    assert lift.surface_factor.value == 1.0, "measured as built"
    assert (lift.section_lift_max.value, lift.section_lift_max.band) == (pytest.approx(1.27), pytest.approx(0.03))
    section = given.drag_estimate().sections[0]
    assert (section.section_drag_min.value, section.section_drag_min.band) == (0.0121, 0.0)
    assert section.section_drag_rise.band == pytest.approx(0.001)
    assert section.section_lift_best == built.drag_estimate().sections[0].section_lift_best


def test_a_measured_polar_serves():
    scenario = load(SESQUIPLANE)
    lift = [0.1, 0.3, 0.52, 0.73, 0.95, 1.13, 1.29, 1.17]
    points = [(2.0 * place, cl, 0.0104 + 0.0079 * (cl - 0.2) ** 2) for place, cl in enumerate(lift)]
    section = scenario.section.model_copy(update={"polar": points})
    found = Model(scenario.model_copy(update={"section": section})).drag_estimate()
    assert found.sections[1].section_drag_min.value == pytest.approx(0.0104)
    assert found.lift.section_lift_max.value == pytest.approx(1.29)


def test_the_reynolds_number_of_the_stall_is_that_of_the_greatest_lift_found(built):
    found, ground = built.drag_estimate(), air(0.0)
    speed = built.polar.stall_m_s(571.0 * 9.80665, ground.density_kg_m3)
    chord = built.wing.mean("chord_m")
    assert found.stall_reynolds == pytest.approx(speed * chord / ground.kinematic_viscosity_m2_s, rel=1e-4)
    assert found.reynolds == pytest.approx(37.3 * chord / air(430.0).kinematic_viscosity_m2_s, rel=1e-9)


def test_a_centre_of_gravity_farther_aft_lets_the_tail_push_down_less(built):
    aft = of("wing.arm=-120 mm")
    assert aft.drag_estimate().lift.trim_lift > built.drag_estimate().lift.trim_lift
    assert aft.polar.lift_max > built.polar.lift_max


def test_the_lattice_is_solved_once_for_the_same_planes():
    cell_lift.cache_clear()
    for interference in (1.05, 1.1, 1.15):
        assert of(f"drag.interference={interference}").polar.drag_zero_lift
    assert cell_lift.cache_info().misses == 1


def test_a_lift_at_no_incidence_beyond_the_stall_is_refused():
    with pytest.raises(InputError) as caught:
        _ = of("lift.zero=1.4").polar
    assert str(caught.value) == 'lift.zero: must be smaller than the CL at the stall, 1.23, got "1.4"'


@pytest.mark.parametrize("arm", ["0 m", "30 mm", "-0.1 m"])
def test_arms_that_no_tail_can_balance_are_refused(arm):
    with pytest.raises(InputError) as caught:
        _ = of(f"tailplane.arm={arm}", "wing.arm=0.9 m").polar
    assert str(caught.value) == (
        "lift.max: is needed: wing.arm and tailplane.arm leave the tail more to balance at the stall than half the "
        "lift of the wing; check them, or give it"
    )
