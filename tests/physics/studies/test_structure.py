"""The structure of the wing: loads from the lattice, forces that balance, sides that mirror, and what is refused."""

import tomllib
from math import inf
from pathlib import Path

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.errors import InputError, NoAnswerError
from sim.model.model import model
from sim.model.wing_loading import wing_loading
from sim.structures.frame import Frame
from sim.structures.frame_solution import solve_frame
from sim.structures.member_strength import member_margin
from sim.structures.sizes import wire_sizes
from sim.structures.spar_loads import frame_load
from sim.structures.wing_cases import wing_cases
from sim.studies import structure as study

FAULTS = tomllib.loads((Path(__file__).parent / "structure_faults.toml").read_text(encoding="utf-8"))["fault"]
AIRPLANES = pytest.mark.parametrize(
    "airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER], ids=["biplane", "triplane", "parasol", "two_seater"]
)


def solved(airplane, name="pull-up at VA"):
    """Return one case of an airplane with its loads and forces, and its frame."""
    one = built(airplane)
    flying = one.airplane(one.usual_powerplant().name)
    case = next(
        case for case in (*wing_cases(wing_loading(one.structure, flying)), *one.structure.cases) if case.name == name
    )
    heavy = study._wing_mass_kg(one, one.structure, flying.name) / flying.airplane.polar.area_m2
    return study._solved(one, one.structure, flying, case, kg_per_m2=heavy), one.structure, flying


@AIRPLANES
def test_lift_of_planes_and_tail_is_the_load_factor_times_the_weight(airplane):
    for case in answer("structure", airplane).cases:
        whole = case.load_factor * answer("structure", airplane).mass_kg * 9.80665
        assert case.wing_lift_n + case.tail_lift_n == pytest.approx(whole, rel=1e-9, abs=1e-6)


@AIRPLANES
def test_the_spars_bear_the_lift_of_the_lattice_less_the_weight_of_the_wing(airplane):
    """Resolved across the stream: sum of strips and of the ground's forces on the frame."""
    one, structure, flying = solved(airplane)
    c, s = np.cos(one.alpha_rad), np.sin(one.alpha_rad)
    widths = {name: np.diff(strips.edges_m) for name, (strips, _) in one.strips.items()}
    up = sum(widths[name] @ strips.up_n_per_m for name, (strips, _) in one.strips.items())
    aft = sum(widths[name] @ strips.aft_n_per_m for name, (strips, _) in one.strips.items())
    weight = study._wing_mass_kg(built(airplane), structure, flying.name) * 9.80665 * one.case.inertia_factor
    assert weight > 100.0
    assert (up + weight) * c - aft * s == pytest.approx(one.wing_lift_n, rel=1e-9)
    ground = sum(one.limit.reactions_n.values())
    assert ground == pytest.approx([-aft, 0.0, -up], rel=1e-9, abs=1e-9 * abs(up))


@AIRPLANES
def test_no_wire_is_pushed(airplane):
    for name in ("pull-up at VA", "push-over at VC", "dive without lift"):
        one, structure, _ = solved(airplane, name)
        wires = {bar.name for bar in structure.wing.frame.bars if bar.wire}
        assert min(force for bar, force in one.ultimate.bars_n.items() if bar in wires) >= 0.0


@AIRPLANES
def test_both_sides_are_alike_in_straight_flight_and_change_places_in_a_roll(airplane):
    one, _, _ = solved(airplane)
    right, _, _ = solved(airplane, "roll to the right at VA")
    left, _, _ = solved(airplane, "roll to the left at VA")
    largest = max(abs(force) for force in one.limit.bars_n.values())
    unlike = 0
    for name, force in one.limit.bars_n.items():
        if name.endswith(", right"):
            other = name.replace(", right", ", left")
            assert one.limit.bars_n[other] == pytest.approx(force, abs=1e-6 * largest)
            assert left.limit.bars_n[other] == pytest.approx(right.limit.bars_n[name], abs=1e-6 * largest)
            unlike += abs(right.limit.bars_n[other] - right.limit.bars_n[name]) > 1e-3 * largest
    assert unlike > 3


