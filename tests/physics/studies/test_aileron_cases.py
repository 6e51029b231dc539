"""Ailerons deflected: their rolling moment, their torsion where they are, the inertia that bears them, mirrored."""

from math import degrees

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.model.model import model
from sim.model.wing_loading import wing_loading
from sim.structures.wing_cases import WingCase, wing_cases
from sim.studies import structure as study
from sim.studies.structure_loads import case_loads

AIRPLANES = pytest.mark.parametrize(
    "airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER], ids=["biplane", "triplane", "parasol", "two_seater"]
)


def loads(airplane, aileron_share, *, kg_per_m2=0.0, speed_m_s=40.0):
    one = built(airplane)
    flying = one.airplane(one.usual_powerplant().name)
    case = WingCase("own", "", 2.0, speed_m_s, 2.0, aileron_share=aileron_share)
    return case_loads(one, one.structure, flying, case, kg_per_m2=kg_per_m2), one, flying


def rolling(found):
    """Return the rolling moment of the loads across the stream on all planes, right wing down positive [N m]."""
    c, s = np.cos(found.alpha_rad), np.sin(found.alpha_rad)
    moment = 0.0
    for own, _ in found.strips.values():
        middles, widths = 0.5 * (own.edges_m[1:] + own.edges_m[:-1]), np.diff(own.edges_m)
        moment -= (widths * middles) @ (own.up_n_per_m * c - own.aft_n_per_m * s)
    return moment


@AIRPLANES
def test_the_rolling_moment_is_that_of_the_derivative(airplane):
    """q S b Cl per radian of aileron, as the equations of motion have it; stick to the right rolls right."""
    right, _, flying = loads(airplane, -1.0)
    polar = flying.airplane.polar
    slope = flying.derivatives["roll_aileron"].value
    moment = 0.5 * 1.225 * 40.0**2 * polar.area_m2 * polar.span_m * slope * -flying.travel.aileron_rad
    assert moment > 0.0
    assert rolling(right) == pytest.approx(moment, rel=0.05)
    assert rolling(loads(airplane, 0.0)[0]) == pytest.approx(0.0, abs=1e-9 * moment)


@AIRPLANES
def test_the_inertia_of_the_planes_bears_their_part(airplane):
    """The moment of their weight changes by the angular acceleration times ∫ y² dm, spread as their chord is."""
    kg_per_m2 = 4.7
    bare, one, flying = loads(airplane, -1.0)
    heavy, _, _ = loads(airplane, -1.0, kg_per_m2=kg_per_m2)
    inertia = 0.0
    for plane in one.wing.planes:
        y = (np.arange(4000) + 0.5) / 4000.0 * plane.span_m - 0.5 * plane.span_m
        chord = 1.0 - np.abs(y) / (0.5 * plane.span_m) * (1.0 - plane.taper)
        inertia += kg_per_m2 * plane.area_m2 * float(np.average(y**2, weights=chord))
    faster = rolling(bare) / flying.airplane.body.inertia_roll_kg_m2
    relief = rolling(bare) - rolling(heavy)
    assert relief == pytest.approx(faster * inertia * np.cos(bare.alpha_rad), rel=0.05)
    assert relief > 0.02 * rolling(bare)


@AIRPLANES
def test_torsion_is_added_where_the_ailerons_are_and_nowhere_else(airplane):
    """−0.01 a degree down on the moment coefficient: nose down on the left in a roll to the right, up on the right."""
    right, one, flying = loads(airplane, -1.0)
    level, _, _ = loads(airplane, 0.0)
    turn = 0.01 * degrees(flying.travel.aileron_rad)
    ailed = 0
    for number, plane in enumerate(one.wing.planes):
        own, still = right.strips[plane.name][0], level.strips[plane.name][0]
        half = 0.5 * plane.span_m
        out = np.abs(own.edges_m) / half
        inner, outer = np.minimum(out[1:], out[:-1]), np.maximum(out[1:], out[:-1])
        full = (inner >= one.airframe.aileron_from) & (outer <= one.airframe.aileron_to)
        none = (outer <= one.airframe.aileron_from) | (inner >= one.airframe.aileron_to)
        middles = 0.5 * (own.edges_m[1:] + own.edges_m[:-1])
        chord = 2.0 * plane.chord_m * (1.0 - np.abs(middles) / half * (1.0 - plane.taper)) / (1.0 + plane.taper)
        change = (own.nose_up_n - still.nose_up_n) / (0.5 * 1.225 * 40.0**2 * chord**2)
        if number < one.airframe.aileron_planes:
            assert change[full] == pytest.approx(turn * np.sign(middles[full]), rel=0.02)
            ailed += full.sum()
        else:
            none[:] = True
        assert change[none] == pytest.approx(0.0, abs=1e-12)
    assert ailed >= 4


@AIRPLANES
def test_left_and_right_are_mirrored_and_set_the_same_margins(airplane):
    right, left = (loads(airplane, share, kg_per_m2=3.0)[0].strips for share in (-0.6, 0.6))
    for name, (own, _) in right.items():
        other = left[name][0]
        for part in ("up_n_per_m", "aft_n_per_m", "nose_up_n"):
            most = np.abs(getattr(own, part)).max()
            assert getattr(own, part) == pytest.approx(getattr(other, part)[::-1], abs=1e-9 * most)


def test_cases_of_the_rule():
    """Stops at VA, the same rate of roll at VC and a third of it at VD; two thirds of the load factor."""
    one = built(BIPLANE)
    loading = wing_loading(one.structure, one.airplane(one.usual_powerplant().name))
    cases = {case.name: case for case in wing_cases(loading) if case.aileron_share}
    assert len(cases) == 6
    assert [case.load_factor for case in cases.values()] == pytest.approx([2.0 / 3.0 * loading.up] * 6)
    va = loading.manoeuvring_m_s
    for at, rate in (("VA", 1.0), ("VC", 1.0), ("VD", 1.0 / 3.0)):
        right, left = (cases[f"ailerons to the {way} at {at}"] for way in ("right", "left"))
        assert right.aileron_share == -left.aileron_share < 0.0
        assert -right.aileron_share * right.speed_m_s == pytest.approx(rate * va)
    told = {case.name: case.rule for case in answer("structure", BIPLANE).cases}
    assert all(told[name] == "14 CFR 23.349(b)" for name in cases)


def test_a_case_of_ones_own_may_deflect_them():
    settings = ["structure.case.gentle_pull.aileron_share=-0.7"]
    rows = [study.structure(model(BIPLANE, more)) for more in ([], settings)]
    own = next(case for case in rows[1].cases if case.name == "gentle pull")
    assert own.aileron_share == -0.7
    tips = [next(case.tip_deflection_m for case in one.cases if case.name == "gentle pull") for one in rows]
    assert tips[1] > 1.2 * tips[0]


def test_the_rear_spar_bears_the_aileron_that_goes_down():
    """At VD, where the moment of the ailerons counts most beside the lift, it sets the rear spar of the biplane."""
    rear = next(one for one in answer("structure", BIPLANE).members if one.name == "upper rear spar")
    assert rear.case.startswith("ailerons to the ")
