"""``whirlgate windows`` from options alone: the keys, the sheet, and every wrong option at once."""

import json

import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.units.quantities import caution

PLAIN = ("--blades", "2", "--blocked-deg", "30", "--margin-deg", "5", "--delay-ms", "5", "--gun-rate", "600")
KEYS = {
    *("rpm", "blade_interval_ms", "blocked_deg", "open_deg", "open_ms", "lead_deg", "windows_deg"),
    *("rounds_per_min", "rounds_per_pattern", "intervals_per_pattern"),
}


def rows(result) -> list[dict]:
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)["rows"]


def test_the_keys_of_a_row(run):
    row = rows(run("windows", "--rpm", 1200, *PLAIN, "--json"))[0]
    assert set(row) >= KEYS
    windows = [("window 1", 164.0, 304.0, 0.0), ("window 2", 344.0, 484.0, 0.0)]
    assert [tuple(window.values()) for window in row["windows_deg"]] == windows
    assert (row["rpm"], row["lead_deg"], row["open_deg"], row["blocked_deg"]) == (1200.0, 36.0, 140.0, 40.0)


def test_bare_numbers_and_units_say_the_same(run):
    units = ("--blades", "2", "--blocked-deg", "30 °", "--margin-deg", "5 deg", "--delay-ms", "0.005 s")
    spoken = rows(run("windows", "--rpm", "20 rev/s", *units, "--gun-rate", "10 rounds/s", "--json"))
    assert spoken == rows(run("windows", "--rpm", 1200, *PLAIN, "--json"))


def test_ranges_hold_both_ends_and_options_repeat(run):
    found = rows(run("windows", "--rpm", "900:1500:50", "--rpm", "1250 rpm", *PLAIN, "--json"))
    assert [row["rpm"] for row in found] == [*range(900, 1501, 50), 1250]


@pytest.mark.parametrize("rpm", [600, 900, 1201, 1250, 1400])
def test_an_impulse_gun(run, rpm):
    found = rows(run("windows", "--rpm", rpm, *PLAIN, "--action", "impulse", "--impulses-per-rev", 1, "--json"))[0]
    lost = -(-rpm // 600)
    assert found["rounds_per_min"] == pytest.approx(rpm / lost)
    assert (found["rounds_per_pattern"], found["intervals_per_pattern"]) == (1, 2 * lost)
    assert len(found["windows_deg"]) == 1


def test_no_window_at_all_is_no_answer(run):
    result = run("windows", "--rpm", 1200, "--blades", 4, "--blocked-deg", 95, "--gun-rate", 600)
    assert (result.exit_code, result.stdout) == (1, "")
    said = "no window: each blade blocks 95° with its margins and the blades are 90° apart; "
    assert result.stderr == said + "narrow the arc or take fewer blades\n"


def test_one_propeller_without_a_window_is_a_sentence_beside_the_other(run):
    """Blades that block 80° each: two of them leave 100°, five none."""
    wide = (
        "windows",
        BIPLANE,
        "--blocked-deg",
        80,
        "--margin-deg",
        0,
        "--set",
        "powerplant.flat_four.propeller.blades=5",
    )
    found = rows(run(*wide, "--json"))
    rotary, flat_four = (next(row for row in found if row["powerplant"] == name) for name in ("rotary", "flat_four"))
    assert len(rotary["windows_deg"]) == 2
    assert (flat_four["windows_deg"], flat_four["open_deg"], flat_four["rounds_per_min"]) == ([], 0.0, 0.0)
    shown = " ".join(run(*wide).stdout.split())
    assert "flat_four: No window: each blade blocks 80° with its margins, and the blades are 72° apart." in shown


def test_without_a_gun_there_are_windows_and_no_rate(run):
    row = rows(run("windows", "--rpm", 1200, "--blades", 2, "--blocked-deg", 30, "--json"))[0]
    assert len(row["windows_deg"]) == 2
    assert row["rounds_per_min"] is None


def test_the_sheet_says_what_it_is_for(run):
    shown = run("windows", "--rpm", 1200, *PLAIN).stdout
    assert "164.0–304.0" in shown
    assert "the propeller turns 36° while a round is on its way (the lead)" in " ".join(shown.split())
    assert caution("history") in " ".join(shown.split())


def test_angles_of_a_window_over_0_are_said_as_they_are_read(run):
    """Two blades of 40° with their margins and a lead of 360°; one blade of 40° and a lead of 60°."""
    shown = run("windows", "--rpm", 1250, *PLAIN[:-2], "--delay-ms", 48).stdout
    assert "20.0–160.0" in shown
    shown = run("windows", "--rpm", 1250, "--blades", 1, "--blocked-deg", 40, "--delay-ms", 8).stdout
    assert "320.0–280.0" in shown


def test_every_wrong_option_at_once(run):
    words = ("--rpm", "1200:1100:5", "--blades", "2.5", "--blocked-deg", "30", "--margin-deg", "5 mm")
    result = run("windows", *words, "--gun-rate", "-3", "--action", "impuls", "--impulses-per-rev", "3")
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        '--rpm: must be one speed or FROM:TO:STEP with TO above FROM and at most 100000 steps, got "1200:1100:5"',
        '--margin-deg: must be an angle, as in "12 °", got "5 mm", which is a length',
        '--gun-rate: must be above 0 1/min, got "-3"',
        '--action: must be interrupter or impulse, got "impuls"; did you mean impulse?',
        '--blades: must be a whole number, got "2.5"',
    ]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--rpm", "0"), '--rpm: must be above 0 rpm, got "0"'),
        (("--rpm", "900:1500"), "--rpm: must be one speed or FROM:TO:STEP with TO above FROM and at most 100000 steps"),
        (("--rpm", "nan"), '--rpm: must be a finite number, got "nan"'),
        (
            ("--rpm", "900", "--impulses-per-rev", "0.37"),
            '--impulses-per-rev: must be a whole number, or a ratio of whole numbers as in 1/2, got "0.37"',
        ),
    ],
)
def test_one_wrong_option(run, words, sentence):
    result = run("windows", *words, *PLAIN)
    assert result.exit_code == 2
    assert result.stderr.startswith(sentence)


