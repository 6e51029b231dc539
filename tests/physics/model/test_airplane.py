"""The airplane of a scenario: planes that differ, overrides, unknown names."""

import pytest
from airplanes import BIPLANE

from sim.aerodynamics.biplane import equivalent_aspect_ratio
from sim.airframe.wing import Wing
from sim.errors import InputError
from sim.model.model import Model
from sim.scenario.reading import load


def wing(*settings) -> Wing:
    return Model(load(BIPLANE, settings)).wing


def test_planes_stand_a_gap_apart_and_the_upper_one_ahead_by_the_stagger():
    upper, lower = wing().planes
    assert upper.height_m - lower.height_m == pytest.approx(56.0 * 0.0254)
    assert lower.arm_m - upper.arm_m == pytest.approx(18.0 * 0.0254)
    assert 0.5 * (upper.arm_m + lower.arm_m) == pytest.approx(-2.0 * 0.0254)


def test_a_plane_that_differs_changes_itself_alone():
    upper, lower = wing("wing.plane.lower.span=24 ft", "wing.plane.lower.chord=3 ft").planes
    assert (lower.span_m, lower.chord_m) == (pytest.approx(24 * 0.3048), pytest.approx(3 * 0.3048))
    assert upper.span_m == pytest.approx(337 * 0.0254)
    assert wing("wing.plane.lower.span=24 ft").area_m2 < wing().area_m2


def test_a_plane_that_the_wing_has_not_is_refused():
    with pytest.raises(InputError) as caught:
        load(BIPLANE, ["wing.plane.middle.span=24 ft"])
    assert [str(fault) for fault in caught.value.faults] == [
        "set wing.plane.middle: is no plane of this wing, which has upper, lower"
    ]


def test_a_monoplane_and_a_triplane_fly():
    assert len(wing("wing.planes=3").planes) == 3
    assert equivalent_aspect_ratio(wing("wing.planes=1", "aileron.planes=1")) == pytest.approx(337 / 54, rel=1e-12)


def test_a_given_derivative_is_flown():
    """Given about the centre of gravity that the arms are measured from: the side force acts where it did."""
    whole = Model(load(BIPLANE, ["derivatives.yaw_beta=0.05"]))
    flying, aft_m = whole.airplane("rotary"), whole.flown_mass("rotary").cg_aft_m
    assert aft_m > 0.005
    moved = 0.05 + flying.derivatives["side_beta"].value * aft_m / flying.airplane.polar.span_m
    assert flying.airplane.derivatives.yaw_beta == pytest.approx(moved, rel=1e-12)
    assert flying.derivatives["yaw_beta"].origin == "given"


def test_an_engine_that_is_not_there_is_refused():
    with pytest.raises(InputError) as caught:
        Model(load(BIPLANE)).airplane("flatfour")
    assert str(caught.value) == 'powerplant: must be one of rotary, flat_four, got "flatfour"; did you mean flat_four?'
