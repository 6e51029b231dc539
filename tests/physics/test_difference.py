"""Two answers of one kind: what differs, how much, and what one of them alone has."""

from dataclasses import dataclass, replace
from math import sqrt

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

import sim
from sim.answer import Answer, plain
from sim.errors import InputError

LONGER = "wing.span=30 ft 1 in"


@dataclass(frozen=True, slots=True)
class Row:
    name: str = ""
    powerplant: str = ""
    mass_kg: float = 0.0


@dataclass(frozen=True, slots=True)
class Told(Answer):
    rows: tuple[Row, ...] = ()
    engine_move_m: dict[str, float] | None = None
    cam: Row | None = None
    times: tuple[float, ...] = ()
    note: str = ""
    inside: bool = True
    mass_kg: float | None = 3.0


def found(first, second):
    """Return path, first and second value of every difference."""
    return [(one.path, one.first, one.second) for one in sim.differences(first, second).differences]


def alone(first, second):
    """Return the paths of what each has alone."""
    both = sim.differences(first, second)
    return both.only_in_answer, both.only_in_against


@pytest.mark.parametrize("study", ["speeds", "windows", "balance", "mount", "safe_range", "layout", "cooling"])
def test_an_airplane_does_not_differ_from_itself(study):
    ask = getattr(sim, study)
    both = sim.differences(ask(BIPLANE), ask(BIPLANE))
    assert (both.differences, both.alone) == ((), ())


@pytest.mark.parametrize("study", ["speeds", "windows", "balance", "mount", "modes", "derivatives"])
@pytest.mark.parametrize("other", [TRIPLANE, PARASOL])
def test_the_other_way_round_every_difference_changes_its_sign(study, other):
    first, second = getattr(sim, study)(BIPLANE), getattr(sim, study)(other)
    there, back = sim.differences(first, second), sim.differences(second, first)

    def swapped(differences):
        return sorted((one.name, str(one.second), str(one.first), str(one.difference)) for one in differences)

    def negated(one):
        return replace(one, difference=None if one.difference is None else -one.difference)

    kept = sorted((o.name, str(o.first), str(o.second), str(o.difference)) for o in map(negated, there.differences))
    assert kept == swapped(back.differences)
    assert len(kept) > 20
    assert len(there.only_in_answer) == len(back.only_in_against)
    assert len(there.only_in_against) == len(back.only_in_answer)


def test_a_longer_wing_stalls_later_by_the_root_of_its_area():
    first, second = sim.speeds(BIPLANE), sim.speeds(sim.load(BIPLANE, set=[LONGER]))
    areas = [sim.derivatives(one).area_m2 for one in (BIPLANE, sim.load(BIPLANE, set=[LONGER]))]
    told = {one.path: one for one in sim.differences(first, second).differences}
    for name in ("rotary", "flat_four"):
        stall = told[f"powerplants.{name}.stall_m_s"]
        assert (stall.first, stall.second) == (first.powerplants[name].stall_m_s, second.powerplants[name].stall_m_s)
        assert stall.difference == pytest.approx(stall.first * (sqrt(areas[0] / areas[1]) - 1.0), rel=1e-9)
    assert "mass_kg" not in told
    assert "altitude_m" not in told


def test_a_single_engine_of_another_name_on_either_side_is_compared():
    first, second = sim.speeds(BIPLANE), sim.speeds(TRIPLANE)
    both = sim.differences(first, second)
    assert both.engines == {"geared_six": "flat_four"}
    assert alone(first, second) == ((), ())
    (top,) = (one for one in both.differences if one.path == "powerplants.flat_four.top_m_s")
    assert (top.first, top.second) == (
        first.powerplants["flat_four"].top_m_s,
        second.powerplants["geared_six"].top_m_s,
    )


def test_of_several_engines_of_other_names_none_is_compared():
    first, second = sim.speeds(BIPLANE), sim.speeds(TRIPLANE)
    names = {"rotary": "rotary_nine", "geared_six": "geared_six"}
    both = sim.differences(first, replace(second, powerplants={names[k]: v for k, v in second.powerplants.items()}))
    assert both.engines == {}
    assert {"powerplants.rotary", "powerplants.flat_four"} <= set(both.only_in_answer)
    assert {"powerplants.rotary_nine", "powerplants.geared_six"} <= set(both.only_in_against)


def test_an_engine_of_one_name_is_told_by_it():
    rotary = [path for path, _, _ in found(sim.speeds(BIPLANE), sim.speeds(TRIPLANE)) if "rotary.stall" in path]
    assert rotary == ["powerplants.rotary.stall_m_s"]


def test_rows_are_paired_by_name_wherever_they_stand():
    first = Told(rows=(Row("pilot", mass_kg=80.0), Row("fuel", mass_kg=50.0), Row("gun", mass_kg=12.0)))
    second = Told(rows=(Row("fuel", mass_kg=55.0), Row("radio", mass_kg=4.0), Row("pilot", mass_kg=80.0)))
    assert found(first, second) == [("rows.fuel.mass_kg", 50.0, 55.0)]
    assert alone(first, second) == (("rows.gun",), ("rows.radio",))


def test_rows_of_one_name_are_paired_in_their_order():
    masses = ((1.0, 2.0), (1.0, 5.0, 7.0))
    first, second = (Told(rows=tuple(Row(powerplant="rotary", mass_kg=mass) for mass in own)) for own in masses)
    assert found(first, second) == [("rows.2.mass_kg", 2.0, 5.0)]
    assert alone(first, second) == ((), ("rows.3",))


