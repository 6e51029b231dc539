"""``whirlgate safe-range``: the cam, its bands, its price, and the engine that it would not serve."""

import json
import math

import pytest
from airplanes import BIPLANE, TRIPLANE
from scipy.stats import norm

ALONE = ("--rpm", "900", "--rpm", "1350", "--blades", "2", "--blocked-deg", "30", "--delay-ms", "8")
CAM = ("--dwell-deg", "60", "--scatter-ms", "0.25", "--sigmas", "4")


def answer(result) -> dict:
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)


def test_a_cam_given_by_its_angles(run):
    """Open from −15° for 60°, 8 ms ± 1 ms, 15° clear of each blade: 30° in 7 ms to 120° in 9 ms."""
    found = answer(run("safe-range", *ALONE, *CAM, "--opens-deg", "-15", "--json"))
    band = found["propellers"][0]["bands"][0]
    assert (band["from_rpm"], band["to_rpm"]) == (pytest.approx(30 / 0.042), pytest.approx(120 / 0.054))
    assert (found["opens_deg"], found["dwell_deg"], found["delay_ms"]) == (-15.0, 60.0, pytest.approx(8.0))


@pytest.mark.parametrize("sigmas", [1.0, 3.0, 4.5])
def test_at_the_limit_the_worst_round_has_the_tail_of_the_normal_law(run, sigmas):
    """The last round of a window, at the upper limit, misses the margin by so many standard deviations, on one side."""
    words = (*ALONE, "--dwell-deg", 60, "--scatter-ms", 0.25, "--sigmas", sigmas, "--margin-deg", 2)
    propeller = answer(run("safe-range", *words, "--json"))["propellers"][0]
    assert propeller["edge_margin_share"] == pytest.approx(norm.sf(sigmas), rel=1e-6)
    most = propeller["bands"][0]["to_rpm"]
    beyond = math.radians(2.0) / (most * math.tau / 60.0) / 0.25e-3  # the margin's time in standard deviations
    assert propeller["edge_strike_share"] == pytest.approx(norm.sf(sigmas + beyond), rel=1e-6)


def test_hang_fires_are_counted_at_the_limit(run):
    few, many = (
        answer(run("safe-range", BIPLANE, "--set", f"burst.hang_share={share}", "--json"))["propellers"][0]
        for share in (0.0, 0.2)
    )
    assert many["edge_margin_share"] > few["edge_margin_share"] + 0.02
    assert few["edge_margin_share"] == pytest.approx(norm.sf(3.0), rel=1e-6)
    said = " ".join(run("safe-range", BIPLANE, "--set", "burst.hang_share=0").stdout.split())
    assert "At its limits, released at the worst instant, one in 740 passes within the margin, one in" in said


def test_without_a_safe_speed_there_is_no_chance_at_its_limit(run):
    words = (*ALONE, "--dwell-deg", 130, "--opens-deg", 5, "--scatter-ms", 1.5)
    propeller = answer(run("safe-range", *words, "--json"))["propellers"][0]
    assert propeller["bands"] == []
    assert propeller["edge_strike_share"] is None


def test_the_best_cut_clears_both_ends_alike(run):
    found = answer(run("safe-range", *ALONE, *CAM, "--sigmas", "3", "--json"))
    clear = [speed["clearance_deg"] for speed in found["propellers"][0]["speeds"]]
    assert clear == pytest.approx([found["spare_deg"]] * 2)


def test_one_stage_has_the_same_worst_case_and_likely_band(run):
    found = answer(run("safe-range", *ALONE, *CAM, "--json"))["propellers"][0]
    assert found["bands"] == found["worst_case_bands"]


def test_the_period_cam_does_not_serve_the_modern_engine_and_says_why(run):
    shown = " ".join(run("safe-range", BIPLANE, "--all").stdout.split())
    assert "rotary 1250 rpm 64° 18.5°" in shown
    assert "flat_four 2600 rpm 133° meets a blade" in shown
    assert "flat_four: At 2600 rpm some rounds of this cam strike a blade: with 133° of lead a blade is in" in shown
    assert "rotary: the cam serves 600 to 1250 rpm." in shown
    assert "flat_four: the cam does not serve 700 to 2600 rpm; one cut for it would, with opening at" in shown


@pytest.mark.parametrize("shorter_deg", [0.02, -0.02])
def test_the_longest_dwell_serves_the_whole_range_and_a_longer_one_does_not(run, shorter_deg):
    asked = ("safe-range", BIPLANE, "--powerplant", "flat_four", "--json")
    found = answer(run(*asked))["propellers"][0]
    assert found["longest_dwell_deg"] < answer(run(*asked))["dwell_deg"]
    cam = ("--dwell-deg", found["longest_dwell_deg"] - shorter_deg, "--opens-deg", found["best_opens_deg"])
    tried = answer(run(*asked, *cam))["propellers"][0]
    served = [each for each in tried["bands"] if each["from_rpm"] < 700.1 and each["to_rpm"] > 2600.0]
    assert bool(served) == (shorter_deg > 0.0)


def test_no_cam_serves_a_range_over_which_the_lead_changes_by_more_than_the_clear_arc(run):
    """8 ms from 600 to 4200 rpm: the lead grows by 172.8°, more than the 150° between two blades."""
    words = ("--blades", 2, "--blocked-deg", 30, "--delay-ms", 8, "--rpm", 600, "--rpm", 4200, "--dwell-deg", 20)
    assert answer(run("safe-range", *words, "--json"))["propellers"][0]["longest_dwell_deg"] == 0.0
    shown = " ".join(run("safe-range", *words).stdout.split())
    assert "the cam does not serve 600 to 4200 rpm, and none does: the lead changes too much." in shown


@pytest.mark.parametrize("sigmas", [0.0, 2.0, 3.0])
def test_the_width_changes_with_a_standard_deviation_as_said(run, sigmas):
    def of(scatter_ms):
        cam = ("--dwell-deg", 60, "--opens-deg", -15, "--sigmas", sigmas, "--scatter-ms", scatter_ms)
        return answer(run("safe-range", *ALONE, *cam, "--json"))["propellers"][0]

    few, more = of(0.25), of(0.2501)
    widths = [each["bands"][0]["to_rpm"] - each["bands"][0]["from_rpm"] for each in (few, more)]
    assert few["sensitivity"]["width_change_1_ms_rpm"] == pytest.approx((widths[1] - widths[0]) / 1e-4, rel=1e-3)
    assert (few["sensitivity"]["width_change_1_ms_rpm"] == 0.0) == (sigmas == 0.0)


def test_of_two_bands_what_moves_the_limits_names_the_one(run):
    shown = " ".join(run("safe-range", BIPLANE, "--powerplant", "rotary", "--rpm", 5000, "--all").stdout.split())
    found = answer(run("safe-range", BIPLANE, "--powerplant", "rotary", "--rpm", 5000, "--json"))["propellers"][0]
    assert len(found["bands"]) == 2
    assert found["sensitivity"]["band"] == found["bands"][1]
    low, high = (found["bands"][1][end] for end in ("from_rpm", "to_rpm"))
    assert f"rotary, {low:.0f} to {high:.0f} rpm: 1 ms more delay changes the lower limit" in shown


def test_a_round_in_the_margin_is_not_said_to_strike(run):
    """The last round of a 60° window opened at −15°, 8.75 ms on, at 1930 rpm: 146.3°, 18.7° before the blade's edge."""
    cam = ("--dwell-deg", 60, "--opens-deg", -15, "--scatter-ms", 0.25, "--margin-deg", 20, "--rpm", 1930)
    words = ("--blades", 2, "--blocked-deg", 30, "--delay-ms", 8, *cam, "--all")
    shown = " ".join(run("safe-range", *words).stdout.split())
    assert "At 1930 rpm some rounds of this cam pass within the margin of a blade" in shown
    assert "strike a blade" not in shown
    assert "1930 rpm 93° within the margin" in shown


def test_the_chain_of_a_scenario_stage_by_stage(run):
    stages = answer(run("safe-range", TRIPLANE, "--json"))["stages"]
    assert [stage["name"] for stage in stages] == [
        *("cam follower rise", "take-up of play", "elastic windup", "pulse along the oil column", "trigger motor"),
        *("lock and primer", "barrel", "flight to the disc"),
    ]
    assert sum(stage["mean_ms"] for stage in stages) == pytest.approx(
        answer(run("safe-range", TRIPLANE, "--json"))["delay_ms"]
    )


def test_worst_case_is_narrower_than_independent_stages(run):
    for propeller in answer(run("safe-range", BIPLANE, "--json"))["propellers"]:
        likely, worst = propeller["bands"][0], propeller["worst_case_bands"][0]
        assert likely["from_rpm"] < worst["from_rpm"] < worst["to_rpm"] < likely["to_rpm"]


@pytest.mark.parametrize(
    ("words", "code", "sentence"),
    [
        ((), 2, "--dwell-deg: is missing; give it, or the table cam of the scenario\n"),
        (
            ("--dwell-deg", "151"),
            1,
            "no safe range: the dwell of 151° is longer than the 150° clear between two blades; shorten the dwell\n",
        ),
        (
            ("--dwell-deg", "60", "--scatter-ms", "3"),
            1,
            (
                "no safe range: the delay of 8 ms scatters by 9 ms; count fewer standard deviations, or reduce the "
                "scatter of the stages\n"
            ),
        ),
    ],
)
def test_no_answer(run, words, code, sentence):
    result = run("safe-range", *ALONE, *words)
    assert (result.exit_code, result.stderr) == (code, sentence)


def test_a_picture(run, tmp_path):
    assert run("safe-range", BIPLANE, "--figure", tmp_path / "band.svg").exit_code == 0
    assert "clear: " in (tmp_path / "band.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "safe-range", airplane, "--all")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_by_default_the_sheet_is_short(run):
    shown = run("safe-range", BIPLANE).stdout
    assert "--all adds lead and clearance at each speed, the stages of the delay" in " ".join(shown.split())
    assert "lock and primer" not in shown
