"""The same question asked of another airplane: both answers, what differs, and nothing written twice."""

import json
import re
from collections import Counter
from dataclasses import dataclass
from itertools import pairwise

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from click.testing import CliRunner

import sim
import viz
from sim.answer import Answer
from sim.scenario.bundled import names
from viz.cli import COMMANDS, main
from viz.sheets import csv
from viz.sheets.blocks import Value, rows
from viz.sheets.difference import MOST, sheet
from viz.sheets.text import text_of

LONGER = ("--against-set", "wing.span=30 ft 1 in")
ASKED = {
    **dict.fromkeys(
        (
            "compare",
            "derivatives",
            "layout",
            "drawing",
            "balance",
            "windows",
            "rate",
            "safe-range",
            "link",
            "cooling",
            "mount",
            "exhibit",
        ),
        (),
    ),
    "handling": ("--bank", "31 deg"),
    "modes": ("--speed", "81 mph"),
    "maneuver": ("pull",),
    "structure": ("--powerplant", "rotary"),
    "drag": ("--powerplant", "rotary"),
    "speeds": ("--altitude", "2500 ft"),
    "field": ("--surface", "long grass"),
    "stall": ("--bank", "20 deg"),
    "propeller": ("--turn", "2 deg"),
    "burst": ("--rounds", "2000"),
    "disc": ("--mark", "600, 41", "--mark", "900, 52", "--mark", "1200, 63"),
}
"""Every command that computes about a scenario -> options that it is asked with."""
GUN = ("windows", "rate", "burst", "safe-range")
KEYS = ["answer", "against", "differences", "curves", "engines", "only_in_answer", "only_in_against", "cautions"]


def test_every_command_that_computes_about_a_scenario_or_a_drawing_takes_it():
    taking = {name for name in COMMANDS if "--against" in CliRunner().invoke(main, [name, "--help"]).output}
    assert taking == {*ASKED, "scale", "report"}


def words(command, scenario):
    """Return the words of a call, the scenario where the command wants it."""
    first, *options = (*ASKED[command], None) if command == "maneuver" else (None, *ASKED[command])
    return [command, *([first] if first else []), scenario, *(word for word in options if word)]


def without_cautions(answer):
    return {name: value for name, value in answer.items() if name != "cautions"}


@pytest.mark.parametrize("command", ASKED)
def test_json_holds_both_single_answers_and_their_differences(command, answered):
    first = TRIPLANE if command == "link" else BIPLANE
    second = TRIPLANE if command == "field" else PARASOL  # which stands on no wheels
    both = answered(*words(command, first), "--against", second)
    single = [answered(*words(command, airplane)) for airplane in (first, second)]
    assert list(both) == KEYS
    assert [both["answer"], both["against"]] == [without_cautions(one) for one in single]
    assert set(both["cautions"]) == {caution for one in single for caution in one["cautions"]}
    assert both["differences"]
    for row in both["differences"]:
        assert list(row) == ["path", "name", "first", "second", "difference"]
        numbers = [isinstance(row[key], float | int) and not isinstance(row[key], bool) for key in ("first", "second")]
        assert row["difference"] == (row["second"] - row["first"] if all(numbers) else None)


def test_a_drawing_is_set_against_the_same_with_another_known_size(answered):
    both = answered("scale", "--against-set", "known.wing.span=28 ft 3 in")
    span = next(row for row in both["differences"] if row["path"].endswith(".known_m"))
    assert span["second"] == pytest.approx(28.25 * 0.3048)
    assert without_cautions(answered("scale")) == both["answer"]


def test_settings_of_the_other_come_on_top_of_those_of_the_first(answered):
    both = answered("speeds", BIPLANE, "--set", "airplane.mass=1500 lb", "--set", "wing.chord=4 ft 8 in", *LONGER)
    other = sim.load(BIPLANE, set=["airplane.mass=1500 lb", "wing.chord=4 ft 8 in", "wing.span=30 ft 1 in"])
    assert both["against"] == without_cautions(json.loads(sim.speeds(other).to_json()))


def test_another_file_is_taken_as_it_is_but_for_its_own_settings(answered):
    both = answered("speeds", BIPLANE, "--set", "wing.chord=4 ft 8 in", "--against", TRIPLANE, *LONGER)
    other = sim.speeds(sim.load(TRIPLANE, set=["wing.span=30 ft 1 in"]))
    assert both["against"] == without_cautions(json.loads(other.to_json()))


@pytest.mark.parametrize("command", ["speeds", "layout", "windows", "handling"])
def test_the_sheet_is_the_usual_one_with_a_table_before_the_next_steps(command, run):
    usual = run(*words(command, BIPLANE)).stdout
    both = run(
        *words(command, BIPLANE), "--against", BIPLANE, "--against-set", "powerplant.rotary.speed=1290 rpm"
    ).stdout
    head, told, tail = re.split(r"^(Against .*?)(?=^Next: )", both, flags=re.MULTILINE | re.DOTALL)
    assert usual == head + tail if command != "layout" else head in usual
    assert str(BIPLANE) in told