def test_rows_without_names_are_paired_by_place_where_there_are_as_many():
    three, two = Told(times=(0.0, 1.0, 2.0)), Told(times=(0.0, 1.5))
    assert found(three, replace(two, times=(0.0, 1.5, 2.0))) == [("times.2", 1.0, 1.5)]
    assert found(three, two) == []
    assert alone(three, two) == (("times",), ("times",))
    assert alone(three, Told()) == (("times",), ())
    assert alone(Told(), Told(rows=(Row(), Row()))) == ((), ("rows",))


def test_three_numbers_are_told_one_by_one_and_four_as_the_curve_that_they_are():
    three = sim.differences(Told(times=(0.0, 1.0, 2.0)), Told(times=(0.5, 1.5, 2.0)))
    assert ([one.path for one in three.differences], three.curves) == (["times.1", "times.2"], ())
    four = sim.differences(Told(times=(0.0, 1.0, 2.0, 3.0)), Told(times=(0.5, 1.7, 2.0, 3.0)))
    assert [(one.path, one.difference) for one in four.curves] == [("times", pytest.approx(0.7))]


def test_a_table_that_one_lacks_is_told_and_a_number_that_one_lacks_is_a_difference():
    first, second = Told(cam=Row("cam"), mass_kg=None), Told(mass_kg=4.0)
    assert found(first, second) == [("mass_kg", None, 4.0)]
    assert alone(first, second) == (("cam",), ())
    assert sim.differences(first, second).differences[0].difference is None


def test_words_and_yes_or_no_differ_without_a_number():
    first, second = Told(note="fits", inside=True), Told(note="too long", inside=False)
    assert found(first, second) == [("note", "fits", "too long"), ("inside", True, False)]
    assert {one.difference for one in sim.differences(first, second).differences} == {None}


@pytest.mark.parametrize(("mass_kg", "differs"), [(3.0 * (1.0 + 0.9e-9), False), (3.0 * (1.0 + 1.1e-9), True)])
def test_numbers_that_agree_to_a_billionth_are_equal(mass_kg, differs):
    assert bool(found(Told(), Told(mass_kg=mass_kg))) is differs


def test_a_component_bears_the_quantity_of_what_it_is_part_of():
    first, second = Told(engine_move_m={"rotary": 0.1}), Told(engine_move_m={"rotary": -0.15})
    one = sim.differences(first, second).differences[0]
    assert (one.path, one.name, one.place) == ("engine_move_m.rotary", "engine_move_m", (("", "rotary"),))
    assert one.difference == pytest.approx(-0.25)


def test_a_check_of_the_display_bears_the_quantity_that_it_checks():
    first, second = (sim.exhibit(sim.load(BIPLANE, set=[f"exhibit.lift={lift}"])) for lift in ("6 mm", "5.5 mm"))
    told = {one.path: one for one in sim.differences(first, second).differences}
    assert told["checks.pressure angle.value"].name == "pressure_angle_deg"
    assert told["cam.lift_m"].difference == pytest.approx(-0.0005)


def test_every_path_that_a_sweep_would_collect_leads_to_the_first_value():
    from sim.sweeps.outputs import value_at

    first, second = sim.mount(BIPLANE), sim.mount(TRIPLANE)
    for one in sim.differences(first, second).differences:
        assert value_at(first, one.path, "path") == one.first


def test_json_holds_both_answers_the_differences_and_the_cautions():
    first, second = sim.speeds(BIPLANE), sim.speeds(TRIPLANE)
    both = plain(sim.differences(first, second))
    assert list(both) == ["answer", "against", "differences", "curves", "engines", "only_in_answer", "only_in_against"]
    assert (both["answer"], both["against"]) == (plain(first), plain(second))
    assert all(list(row) == ["path", "name", "first", "second", "difference"] for row in both["differences"])
    assert sim.differences(first, second).cautions == first.cautions


def test_answers_of_two_kinds_are_refused():
    with pytest.raises(InputError) as refused:
        sim.differences(sim.speeds(BIPLANE), sim.windows(BIPLANE))
    assert str(refused.value) == (
        "second: must be an answer of the same kind as the first, SpeedsAnswer, got WindowsAnswer"
    )


def test_errors_of_a_derivative_are_told_by_their_source():
    one, other = (sim.derivatives(sim.load(BIPLANE, set=setting)) for setting in ([], ["wing.gap=5 ft"]))
    told = [row for row in sim.differences(one, other).differences if row.path.endswith(".errors.fin_lift")]
    assert told
    assert {row.name for row in told} == {"errors"}


def test_angles_of_cams_with_unlike_many_windows_are_compared_one_by_one():
    """Windows at 0°, 110° and 240° from the first; the cam of the bundled airplane has two, 180° apart.

    Angles of a turn stand from 0° up, so that the first of them is any of the three: the gaps are 110, 130 and 120°.
    """
    uneven = sim.load("tollgate", set=['cam.windows=["0 °", "110 °", "240 °"]', "cam.dwell=50 °"])
    told = sim.differences(sim.windows("tollgate"), sim.windows(uneven))
    opens = [one for one in told.differences if one.path.startswith("cam.opens_deg.")]
    first, second = opens
    assert second.second - first.second in [pytest.approx(gap) for gap in (110.0, 130.0, 120.0)]
    assert second.first - first.first == pytest.approx(180.0)
    assert [one.name for one in opens] == ["opens_deg"] * 2
    assert "cam.opens_deg.3" in told.only_in_against
    assert not any(path.startswith("cam.") for path in told.only_in_answer)
