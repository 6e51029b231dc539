"""A strut, rib or wire left out: the others carry its load in balance, or the answer says how the wing falls."""

import re

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.errors import InputError, NoAnswerError
from sim.model.model import model
from sim.model.wing_loading import wing_loading
from sim.structures.frame_failures import BucklingError, MechanismError
from sim.structures.frame_solution import solve_frame
from sim.structures.removed import removable, without, without_side
from sim.structures.spar_loads import frame_load
from sim.structures.wing_cases import wing_cases
from sim.studies import structure as study
from sim.studies.structure_failures import mechanism_words

AIRPLANES = pytest.mark.parametrize(
    "airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER], ids=["biplane", "triplane", "parasol", "two_seater"]
)


def loaded(airplane, name):
    """Return the frame of an airplane, its load at limit in a case, and what the intact frame carries."""
    one = built(airplane)
    flying = one.airplane(one.usual_powerplant().name)
    case = next(case for case in wing_cases(wing_loading(one.structure, flying)) if case.name == name)
    heavy = study._wing_mass_kg(one, one.structure, flying.name) / flying.airplane.polar.area_m2
    solved = study._solved(one, one.structure, flying, case, kg_per_m2=heavy)
    return one.structure.wing, frame_load(one.structure.wing, solved.strips, one.structure.spars), solved.limit


def outcome(frame, load):
    """Return the forces of a frame, or why there are none: it is a mechanism, or a spar buckles."""
    try:
        return solve_frame(frame, load)
    except (MechanismError, BucklingError) as error:
        return error


@pytest.mark.parametrize("name", ["pull-up at VA", pytest.param("push-over at VC", marks=pytest.mark.slow)])
@AIRPLANES
def test_each_strut_and_wire_left_out_is_redistributed_or_the_fall_is_named(airplane, name):
    """The ground bears the same sum, no wire is pushed, the others change; or a sentence names what gives way."""
    wing, load, intact = loaded(airplane, name)
    ground, largest = sum(intact.reactions_n.values()), max(abs(force) for force in intact.bars_n.values())
    semispan_m = np.abs(wing.frame.place_m[:, 1]).max()
    falls, carried = [], []
    for one in wing.members:
        if one.name.endswith(", left"):
            continue  # the mirror image
        less = without(wing, [one.name])
        assert len(less.frame.bars) == len(less.members) == len(wing.members) - 1
        found = outcome(less.frame, load)
        if isinstance(found, NoAnswerError):
            falls.append(one.kind)
            continue
        carried.append(one.kind)
        assert one.name not in found.bars_n
        assert sum(found.reactions_n.values()) == pytest.approx(ground, rel=1e-8, abs=1e-8 * np.linalg.norm(ground))
        assert min(found.bars_n[bar.name] for bar in less.frame.bars if bar.wire) >= 0.0
        assert max(np.linalg.norm(moved) for moved in found.moved_m.values()) < 0.2 * semispan_m
        if abs(intact.bars_n[one.name]) > 0.02 * largest:
            changes = [abs(force - intact.bars_n[bar]) for bar, force in found.bars_n.items()]
            assert max(changes) > 0.005 * largest
    assert {"interplane strut", "lift strut"} & {*falls, *carried}
    assert falls.count("cabane strut") + carried.count("cabane strut") >= 2
    assert carried.count("drag wire") > 5


@pytest.mark.parametrize("member", ["front landing wire", "incidence wire rear to front", "upper drag wire 2"])
def test_the_left_one_gone_is_the_right_one_gone_in_a_mirror(member):
    wing, load, intact = loaded(BIPLANE, "push-over at VC")
    right, left = (solve_frame(without(wing, [f"{member}, {side}"]).frame, load).bars_n for side in ("right", "left"))
    largest = max(abs(force) for force in intact.bars_n.values())
    swap = {"right": "left", "left": "right"}
    for name, force in right.items():
        other = f"{without_side(name)}, {swap[name.rpartition(', ')[2]]}"
        if other in left:
            assert left[other] == pytest.approx(force, abs=1e-6 * largest)
    assert set(left) != set(right)


def test_a_rear_strut_gone_leaves_a_mechanism_once_its_wires_are_slack():
    """The lower rear spar swings about its root: wires can pull it up, and nothing holds it down."""
    wing, load, _ = loaded(BIPLANE, "pull-up at VA")
    with pytest.raises(MechanismError) as caught:
        solve_frame(without(wing, ["rear interplane strut, lower to upper, right"]).frame, load)
    assert (caught.value.node, caught.value.way) == ("lower rear tip, right", "up and down")


def test_a_slack_wire_gone_changes_nothing():
    """A wire that the load makes slack carries nothing: without it the forces are the same."""
    wing, load, intact = loaded(BIPLANE, "push-over at VC")
    slack = [bar.name for bar in wing.frame.bars if bar.wire and intact.bars_n[bar.name] == 0.0]
    largest = max(abs(force) for force in intact.bars_n.values())
    assert slack
    for name in slack:
        found = solve_frame(without(wing, [name]).frame, load)
        assert max(abs(force - intact.bars_n[bar]) for bar, force in found.bars_n.items()) < 1e-7 * largest