@AIRPLANES
def test_members_are_told_once_with_the_case_of_the_least_margin(airplane):
    found = answer("structure", airplane)
    names = [one.name for one in found.members]
    assert len(names) == len(set(names))
    assert not any(name.endswith((", right", ", left")) for name in names)
    cases = {case.name for case in found.cases}
    assert all(one.case in cases for one in found.members if one.margin < inf)
    one, structure, _ = solved(airplane)
    for bar in structure.wing.members:
        told = next(row for row in found.members if bar.name.startswith(f"{row.name}, "))
        assert told.margin <= member_margin(bar.size, one.ultimate.bars_n[bar.name], bar.length_m) + 2e-6


def test_every_plane_lifts_its_tips_in_a_pull_up_and_lowers_them_in_a_push_over():
    for airplane in (BIPLANE, TRIPLANE, PARASOL, TWO_SEATER):
        cases = {case.name: case for case in answer("structure", airplane).cases}
        assert cases["pull-up at VA"].tip_deflection_m > 0.0 > cases["push-over at VC"].tip_deflection_m


def test_a_fast_pull_up_bears_on_the_rear_spars():
    cases = {case.name: case for case in answer("structure", BIPLANE).cases}
    assert cases["pull-up at VA"].front_share > cases["pull-up at VD"].front_share + 0.1


def test_thrust_bends_the_spars_further():
    one, structure, _ = solved(BIPLANE)
    load = frame_load(structure.wing, one.strips, structure.spars, 1.5)
    straight = solve_frame(structure.wing.frame, load, second_order=False)
    bay = [(span.number, span.up[:, 2].min()) for span in one.ultimate.spans if span.beam == "upper front spar, right"]
    linear = [(span.number, span.up[:, 2].min()) for span in straight.spans if span.beam == "upper front spar, right"]
    assert min(m for _, m in bay) < 1.05 * min(m for _, m in linear) < 0.0


def test_a_flying_wire_removed_is_redistributed_or_named():
    one, structure, _ = solved(BIPLANE)
    load = frame_load(structure.wing, one.strips, structure.spars)
    frame = structure.wing.frame
    without = Frame(
        frame.nodes, tuple(bar for bar in frame.bars if bar.name != "front flying wire, right"), frame.beams
    )
    found = solve_frame(without, load, second_order=False)
    assert found.bars_n["rear flying wire, right"] > 1.3 * one.limit.bars_n["rear flying wire, right"]
    ground = sum(found.reactions_n.values())
    assert ground == pytest.approx(sum(one.limit.reactions_n.values()), rel=1e-8, abs=1e-4)


def test_the_margin_is_that_of_the_loads_told():
    """Rated strength of wires over the ultimate load, and shear along the grain of a spar."""
    found = answer("structure", BIPLANE)
    by_name = {one.name: one for one in found.members}
    wires = [one for one in found.members if one.kind == "drag wire"]
    assert len(wires) > 10
    for one in wires:
        assert one.set_by == "tension"
        assert one.margin == pytest.approx(wire_sizes()[one.size].strength_n / one.ultimate_n - 1.0)
        assert one.ultimate_n == pytest.approx(one.most_tension_n)
        assert one.most_compression_n == 0.0
    assert {one.set_by for one in found.members if one.kind == "spar"} >= {"pressed side", "shear"}
    for name, spar in ((name, one) for name, one in by_name.items() if one.kind == "spar" and one.set_by == "shear"):
        size = next(panel.size for panel in built(BIPLANE).structure.wing.panels if panel.name.startswith(name))
        stress = abs(spar.ultimate_shear_n) / size.section.shear_area_m2
        assert spar.margin == pytest.approx(size.material.shear_pa / stress - 1.0, rel=1e-9)