def table(first, second):
    """Return the notes of the table of differences and its rows as texts in SI, the quantity in each."""
    block, *rest = sheet(sim.differences(first, second), "the other")
    assert rest == []
    lines = [[text_of(cell, "si") for cell in row] for row in block.rows()]
    for above, line in pairwise(lines):
        line[0] = line[0] or above[0]
    return [text_of(note, "si") for note in block.notes], lines


def test_a_row_gives_quantity_powerplant_both_values_and_the_difference_with_its_sign():
    first, second = sim.speeds(BIPLANE), sim.speeds(sim.load(BIPLANE, set=["wing.span=30 ft 1 in"]))
    _, lines = table(first, second)
    row = next(line for line in lines if line[:2] == ["stalling speed in level flight", "rotary"])
    stall = [answer.powerplants["rotary"].stall_m_s for answer in (first, second)]
    assert row[2:] == [*(f"{speed:.1f} m/s" for speed in stall), f"{stall[1] - stall[0]:.3f} m/s"]
    climb = next(line for line in lines if line[:2] == ["rate of climb, up positive", "rotary"])
    assert climb[4].startswith("+")
    assert ["maximum lift-to-drag ratio", "rotary; flat_four"] in [line[:2] for line in lines]  # alike with both


def test_turns_are_named_by_powerplant_and_bank():
    _, lines = table(sim.handling(BIPLANE, banks_deg=(-30.0,)), sim.handling(TRIPLANE, banks_deg=(-30.0,)))
    assert "rotary, 30° left" in {line[1] for line in lines}


@dataclass(frozen=True, slots=True)
class Weighed:
    name: str
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Bill(Answer):
    items: tuple[Weighed, ...]


def test_a_long_table_shows_the_largest_relative_differences_and_counts_the_rest():
    parts = range(1, MOST + 8)
    first = Bill(tuple(Weighed(f"part {n}", 50.0 + n) for n in parts))
    second = Bill(tuple(Weighed(f"part {n}", (50.0 + n) * (1.0 + (-1) ** n * n / 1000)) for n in parts))
    notes, lines = table(first, second)
    relative = {n: (n if n % 2 else n / (1.0 + n / 1000)) for n in parts}  # of the larger of both, in thousandths
    largest = sorted(parts, key=lambda n: -relative[n])[:MOST]
    assert [line[1] for line in lines] == [f"part {n}" for n in largest]
    assert [line[4][0] for line in lines] == ["-" if n % 2 else "+" for n in largest]
    assert "Not shown, but in the JSON object of the command: 7 further differences." in notes


def test_no_quantity_crowds_out_the_others():
    first, second = sim.handling(BIPLANE), sim.handling(TRIPLANE)
    notes, lines = table(first, second)
    times = Counter(line[0] for line in lines)
    assert len(lines) == MOST
    assert max(times.values()) == MOST // 8 < len(times)
    left_out = int(re.search(r"(\d+) further differences", "".join(notes))[1])
    pairs = {(o.name, o.first, o.second) for o in sim.differences(first, second).differences}
    assert len(pairs) - 3 <= MOST + left_out <= len(pairs)  # but for rounding errors


def test_rounding_error_is_no_row():
    first, second = (Bill((Weighed("a", 50.0), Weighed("b", mass))) for mass in (3e-16, 7e-16))
    assert table(first, second)[1] == []


def test_of_a_curve_the_largest_difference_is_shown_and_the_points_are_counted():
    first, second = sim.speeds(BIPLANE), sim.speeds(sim.load(BIPLANE, set=["wing.span=30 ft 1 in"]))
    notes, lines = table(first, second)
    both = sim.differences(first, second)
    needed = next(one for one in both.curves if one.path == "curves.rotary.needed_w")
    row = next(line for line in lines if line[0] == "power required for level flight" and "rotary" in line[1])
    assert f"{needed.at:.4g} m/s" in row[1]
    assert float(row[4].removesuffix(" kW")) == pytest.approx(1e-3 * needed.difference, rel=5e-3)
    points = sum(one.curve for one in both.differences)
    curves = sum(len(getattr(curve, name) or ()) for curve in first.curves.values() for name in curve.__slots__)
    assert 0 < points <= curves
    assert f"{points} points of curves" in "".join(notes)
    assert "Of a curve the largest difference is told, and where it is." in notes


def test_a_value_whose_digits_print_alike_gets_more():
    first, second = (sim.speeds(BIPLANE, mass_kg=mass) for mass in (600.0, 600.1))
    _, lines = table(first, second)
    assert ["mass", "", "600.00 kg", "600.10 kg", "+0.100 kg"] in lines


def test_a_difference_of_temperatures_has_no_zero():
    change = Value("temperature_k", 10.0, change=True)
    assert text_of(change, "us") == "+18.0 °F"
    assert text_of(Value("temperature_k", -10.0, change=True), "si") == "-10.0 °C"
    assert "\nair,18\n" in csv.write([rows("", ("", "Change"), [("air", change)])], "us")


def test_python_shows_the_same_table():
    first, second = sim.speeds(BIPLANE), sim.speeds(TRIPLANE)
    shown = str(viz.sheet(sim.differences(first, second), units="si"))
    assert shown.startswith("Against the other\n")
    assert f"{second.powerplants['rotary'].climb_rate_m_s:.2f} m/s" in shown
    assert all(caution[:40] in " ".join(shown.split()) for caution in first.cautions)


def test_what_one_alone_has_is_told_by_its_outermost_name(run):
    told = " ".join(run("mount", BIPLANE, "--against", TRIPLANE).stdout.split())
    assert "In this one alone: across_bottom. In the other alone: middle; " in told


def test_a_scenario_is_written_by_the_first_alone(run, scenario, tmp_path):
    twin = tmp_path / "twin.toml"
    twin.write_text(scenario.read_text())
    run("balance", scenario, "--write", scenario)
    assert run("balance", twin, "--write", twin, "--against", TRIPLANE).exit_code == 0
    assert twin.read_text() == scenario.read_text() != BIPLANE.read_text()


def test_a_bill_changes_the_first_and_the_same_with_other_values_but_no_other_file(run, answered, tmp_path):
    bill = tmp_path / "items.csv"
    run("balance", BIPLANE, "--bill", bill)
    text = bill.read_text().replace("\npilot,", "\nheavy pilot,")
    bill.write_text(text)
    named = {"heavy pilot", "pilot"}
    for other, found in ((TRIPLANE, {"pilot"}), (None, named)):
        against = ("--against", other) if other else LONGER
        both = answered("balance", BIPLANE, "--bill-from", bill, *against)
        assert named & {item["name"] for item in both["answer"]["items"]} == named
        assert named & {item["name"] for item in both["against"]["items"]} == found


@pytest.mark.parametrize("command", GUN)
def test_a_gun_of_options_alone_is_set_into_the_bundled_scenario_and_another(command, answered):
    gun = ["--rpm", "1150", "--blades", "2", "--blocked-deg", "24"]
    both = answered(command, *gun, *ASKED[command], "--against", TRIPLANE)
    assert both["answer"] == without_cautions(answered(command, "tollgate", *gun, *ASKED[command]))
    assert both["against"] == without_cautions(answered(command, TRIPLANE, *gun, *ASKED[command]))


WRONG = [
    (["--against", ""], ['--against: "": cannot be read: is a directory']),
    (["--against", "nosuch"], [f"--against: nosuch: is neither a file nor a bundled scenario ({', '.join(names())})"]),
    (
        ["--against-set", "wing.spam=3", "--against-set", "wing.span", "--set", "wing.chordd=4 ft"],
        [
            "--set wing.chordd: unknown key; did you mean chord?",
            "--against-set wing.spam: unknown key; did you mean span?",
            '--against-set: must be table.key=value, got "wing.span"',
        ],
    ),
    (
        ["--powerplant", "flat_four", "--against", TRIPLANE],
        ['--against: --powerplant: must be one of rotary, geared_six, got "flat_four"'],
    ),
    (
        ["--against", TRIPLANE, "--set", "wing.span=3 lb", "--against-set", "wing.chord=-1 ft"],
        [
            '--set wing.span: must be a length, as in "28 ft 1 in", got "3 lb", which is a mass',
            '--against-set wing.chord: must be above 0 and at most 328.08 ft, got "-1 ft"',
        ],
    ),
]


@pytest.mark.parametrize(("options", "said"), WRONG)
def test_every_fault_of_both_is_told_under_its_option(options, said, run, tmp_path):
    figure = tmp_path / "power.svg"
    result = run("speeds", *options, "--figure", figure)
    assert (result.exit_code, result.stdout, result.stderr.splitlines()) == (2, "", said)
    assert not figure.exists()


def test_a_fault_of_the_other_file_is_told_with_its_line(run, tmp_path):
    file = tmp_path / "bad.toml"
    file.write_text(TRIPLANE.read_text().replace("\n[wing.plane.upper]", "\nspam = 3\n[wing.plane.upper]", 1))
    line = file.read_text().splitlines().index("spam = 3") + 1
    result = run("speeds", "--against", file)
    assert result.stderr == f"--against: {file}:{line}: wing.spam: unknown key; did you mean span?\n"


def test_a_question_without_an_answer_about_the_other_names_it(run):
    result = run("handling", BIPLANE, "--speed", "41 mph", "--against-set", "wing.span=20 ft")
    assert result.exit_code == 1
    told = f"Against {BIPLANE} with wing.span=20 ft: rotary: no steady straight flight at 41 m"
    assert (result.stderr[: len(told)], result.stdout) == (told, "")