def test_what_is_missing_is_named(run):
    result = run("windows", "--gun-rate", 600)
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        "--rpm: is missing; give it, or name a scenario",
        "--blades: is missing; give it, or name a scenario",
        "--blocked-deg: is missing; give it, or name a scenario",
    ]


def test_a_scenario_answers_for_each_powerplant_at_idle_cruise_and_full(run):
    found = rows(run("windows", BIPLANE, "--json"))
    assert [(row["powerplant"], row["rpm"]) for row in found] == [
        *(("rotary", rpm) for rpm in (600, 1150, 1250)),
        *(("flat_four", rpm) for rpm in (700, 2350, 2600)),
    ]


def test_options_stand_in_the_place_of_the_scenario(run):
    words = (BIPLANE, "--powerplant", "rotary", "--set", "gun.margin=5 °")
    row = rows(run("windows", *words, "--rpm", 1200, "--blocked-deg", 30, "--delay-ms", 5, "--json"))[0]
    assert (row["rpm"], row["blocked_deg"], row["lead_deg"]) == (1200.0, 40.0, 36.0)


def test_a_powerplant_that_is_not_there(run):
    result = run("windows", BIPLANE, "--powerplant", "rotery")
    assert result.exit_code == 2
    assert result.stderr == '--powerplant: must be one of rotary, flat_four, got "rotery"; did you mean rotary?\n'


