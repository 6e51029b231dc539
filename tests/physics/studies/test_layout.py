"""Section and layout: stations that follow the scenario, and what is refused."""

from collections import Counter
from math import degrees

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER

from sim.errors import InputError, NoAnswerError
from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies.layout import layout


@pytest.fixture(scope="module")
def biplane():
    return load(BIPLANE)


def test_stations_of_the_layout_follow_the_scenario(biplane):
    found = layout(Model(biplane))
    lower, upper = found.planes
    assert lower.leading_edge_station_m - upper.leading_edge_station_m == pytest.approx(biplane.wing.stagger_m)
    assert upper.leading_edge_waterline_m - lower.leading_edge_waterline_m == pytest.approx(biplane.wing.gap_m)
    assert [spar.name for spar in found.spars] == ["front", "rear"]
    assert all(spar.spar_depth_m < spar.section_depth_m for spar in found.spars)


def test_a_dimension_corrected_moves_the_layout():
    moved = layout(Model(load(BIPLANE, ["wing.stagger=24 in"])))
    assert moved.planes[1].leading_edge_station_m == pytest.approx((42 - 24) * 0.0254)


def test_a_narrower_lower_plane_has_its_own_spars_and_mean_chord():
    narrow = load(BIPLANE, ["wing.plane.lower.chord=45 in"])
    found = layout(Model(narrow))
    assert [spar.name for spar in found.spars] == ["lower front", "lower rear", "upper front", "upper rear"]
    depths = [spar.section_depth_m for spar in found.spars]
    assert depths[0] / depths[2] == pytest.approx(45 / 54)
    assert 45 * 0.0254 < Model(narrow).mean_chord.chord_m < 54 * 0.0254


def test_no_spar_in_a_thin_place():
    with pytest.raises(NoAnswerError) as caught:
        layout(Model(load(BIPLANE, ["layout.spar.rear.fraction=0.97", "layout.spar.rear.cap=1/2 in"])))
    assert str(caught.value) == (
        "no rear spar fits at 97 % of the chord: the section is 14.82 mm (0.5836 in) deep there, and caps and "
        "covers take 26.99 mm (1.062 in); "
        "move the spar to where the section is deeper or make it narrower"
    )


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ("section", 'section: is missing: naca, as in "2412", or points'),
        ("layout", "layout: is missing: the table with leading_edge, longerons and spars"),
    ],
)
def test_a_missing_table(biplane, table, sentence):
    with pytest.raises(InputError) as caught:
        layout(Model(biplane.model_copy(update={table: None})))
    assert str(caught.value) == sentence


def test_zero_lift_of_the_section_is_printed_in_degrees(biplane):
    from sim.airframe.section import digits, thin_airfoil

    assert layout(Model(biplane)).zero_lift_deg == pytest.approx(degrees(thin_airfoil(digits("2412")).zero_lift_rad))


@pytest.mark.parametrize(
    ("airplane", "setting", "sentence"),
    [
        (BIPLANE, "bracing=lift_struts", 'bracing: must be wires or none with 2 planes, got "lift_struts"'),
        (PARASOL, "bracing=wires", 'bracing: must be lift_struts or none of a monoplane, got "wires"'),
        (
            BIPLANE,
            'cabane_feet=["30 in", "40 in", "50 in"]',
            "cabane_feet: must be one station, or one for each of the 2 spars, got 3",
        ),
    ],
)
def test_a_bracing_for_another_number_of_planes(airplane, setting, sentence):
    with pytest.raises(InputError) as caught:
        layout(Model(load(airplane, [f"layout.{setting}"])))
    assert str(caught.value) == f"layout.{sentence}"


@pytest.mark.parametrize(
    ("airplane", "settings", "kinds"),
    [
        (BIPLANE, [], {"flying wire": 2, "landing wire": 2, "incidence wire": 2, "cabane wire": 4}),
        (TWO_SEATER, [], {"flying wire": 4, "landing wire": 4, "incidence wire": 4, "cabane wire": 4}),
        (TRIPLANE, [], {"flying wire": 2, "landing wire": 2, "incidence wire": 4, "cabane wire": 8}),
        (PARASOL, [], {"lift strut": 2, "cabane wire": 4}),
        (PARASOL, ["layout.bracing=none"], {}),
        (BIPLANE, ["wing.planes=4"], {"flying wire": 2, "landing wire": 2, "incidence wire": 6, "cabane wire": 12}),
    ],
)
def test_members_of_every_arrangement(airplane, settings, kinds):
    found = Counter(one.kind for one in layout(Model(load(airplane, settings))).members)
    for kind in ("cabane strut", "interplane strut"):
        found.pop(kind, None)
    assert found == kinds