@AIRPLANES
def test_both_extremes_of_a_member_are_those_of_all_cases_and_sides(airplane):
    found = answer("structure", airplane)
    one, structure, _ = solved(airplane, "gust down at VC")
    for member in structure.wing.members:
        told = next(row for row in found.members if member.name.startswith(f"{row.name}, "))
        load = one.ultimate.bars_n[member.name]
        assert -told.most_compression_n - 1e-5 <= load <= told.most_tension_n + 1e-5
        assert (told.most_tension_n > 0.0) == bool(told.tension_case)
    assert any(row.most_tension_n and row.most_compression_n for row in found.members if row.kind != "spar")


def test_what_no_wire_tightens_bears_nothing_at_rest():
    """Lift struts, and spars outboard of the drag truss: none; the cabane wires press their struts."""
    rigged = {one.name: one.rigged_n for one in answer("structure", PARASOL).members}
    assert rigged["front lift strut"] == rigged["rear lift strut"] == 0.0
    assert rigged["front cabane strut"] < -100.0


def test_a_case_of_ones_own():
    cases = {case.name: case for case in answer("structure", BIPLANE).cases}
    own = cases["gentle pull"]
    assert (own.load_factor, own.rule) == (2.2, "scenario")
    assert own.speed_m_s == pytest.approx(95 * 0.44704)


def test_the_least_size_bears_what_the_size_does_not():
    weak = study.structure(model(BIPLANE, ["structure.member.flying_wire.size=6-40 tie rod"]))
    row = next(one for one in weak.members if one.name == "front flying wire")
    assert row.margin < 0.0
    assert row.least_size not in {"", "2 x 6-40 tie rod"}


def test_the_weight_of_the_wing_relieves_it():
    heavy, light = (study.structure(model(BIPLANE, [f"structure.wing_mass={mass} lb"])) for mass in (300, 180))
    wires = [next(one.force_n for one in found.members if one.name == "front flying wire") for found in (heavy, light)]
    assert wires[0] < 0.97 * wires[1]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault["settings"][0])
def test_wrong_input(fault):
    with pytest.raises(InputError) as caught:
        study.structure(model(BIPLANE, fault["settings"]))
    assert str(caught.value.faults[0]).startswith(fault["sentence"])


def test_a_wing_that_nothing_braces_is_told_with_its_planes_and_the_key_that_braces_it():
    scenario = built(BIPLANE, "layout.bracing=none")._scenario
    kept = {
        key: row for key, row in scenario.structure.member.items() if not key.endswith("_wire") or key == "drag_wire"
    }
    table = scenario.structure.model_copy(update={"member": kept})
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model(scenario.model_copy(update={"structure": table})))
    words = str(caught.value)
    assert words.startswith(
        "the truss is a mechanism: lower front spar and upper front spar can move up and down without "
    )
    assert words.endswith(' tip; nothing braces it outboard: set layout.bracing to "wires"')


@pytest.mark.parametrize(
    ("airplane", "gone", "who", "way"),
    [
        (BIPLANE, ["front interplane strut, lower to upper"], "upper front spar", "up and down"),
        (
            BIPLANE,
            [f"incidence wire {ends}" for ends in ("front to rear", "rear to front")],
            "the lower plane and the upper plane",
            "fore and aft",
        ),
        (PARASOL, ["front lift strut"], "upper front spar", "up and down"),
    ],
)
def test_a_mechanism_is_told_with_what_moves_and_which_way(airplane, gone, who, way):
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model(airplane), without=gone)
    assert f": the truss is a mechanism: {who} can move {way} without stretching" in str(caught.value)


def test_a_wing_without_the_table():
    scenario = built(BIPLANE)._scenario.model_copy(update={"structure": None})
    with pytest.raises(InputError) as caught:
        study.structure(model(scenario))
    assert str(caught.value) == "structure: is missing: the table with category, spars, struts and wires"


@AIRPLANES
def test_every_member_is_told_of_the_right_half(airplane):
    """Whichever side has the least margin: no wire or strut ends farther left than the other end is right."""
    members = answer("structure", airplane).members
    assert members
    for member in members:
        (_, out, _), (_, other_out, _) = member.ends_m
        assert out + other_out >= 0.0
        assert out > 0.0 or other_out > 0.0
