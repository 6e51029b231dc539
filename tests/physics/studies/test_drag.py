"""The study of drag: shares, what serves beside what is stated, and the speeds that follow."""

import dataclasses

import numpy as np
import pytest
from airplanes import BIPLANE, SESQUIPLANE

import sim
from sim.model.model import Model
from sim.scenario.reading import load


@pytest.fixture(scope="module")
def answer():
    return sim.drag(SESQUIPLANE)


def test_shares_add_up(answer):
    assert sum(part.drag_share for part in answer.parts) == pytest.approx(1.0)
    whole = sum(part.variance_share for part in answer.parts) + answer.interference_variance_share
    assert whole == pytest.approx(1.0)
    assert answer.dominant == max(answer.parts, key=lambda part: part.variance_share).name == "cowl"
    drag = answer.coefficients["drag_zero_lift"]
    parts = sum(part.drag_area_m2 for part in answer.parts)
    assert drag.value == pytest.approx(parts * answer.whole_interference.value / answer.area_m2)


def test_interference_can_be_what_is_least_known():
    assert sim.drag(load(SESQUIPLANE, ["drag.interference=1.13 ± 0.2"])).dominant == "interference"


def test_nothing_stated_nothing_beside_it(answer):
    assert all(one.stated is None and one.apart is None for one in answer.coefficients.values())
    assert answer.remarks == ()


def test_what_is_stated_stands_beside_and_serves():
    found = sim.drag(load(SESQUIPLANE, ["drag.zero_lift=0.05 ± 0.002", "lift.max=1.19"]))
    drag, lift = found.coefficients["drag_zero_lift"], found.coefficients["lift_max"]
    assert (drag.stated, drag.stated_band) == (0.05, pytest.approx(0.002))
    assert drag.apart == pytest.approx(0.05 - drag.value)
    assert (lift.stated, lift.stated_band, lift.apart) == (1.19, 0.0, pytest.approx(1.19 - lift.value))
    assert found.stall_band_m_s == 0.0
    assert found.coefficients["span_efficiency"].stated is None


def test_the_steps_of_greatest_lift_multiply(answer):
    lift = answer.lift
    wing = lift.section_lift_max.value * lift.surface_factor.value
    wing *= lift.planform_factor.value * lift.fuselage_factor.value
    assert lift.lift_max.value == pytest.approx(wing + lift.trim_lift)
    assert (lift.first_plane, 0.0 < lift.first_span_share < 1.0) == ("upper", True)


def test_drag_that_grows_with_lift_makes_the_efficiency(answer):
    rise = sum(
        getattr(answer.efficiency, name).value for name in ("induced_drag_rise", "profile_drag_rise", "other_drag_rise")
    )
    polar = Model(load(SESQUIPLANE)).polar
    assert polar.induced == pytest.approx(rise)


def test_the_bands_of_speeds_are_the_spread_of_draws():
    """Stalling and top speed of airplanes whose polar is drawn, against what is printed behind ±."""
    model = Model(load(SESQUIPLANE))
    found, bands, polar = sim.speeds(model), model.polar_bands("flat_four"), model.polar
    draws = np.random.default_rng(6).normal(size=(3, 60))
    draws = (draws - draws.mean(axis=1, keepdims=True)) / draws.std(axis=1, keepdims=True)
    stall, top = [], []
    for drag, efficiency, lift in draws.T.tolist():
        drawn = Model(load(SESQUIPLANE))
        drawn._polars["flat_four"] = dataclasses.replace(
            polar,
            drag_zero_lift=polar.drag_zero_lift + drag * bands.drag_zero_lift_band,
            span_efficiency=polar.span_efficiency + efficiency * bands.span_efficiency_band,
            lift_max=polar.lift_max + lift * bands.lift_max_band,
        )
        speeds = sim.speeds(drawn)
        stall.append(speeds.stall_m_s)
        top.append(speeds.top_m_s)
    own = found.bands["flat_four"]
    assert own.stall_band_m_s == pytest.approx(np.std(stall), rel=0.05)
    assert own.top_band_m_s == pytest.approx(np.std(top), rel=0.2)


def test_speeds_respond_to_section_and_parts_with_the_right_sign():
    def speeds(*settings):
        return sim.speeds(load(SESQUIPLANE, settings))

    plain, cambered, deep, clean = (
        speeds(),
        speeds("section.naca=6411"),
        speeds("section.naca=4420"),
        speeds("drag.part.legs.kind=gear_strut"),
    )
    assert cambered.stall_m_s < plain.stall_m_s
    assert deep.top_m_s < plain.top_m_s < clean.top_m_s
    assert clean.stall_m_s == plain.stall_m_s


def test_an_airplane_that_states_all_has_no_bands():
    assert {own.stall_band_m_s for own in sim.speeds(BIPLANE).bands.values()} == {0.0}
    stated = sim.speeds(load(BIPLANE, ["lift.max=1.45 ± 0.07"]))
    own, stall = stated.bands["rotary"], stated.powerplants["rotary"].stall_m_s
    assert own.stall_band_m_s == pytest.approx(stall * 0.5 * 0.07 / 1.45)
    assert own.top_band_m_s == 0.0


def test_a_sweep_collects_from_it():
    rows = sim.sweep(
        load(SESQUIPLANE),
        vary=["drag.part.legs.count=2,4"],
        collect=["drag.coefficients.drag_zero_lift.value", "speeds.top_m_s"],
    ).rows
    (less, fast), (more, slow) = (row.results for row in rows)
    assert less < more
    assert fast > slow