def test_the_study_tells_the_other_members_and_what_is_left_out():
    gone = study.structure(model(BIPLANE), without=["rear landing wire"])
    intact = answer("structure", BIPLANE)
    assert gone.left_out == ("rear landing wire",)
    assert {one.name for one in intact.members} - {one.name for one in gone.members} == {"rear landing wire"}
    assert gone.frame_mass_kg < intact.frame_mass_kg
    margins = {one.name: one.margin for one in gone.members}
    assert any(abs(margins[one.name] - one.margin) > 0.05 for one in intact.members if one.name in margins)
    by_key = study.structure(model(BIPLANE, ["structure.without=['rear landing wire']"]))
    assert by_key == gone


def test_one_side_alone_is_left_out_and_the_other_is_told_where_the_right_one_would_be():
    one_gone = study.structure(model(BIPLANE), without=["rear landing wire, right"])
    row = next(one for one in one_gone.members if one.name == "rear landing wire")
    own = next(one for one in answer("structure", BIPLANE).members if one.name == "rear landing wire")
    assert row.ends_m == pytest.approx(np.array(own.ends_m))


@pytest.mark.parametrize("gone", ["rear landing wire", "rear landing wire, left"])
def test_what_takes_over_a_load_is_what_grows_most_of_all_that_is_left(gone):
    """Beside both answers, whose cases are mirrored: the same loads before and behind, and no other grew as much."""
    found, intact = study.structure(model(BIPLANE), without=[gone]), answer("structure", BIPLANE)
    before, behind = ({one.name: most(one) for one in own.members} for own in (intact, found))
    told = {without_side(one.name): one for one in reversed(found.taken_over)}
    for name, one in told.items():
        assert abs(one.whole_n) == pytest.approx(before[name], rel=1e-6)
        assert abs(one.ultimate_n) == pytest.approx(behind[name], rel=1e-6)
    growth = {name: behind[name] - before[name] for name in behind}
    largest = abs(found.taken_over[0].ultimate_n) - abs(found.taken_over[0].whole_n)
    assert largest == pytest.approx(max(growth.values()), rel=1e-6)
    assert {name for name, more in growth.items() if more > largest / 3.0 + 1e-6} == set(told)
    assert 0 < len(told) < len(growth) / 2
    assert intact.taken_over == ()


def most(member):
    """Return the greatest axial load of a member of an answer, of both sides and all cases. [N]."""
    return max(member.most_tension_n, member.most_compression_n)


def test_a_mechanism_names_what_is_left_out_and_which_slack_wires_would_hold_it():
    """Named are bars that the movement stretches, and of those that are there wires alone; no taut bar stretches."""
    gone = "rear interplane strut, lower to upper, right"
    wing, load, _ = loaded(BIPLANE, "pull-up at VA")
    less = without(wing, [gone])
    with pytest.raises(MechanismError) as caught:
        solve_frame(less.frame, load)
    moved = caught.value.movement
    stretch = dict(zip((bar.name for bar in wing.frame.bars), np.abs(wing.frame.stretch @ moved), strict=True))
    words = mechanism_words(less, wing, caught.value)
    missing, slack = re.search(r"; left out: (.*); slack: (.*); add a member that holds it", words).groups()
    assert missing == without_side(gone)
    assert stretch[gone] > 0.1
    named = {bar.name for bar in less.frame.bars if stretch[bar.name] > 1e-4}
    assert named
    assert all(bar.wire for bar in less.frame.bars if bar.name in named)
    assert set(re.findall(r"[a-z ]+ wire[a-z ]*", slack)) <= {without_side(name) for name in named} | {
        f" {without_side(name)}" for name in named
    }


def test_the_case_and_the_part_of_the_load_at_which_it_falls_are_named():
    with pytest.raises(NoAnswerError) as caught:
        study.structure(model(BIPLANE), without=["front flying wire, right"])
    words = str(caught.value)
    assert words.startswith("without front flying wire, right: pull-up at VA, at ")
    assert " of ultimate load: " in words
    assert " sways " in words or " buckles " in words


def test_names_are_those_of_the_answer_and_of_each_side():
    names = removable(built(BIPLANE).structure.wing)
    told = [one.name for one in answer("structure", BIPLANE).members if one.kind != "spar"]
    assert set(told) <= set(names)
    assert {f"{name}, {side}" for name in ("front flying wire", "lower drag wire 1") for side in ("right", "left")} <= {
        *names
    }


@pytest.mark.parametrize(("name", "near"), [("front flying wir", "; did you mean front flying wire?"), ("mast", "")])
def test_a_name_that_no_member_has(name, near):
    said = (
        'must be a strut, rib or wire as structure names it, of one side as in "front flying wire, left", got '
        f'"{name}"{near}'
    )
    with pytest.raises(InputError) as caught:
        study.structure(model(BIPLANE), without=[name])
    assert str(caught.value) == f"without: {said}"
    with pytest.raises(InputError) as caught:
        study.structure(model(BIPLANE, [f"structure.without=['{name}']"]))
    assert str(caught.value).endswith(f"structure.without: {said}")