def test_a_clock_is_drawn(run, tmp_path):
    assert run("windows", BIPLANE, "--figure", tmp_path / "clock.svg").exit_code == 0
    assert "lead 133°" in (tmp_path / "clock.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "windows", airplane, "--all")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_windows_of_two_blades_and_of_three_are_compared_one_by_one(run):
    """Ideal windows of three blades: the first opens at half the blocked arc less the lead, and so do those of two."""
    asked = ("windows", BIPLANE, "--against", TRIPLANE, "--powerplant", "rotary", "--ideal")
    found = json.loads(run(*asked, "--json").stdout)
    paths = {each["path"]: each for each in found["differences"]}
    for number in (1, 2):
        opens = paths[f"rows.1.windows_deg.{number}.from_deg"]
        sides = (found[side]["rows"][0]["windows_deg"][number - 1]["from_deg"] for side in ("answer", "against"))
        assert (opens["first"], opens["second"]) == tuple(sides)
    assert "rows.1.windows_deg.3" in found["only_in_against"]
    assert not [path for path in found["only_in_answer"] if "windows_deg" in path]
    shown = " ".join(run(*asked).stdout.split())
    assert "In the other alone: window 3" in shown
    assert "windows_deg" not in shown


GEARED = ("--set", "powerplant.flat_four.gear_ratio=0.6", "--set", "cam.shaft=engine")
ONE_A_TURN = (*GEARED, "--set", "gun.impulses_per_rev=1")


def test_behind_each_engine_the_windows_are_counted_in_its_own_turns(run):
    """Five windows in three turns of the geared propeller, one in a turn of the other."""
    for engine in ((), ("--powerplant", "flat_four")):
        said = " ".join(run("windows", "tollgate", *ONE_A_TURN, *engine).stdout.split())
        assert "flat_four at 1560 rpm" in said
        assert "in 5 windows of 70° in 3 of its turns" in said
        assert "5.4° and 221.4° in turn 1, 77.4° and 293.4° in turn 2, 149.4° in turn 3 of three" in said
    both = " ".join(run("windows", "tollgate", *ONE_A_TURN).stdout.split())
    assert "Fixed cam, rotary: opens 5.4° after blade 1" in both
    assert "Fixed cam, flat_four: opens 5.4° and" in both


def test_of_unlike_windows_each_stands_with_what_its_own_rounds_clear(run):
    words = ("windows", BIPLANE, "--set", "powerplant.flat_four.gear_ratio=0.5", "--set", "cam.shaft=engine")
    words = (*words, "--set", "gun.impulses_per_rev=1.5", "--powerplant", "flat_four", "--rpm", 900)
    (row,) = rows(run(*words, "--json"))
    assert len(row["windows_deg"]) == 3
    lines = run(*words).stdout.splitlines()
    start = next(place for place, line in enumerate(lines) if line.strip().startswith("flat_four  "))
    for line, window in zip(lines[start : start + 3], row["windows_deg"], strict=True):
        clear = window["clearance_deg"]
        assert f"{window['from_deg']:.1f}–{window['to_deg'] % 360.0:.1f}" in line
        assert (f"{clear:.1f}" if clear >= 0.0 else "strikes") in line
    assert {window["clearance_deg"] >= 0.0 for window in row["windows_deg"]} == {True, False}


MARGIN = ("--blades", 2, "--blocked-deg", 30, "--margin-deg", 5, "--rpm", 1200, "--delay-ms", 0)


@pytest.mark.parametrize(
    ("opens", "dwell", "cell", "said"),
    [
        (20, 140, "0.0", ""),
        (
            17,
            140,
            "margin",
            "At 1200 rpm some rounds of each window pass within the margin of a blade; 3.0° later all",
        ),
        (
            12,
            140,
            "strikes",
            "At 1200 rpm some rounds of each window strike a blade; 8.0° later all would clear",
        ),
        (
            23,
            140,
            "margin",
            "At 1200 rpm some rounds of each window pass within the margin of a blade; 3.0° earlier all would",
        ),
        (20, 150, "strikes", "At 1200 rpm some rounds of each window strike a blade; it is longer than the 140° clear"),
    ],
)
def test_a_round_in_the_margin_is_told_from_one_that_strikes(run, opens, dwell, cell, said):
    """Clear from 20° to 160°; a window from 17° has its first rounds within the margin, one from 12° on the blade."""
    words = ("windows", *MARGIN, "--opens-deg", opens, "--dwell-deg", dwell)
    (row,) = rows(run(*words, "--json"))
    shown = " ".join(run(*words).stdout.split())
    assert row["note"].startswith(said)
    assert f"{float(opens):.1f}–{float(opens + dwell):.1f} {cell}" in shown


def test_an_impulse_has_no_rounds_that_pass_clear_beside_those_that_strike(run):
    (row,) = rows(run("windows", *MARGIN, "--action", "impulse", "--opens-deg", 4, "--dwell-deg", 0, "--json"))
    assert row["note"] == "At 1200 rpm rounds of each impulse strike a blade; 16.0° later all would clear it."


def test_an_ideal_cam_that_clears_by_nothing_says_why(run):
    told = "Clear by 0: its first and its last rounds pass just beside the margin"
    assert told in " ".join(run("windows", "tollgate", "--ideal").stdout.split())
    for other in ((), ("--ideal", "--action", "impulse")):
        assert told not in " ".join(run("windows", "tollgate", *other).stdout.split())
