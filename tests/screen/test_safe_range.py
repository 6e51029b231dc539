"""``whirlgate safe-range``: the cam, its bands, its price, and the engine that it would not serve."""

import json
import math
import re

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
    assert (
        "At its limits, released at the worst instant and with all that scatters, one in 740 passes within the margin"
        in said
    )


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
    dwell_deg = found["longest_dwell_deg"] - shorter_deg
    least = found["best_opens_deg"] + found["best_dwell_deg"]  # any window of that dwell that serves closes about there
    tried = [
        answer(run(*asked, "--dwell-deg", dwell_deg, "--opens-deg", least - dwell_deg + place / 100.0))["propellers"][0]
        for place in range(-12, 13)
    ]
    assert any(each["serves"] for each in tried) == (shorter_deg > 0.0)


UNSERVED = [
    (BIPLANE, "--powerplant", "flat_four"),
    ("tollgate", "--powerplant", "flat_four"),
    ("tollgate", "--powerplant", "rotary", "--blades", 3, "--opens-deg", 9),
    ("tollgate", "--powerplant", "flat_four", "--dwell-deg", 50.9, "--opens-deg", 156.8),
    (*ALONE, "--dwell-deg", 140, "--opens-deg", 0),
    (*ALONE, "--action", "impulse", "--opens-deg", 100, "--scatter-ms", 0.4),
]


@pytest.mark.parametrize("asked", UNSERVED)
def test_the_cam_that_the_sheet_names_serves_as_it_is_printed(run, asked):
    said = " ".join(run("safe-range", *asked).stdout.split())
    assert "the cam does not serve" in said
    named = re.search(
        r"one cut for it would, with (?:opening|impulses) at ([\d.]+)°(?: and a dwell of ([\d.]+)°)?", said
    )
    dwell = named[2] or answer(run("safe-range", *asked, "--json"))["dwell_deg"]
    said = run("safe-range", *asked, "--opens-deg", named[1], "--dwell-deg", dwell).stdout
    assert "the cam serves" in said
    assert "does not" not in said


def test_a_range_is_printed_in_whole_speeds_that_are_safe(run):
    for asked in ((BIPLANE,), ("tollgate", "--powerplant", "flat_four")):
        said, found = run("safe-range", *asked).stdout, answer(run("safe-range", *asked, "--json"))
        for propeller in found["propellers"]:
            (band,) = propeller["bands"]
            assert f"{math.ceil(band['from_rpm'])} to {math.floor(band['to_rpm'])} rpm" in said


GEARED = ("powerplant.flat_four.gear_ratio=0.6", "cam.shaft=engine", "gun.impulses_per_rev=1")


def set_all(keys):
    return [word for key in keys for word in ("--set", key)]


@pytest.mark.parametrize("keys", [GEARED, (*GEARED, "cam.opens=1 °"), ('cam.windows=["0 °", "130 °"]',)])
def test_of_windows_that_stand_unlike_to_the_blades_it_names_another_cam(run, keys):
    words = ("tollgate", *set_all(keys), "--powerplant", "flat_four")
    said = " ".join(run("safe-range", *words).stdout.split())
    cam = "a cam on the propeller's shaft with one window for each blade, evenly spaced, would, opening at "
    opens, _, after = said.partition(cam)[2].partition("°")
    dwell = after.partition("a dwell of ")[2].partition("°")[0] if after.startswith(" and a dwell") else "70"
    even = ("--set", f"cam.opens={opens} °", "--set", f"cam.dwell={dwell} °", "--set", "cam.shaft=propeller")
    even = (*even, "--set", "cam.windows=[]", "--set", "gun.impulses_per_rev=2")
    assert "flat_four: the cam serves" in run("safe-range", *words, *even).stdout


def test_a_cam_on_the_engine_is_told_with_each_engine(run):
    """Turned by an engine of 5 turns to 3 of its propeller, one window a turn of it: 5 in 3 turns, 216° apart."""
    both = answer(run("safe-range", "tollgate", *set_all(GEARED), "--json"))
    alone = answer(run("safe-range", "tollgate", *set_all(GEARED), "--powerplant", "flat_four", "--json"))
    assert alone["cam"] == both["cams"]["flat_four"] == alone["cams"]["flat_four"]
    assert both["cam"] == both["cams"]["rotary"]
    first = both["cam"]["opens_deg"][0]
    assert alone["cam"]["opens_deg"] == pytest.approx([first + 216.0 * number for number in range(5)])
    assert alone["cam"]["period_turns"] == 3


def test_the_ripple_that_is_not_counted_is_told(run):
    """± 25 % once a turn: within 0.00735 s at 1600 rpm, 70.5°, it moves a passage by up to 0.5 sin 35.3°, 16.5°."""
    found = answer(run("safe-range", "tollgate", "--rpm", 1600, "--set", "burst.speed_ripple=0.25", "--json"))
    turned = math.radians(9.6 * found["time_part_ms"])
    most = math.degrees(0.5 * math.sin(turned / 2.0))
    assert [one["ripple_deg"] for one in found["propellers"]] == pytest.approx([most, most])
    said = " ".join(run("safe-range", "tollgate", "--rpm", 1600, "--set", "burst.speed_ripple=0.25").stdout.split())
    assert f"uneven within a turn, ± 25 %, which moves passages by up to {most:.1f}° to either side" in said
    assert "the cam serves 1600 rpm at a speed steady within a turn" in said
    assert "steady within" not in run("safe-range", "tollgate", "--rpm", 1600).stdout


def test_the_chance_at_the_limits_counts_the_ripple(run):
    """At the upper limit the first and the last round pass elsewhere; none of them may meet more than in all bursts."""
    words = ("tollgate", "--powerplant", "rotary", "--set", "burst.hang_share=0")
    for depth in (0.0, 0.05, 0.25):
        ripple = (
            "--set",
            f"burst.speed_ripple={depth}",
            "--set",
            "burst.speed_drift=0 1/s",
            "--set",
            "burst.speed_scatter=0",
        )
        (found,) = answer(run("safe-range", *words, *ripple, "--json"))["propellers"]
        limits = [speed for each in found["bands"] for speed in each.values()]
        fired = [answer(run("burst", *words, *ripple, "--rpm", limit, "--rounds", 1000, "--json")) for limit in limits]
        struck = [each["exact"]["strikes_per_1000"] / 1000.0 for each in fired]
        near = [1.0 - each["exact"]["margin_kept_share"] for each in fired]
        assert max(struck) <= found["edge_strike_share"]
        assert max(near) <= found["edge_margin_share"]
        if depth == 0.0:
            steady = found["edge_strike_share"]
    assert found["edge_strike_share"] > 100.0 * steady
    said = " ".join(run("safe-range", *words, "--set", "burst.speed_ripple=0.25").stdout.split())
    chances = [f"{1000.0 * found[f'edge_{kind}_share']:.3g} in 1000" for kind in ("margin", "strike")]
    assert f"{chances[0]} pass within the margin, {chances[1]} strike." in said


def test_it_says_whose_range_the_opening_is_best_for(run):
    assert "Its angle is the best for the rotary." in run("safe-range", "--powerplant", "flat_four").stdout
    assert "Its angle is given." in run("safe-range", "--set", "cam.opens=9 °").stdout
    assert "Delay from cam to disc at 2600 rpm" in run("safe-range", "--powerplant", "flat_four").stdout


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
    low, high = math.ceil(found["bands"][1]["from_rpm"]), math.floor(found["bands"][1]["to_rpm"])
    assert f"rotary, {low} to {high} rpm: 1 ms more delay changes the lower limit" in shown


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
