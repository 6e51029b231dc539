"""``whirlgate burst``: the keys, the exact answer beside the counted one, seeds, and wrong options."""

import json
import math

import pytest
from airplanes import BIPLANE, TRIPLANE

ALONE = ("--rpm", "1200", "--blades", "2", "--blocked-deg", "30", "--margin-deg", "3", "--delay-ms", "7")
GUN = (*ALONE, "--gun-rate", "500")
SCATTER = ("--cycle-scatter-ms", "3", "--scatter-ms", "0.4", "--hang-share", "0.001", "--hang-ms", "15")
KEYS = {
    *("rounds", "strikes", "strikes_per_1000", "standard_error_per_1000", "rounds_per_min", "interval_ms"),
    *("pass_angle_deg", "clear_share", "method", "seed"),
}


def answer(result) -> dict:
    assert result.exit_code == 0, result.stderr
    assert result.stderr == ""
    return json.loads(result.stdout)


def test_the_keys(run):
    found = answer(run("burst", *GUN, *SCATTER, "--rounds", 20_000, "--json"))
    assert set(found) >= KEYS
    assert set(found["interval_ms"]) == {"mean", "sd", "min", "max"}
    assert set(found["pass_angle_deg"]) == {"mean", "sd"}
    assert found["rounds"] == 20_000
    assert found["clear_share"] == pytest.approx(1.0 - found["strikes"] / found["rounds"])


@pytest.mark.parametrize("words", [(*GUN, *SCATTER), (), ("--powerplant", "flat_four")])
def test_counted_and_exact_agree(run, words):
    found = answer(run("burst", *words, "--rounds", 400_000, "--seed", 5, "--json"))
    exact = found["exact"]
    error = max(found["standard_error_per_1000"], 1000.0 * math.sqrt(exact["strikes_per_1000"] / 1000.0 / 400_000))
    assert abs(found["strikes_per_1000"] - exact["strikes_per_1000"]) < 4.5 * error
    assert found["rounds_per_min"] == pytest.approx(exact["rounds_per_min"], rel=5e-4)


def test_without_scatter_the_rate_is_that_of_windows(run):
    """The gun is ready just as the window shuts, 0.8 of an interval after it opened: the round waits."""
    rows = json.loads(run("windows", *GUN, "--json").stdout)["rows"]
    assert rows[0]["rounds_per_min"] == 480.0
    calm = answer(run("burst", *GUN, "--rounds", 20_000, "--rounds-per-burst", 1000, "--json"))
    assert calm["exact"]["settled_rounds_per_min"] == pytest.approx(480.0, rel=1e-9)
    assert calm["rounds_per_min"] == pytest.approx(480.0, rel=2e-3)
    assert calm["strikes"] == 0


def test_the_same_seed_gives_the_same_words(run):
    words = (*GUN, *SCATTER, "--rounds", 20_000, "--json")
    first, again, other = (run("burst", *words, "--seed", seed).stdout for seed in (3, 3, 4))
    assert first == again != other


def test_two_guns_fire_twice_as_often(run):
    words = (*GUN, *SCATTER, "--rounds", 100_000, "--json")
    one, two = (answer(run("burst", *words, "--guns", guns)) for guns in (1, 2))
    assert two["rounds_per_min"] == pytest.approx(2.0 * one["rounds_per_min"], rel=2e-3)
    assert two["interval_ms"]["mean"] == pytest.approx(one["interval_ms"]["mean"], rel=2e-3)


def test_a_rare_strike_is_known_exactly_where_none_is_counted(run):
    rare = (*ALONE, "--gun-rate", 500, "--scatter-ms", 0.1, "--cycle-scatter-ms", 3, "--rounds", 1000)
    found = answer(run("burst", *rare, "--json"))
    assert found["strikes"] == 0
    assert 0.0 < found["exact"]["strikes_per_1000"] < 0.1
    assert found["interval_95_per_1000"][1] > found["exact"]["strikes_per_1000"]


def test_hanging_primers_without_scatter_leave_no_exact_answer(run):
    found = answer(run("burst", *GUN, "--hang-share", 0.01, "--hang-ms", 10, "--rounds", 2000, "--json"))
    assert found["exact"] is None
    assert found["exact_note"] == "no exact form: primers hang, and the cycle does not scatter; give it some scatter"


@pytest.mark.parametrize(
    ("words", "code", "sentence"),
    [
        (("--rounds", "1000.5"), 2, '--rounds: must be a whole number, got "1000.5"\n'),
        (("--rpm", "1300"), 2, "--rpm: must be one speed, got 2\n"),
        (
            ("--blocked-deg", "190"),
            1,
            (
                "no burst: each blade blocks 196° with its margins and the blades are 180° apart; "
                "narrow the arc or take fewer blades\n"
            ),
        ),
    ],
)
def test_no_answer(run, words, code, sentence):
    result = run("burst", *GUN, *words)
    assert (result.exit_code, result.stderr) == (code, sentence)


@pytest.mark.parametrize("cam", [("--dwell-deg", 50), ("--opens-deg", 20)])
def test_a_cam_is_either_fitted_or_given(run, cam):
    result = run("burst", *GUN, "--fitted", *cam)
    told = "--fitted: fits the cam to the speed; leave out --dwell-deg and --opens-deg, or --fitted\n"
    assert (result.exit_code, result.stderr) == (2, told)


def test_the_sheet_says_which_cam_was_used(run):
    """A gap of 180° less 36° opens 18° behind a blade, and 7 ms at 1200 rpm are 50.4°."""
    said = " ".join(run("burst", *GUN, "--rounds", 2000, "--cycle-scatter-ms", 3).stdout.split())
    assert "Cam: open from propeller angle -32.4° (0 with blade 1 on the bore line) for 144.0°." in said
    given = " ".join(run("burst", *GUN, "--rounds", 2000, "--dwell-deg", 50, "--opens-deg", 20).stdout.split())
    assert "Cam: open from propeller angle 20.0° (0 with blade 1 on the bore line) for 50.0°." in given


def test_a_powerplant_without_a_scenario_is_refused(run):
    result = run("burst", *GUN, "--powerplant", "rotary")
    told = "--powerplant: is one of a scenario, and none is named; name it, or leave the powerplant out\n"
    assert (result.exit_code, result.stderr) == (2, told)


@pytest.mark.parametrize(("scatter", "seen"), [("2", False), ("0.05", True)])
def test_bars_are_said_to_be_lengthened_where_they_are(run, tmp_path, scatter, seen):
    words = (*ALONE, "--gun-rate", 500, "--cycle-scatter-ms", 3, "--scatter-ms", scatter, "--hang-share", 0.001)
    file = tmp_path / "disc.svg"
    assert run("burst", *words, "--hang-ms", 15, "--rounds", 20_000, "--figure", file).exit_code == 0
    assert ("lengthened" in file.read_text(encoding="utf-8")) is seen


def test_a_timing_disc(run, tmp_path):
    assert run("burst", *GUN, *SCATTER, "--rounds", 2000, "--figure", tmp_path / "disc.svg").exit_code == 0
    assert "struck a blade" in (tmp_path / "disc.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "burst", airplane, "--rounds", 20_000)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot
