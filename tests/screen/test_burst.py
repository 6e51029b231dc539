"""``whirlgate burst``: the keys, the exact answer beside the counted one, seeds, and wrong options."""

import json
import math

import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.studies.burst_answer import StrikeChance
from viz.sheets.chance import chance_words

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


def test_where_there_is_no_exact_answer_the_sheet_says_why(run):
    words = (*GUN, "--speed-scatter", 0.05, "--scatter-ms", 0.1, "--rounds", 2000)
    found = answer(run("burst", *words, "--json"))
    assert found["exact"] is None
    assert found["exact_note"] == (
        "no exact form: the speed scatters and the cycle does not, so that the pattern jumps with the speed; give the "
        "cycle some scatter, or the speed none"
    )
    assert "No exact form: the speed scatters and the cycle does not" in run("burst", *words).stdout


def test_a_round_on_the_edge_of_a_blade_is_clear(run):
    """The cam opens just as the blade has passed, and nothing but the cycle scatters: no round can strike."""
    words = ("--rpm", 1200, "--blades", 2, "--blocked-deg", 20, "--delay-ms", 5, "--gun-rate", 500)
    words = (*words, "--cycle-scatter-ms", 4, "--rounds", 20_000)
    found = answer(run("burst", *words, "--json"))
    assert found["strikes"] == 0
    assert found["exact"]["strikes_per_1000"] == 0.0
    shown = " ".join(run("burst", *words).stdout.split())
    assert shown.startswith("Strikes on the blades, exact: none. Without the gear: 111 in 1000")


def test_without_the_gear(run):
    """Two blades of 30° each block 60° of 360°, whatever else scatters; the gun fires at its own rate."""
    timed, free = (answer(run("burst", *GUN, *SCATTER, *words, "--json")) for words in ((), ("--untimed",)))
    for found in (timed, free):
        assert found["untimed_strikes_per_1000"] == pytest.approx(1000.0 / 6.0)
        assert found["untimed_rounds_per_min"] == pytest.approx(500.0)
    assert (timed["untimed"], free["untimed"]) == (False, True)
    assert free["exact"]["strikes_per_1000"] == pytest.approx(1000.0 / 6.0)
    assert abs(free["strikes_per_1000"] - 1000.0 / 6.0) < 4.5 * free["standard_error_per_1000"]
    assert free["first_round_ms"] == {"mean": 0.0, "max": 0.0}
    assert "No gear: the gun fires whenever it is ready." in run("burst", *GUN, "--untimed", "--rounds", 2000).stdout


def test_blades_that_leave_no_window_still_let_an_untimed_gun_fire(run):
    found = answer(run("burst", *GUN, "--blocked-deg", 190, "--untimed", "--rounds", 2000, "--json"))
    assert found["strikes"] == found["rounds"]
    assert found["untimed_strikes_per_1000"] == 1000.0


def test_the_first_round_waits_for_the_cam(run):
    """At 1200 rpm it opens each 25 ms and is shut for 36° of 180°, 5 ms, in a fifth of all cases: 0.5 ms in all."""
    found = answer(run("burst", *GUN, *SCATTER, "--rounds", 2000, "--json"))
    assert found["first_round_ms"] == pytest.approx({"mean": 0.5, "max": 5.0}, rel=1e-6)
    assert found["at_once_share"] == pytest.approx(0.8, rel=1e-6)


def test_a_cycle_is_never_negative_however_it_scatters(run):
    found = answer(run("burst", *GUN, "--cycle-scatter-ms", 100, "--scatter-ms", 1, "--rounds", 200_000, "--json"))
    assert 0.0 < found["interval_ms"]["min"] < 30.0
    assert abs(found["strikes_per_1000"] - found["exact"]["strikes_per_1000"]) < 4.5 * found["standard_error_per_1000"]


def test_a_propeller_that_would_stop_is_refused(run):
    result = run("burst", *GUN, "--speed-drift", "-0.5 1/s", "--rounds-per-burst", 30)
    told = (
        "no burst: within 30 rounds the drifting propeller comes to a stop; shorten the burst, or let the speed drift "
        "and scatter less\n"
    )
    assert (result.exit_code, result.stderr) == (1, told)


@pytest.mark.parametrize("cam", [("--ideal",), ("--dwell-deg", 50), ("--opens-deg", 20)])
def test_an_untimed_gun_has_no_cam(run, cam):
    result = run("burst", *GUN, "--untimed", *cam)
    told = "--untimed: is without a cam; leave out --dwell-deg, --opens-deg and --ideal, or --untimed\n"
    assert (result.exit_code, result.stderr) == (2, told)


@pytest.mark.parametrize(
    ("share", "is_limit", "words"),
    [
        (0.0, False, "none"),
        (1e-12, False, "less than one in a thousand million rounds"),
        (1.0 / 82_345.0, False, "one in 82,000 rounds; one in 170 sorties of 500 rounds"),
        (2e-3, False, "one in 500 rounds; about 1 in a sortie of 500 rounds"),
        (0.0424, False, "42.4 in 1000 rounds; about 21 in a sortie of 500 rounds"),
        (4e-6, True, "less than one in 250,000 rounds; less than one in 500 sorties of 500 rounds"),
        (0.02, True, "less than 20 in 1000 rounds; less than 10 in a sortie of 500 rounds"),
    ],
)
def test_the_chance_in_words(share, is_limit, words):
    sortie = -math.expm1(500 * math.log1p(-share))
    assert chance_words(StrikeChance(share, is_limit, 500, sortie)) == words


def test_a_sortie_of_two_guns_has_the_rounds_of_both(run):
    """Alike, they strike twice as often in a sortie: 1 - (1 - p)^1000 in place of 1 - (1 - p)^500."""
    one, two = (answer(run("burst", BIPLANE, "--guns", guns, "--rounds", 2000, "--json")) for guns in (1, 2))
    share = one["chance"]["strike_share"]
    assert two["chance"]["strike_share"] == pytest.approx(share, rel=1e-12)
    assert one["chance"]["sortie_share"] == pytest.approx(-math.expm1(500 * math.log1p(-share)), rel=1e-12)
    assert two["chance"]["sortie_share"] == pytest.approx(-math.expm1(1000 * math.log1p(-share)), rel=1e-12)
    assert (one["chance"]["guns"], two["chance"]["guns"]) == (1, 2)
    words = chance_words(StrikeChance(0.0424, False, 500, 1.0, 2))
    assert words == "42.4 in 1000 rounds; about 42 in a sortie of 500 rounds of each gun"
    assert chance_words(StrikeChance(0.9, False, 500, 1.0)).endswith("about 450 in a sortie of 500 rounds")


def test_without_an_exact_form_a_dash_and_without_strikes_a_nought(run):
    """A dash says that there is no number, not that no round strikes."""
    lines = run("burst", "tollgate", "--rpm", 60, "--rounds", 2000).stdout.splitlines()
    for name in ("Strikes per 1000 rounds", "Rounds per minute", "Rounds clear of"):
        (line,) = (line for line in lines if line.strip().startswith(name))
        assert line.rstrip().endswith("–")


def test_a_rare_strike_is_told_in_decimals(run):
    words = (*GUN, "--dwell-deg", 50, "--opens-deg", 40, "--delay-ms", 5, "--cycle-scatter-ms", 3, "--rounds", 2000)
    told = dict.fromkeys(("decimals", "under"))
    for scatter in (2.0, 1.4, 1.2, 1.0, 0.8, 0.6):
        asked = (*words, "--scatter-ms", scatter)
        exact = answer(run("burst", *asked, "--json"))["exact"]["strikes_per_1000"]
        (line,) = (each for each in run("burst", *asked).stdout.splitlines() if "Strikes per 1000 rounds" in each)
        assert "e-" not in line
        if 0.0 < exact < 1e-6:
            told["under"] = line.rstrip().endswith("under 0.000001")
        elif exact < 1e-4:
            told["decimals"] = float(line.split()[-1]) == pytest.approx(exact, rel=1e-3)
    assert told == {"decimals": True, "under": True}


def test_an_untimed_gun_waits_for_no_cam_and_has_none(run):
    shown = run("burst", BIPLANE, "--guns", 2, "--untimed", "--rounds", 2000).stdout
    assert "Trigger to first release" not in shown
    assert "Cam opens" not in shown
    assert "Trigger to first release at 1250 rpm, longest" in run("burst", BIPLANE, "--rounds", 2000).stdout


def test_a_speed_that_ripples_moves_rounds_and_blades(run, tmp_path):
    """Fastest with blade 1 on the bore line, a blade is past it sooner: fewer strikes without the gear."""
    words = ("--speed-ripple", 0.2, "--ripple-per-rev", 2, "--ripple-peak-deg", 0)
    even, found = (answer(run("burst", *GUN, *SCATTER, *each, "--json")) for each in ((), words))
    half, ripple = math.radians(15.0), 0.1
    clock = half - ripple * math.sin(2.0 * half)
    for _ in range(60):
        clock = half - ripple * math.sin(2.0 * clock)
    assert found["untimed_strikes_per_1000"] == pytest.approx(even["untimed_strikes_per_1000"] * clock / half, rel=1e-9)
    error = max(found["standard_error_per_1000"], 1e-3)
    assert abs(found["strikes_per_1000"] - found["exact"]["strikes_per_1000"]) < 4.5 * error
    assert found["exact"]["strikes_per_1000"] != pytest.approx(even["exact"]["strikes_per_1000"], rel=0.01)
    told = "Speed within a turn: ± 20.0 %, twice a turn, fastest at propeller angle 0°."
    assert told in " ".join(run("burst", *GUN, *SCATTER, *words, "--rounds", 2000).stdout.split())


def test_the_ripple_of_a_scenario(run):
    words = ("--set", "burst.speed_ripple=0.1", "--set", "burst.ripple_per_rev=2", "--set", 'burst.ripple_peak="90 °"')
    found = answer(run("burst", BIPLANE, *words, "--rounds", 2000, "--json"))
    assert found["ripple"] == {"depth": 0.1, "per_rev": 2, "peak_deg": 90.0}
    given = ("--speed-ripple", 0.1, "--ripple-per-rev", 2, "--ripple-peak-deg", 90)
    assert answer(run("burst", BIPLANE, *given, "--rounds", 2000, "--json")) == found


def test_a_sortie_is_as_long_as_asked_for(run):
    found = answer(run("burst", *GUN, *SCATTER, "--rounds-per-sortie", 250, "--rounds", 2000, "--json"))
    share = 1e-3 * found["exact"]["strikes_per_1000"]
    assert found["chance"]["strike_share"] == share
    assert found["chance"]["sortie_share"] == pytest.approx(1.0 - (1.0 - share) ** 250)


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
def test_a_cam_is_either_ideal_or_given(run, cam):
    result = run("burst", *GUN, "--ideal", *cam)
    told = "--ideal: fits the cam to each speed; leave out --dwell-deg and --opens-deg, or --ideal\n"
    assert (result.exit_code, result.stderr) == (2, told)


def test_the_sheet_says_which_cam_was_used(run):
    """A gap of 180° less 36° opens 18° behind a blade, and 7 ms at 1200 rpm are 50.4°."""
    said = " ".join(run("burst", *GUN, "--rounds", 2000, "--cycle-scatter-ms", 3).stdout.split())
    ideal = (
        "Ideal cam, fitted to this speed: opens 147.6° and 327.6° after blade 1 crosses the bore line, for 144.0° each."
    )
    assert ideal in said
    given = " ".join(run("burst", *GUN, "--rounds", 2000, "--dwell-deg", 50, "--opens-deg", 20).stdout.split())
    assert "Fixed cam: opens 20.0° and 200.0° after blade 1 crosses the bore line, for 50.0° each." in given


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
    result = run("--units", units, "burst", airplane, "--rounds", 20_000, "--all")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot
