"""``whirlgate rate``: the plateaus on paper, as JSON and as a picture."""

import json
import math
import re

import pytest
from airplanes import BIPLANE, TRIPLANE

GUN = ("--rpm", "900:1500:10", "--blades", "2", "--blocked-deg", "45", "--gun-rate", "500")


def staircase(result) -> dict:
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)["staircases"][0]


def test_the_largest_step_has_exact_edges(run):
    """One round in four blades: T/τ from 3.75 to 4, and T/τ is rpm/250."""
    steps = {step["intervals_per_pattern"]: step for step in staircase(run("rate", *GUN, "--json"))["plateaus"]}
    step = steps[4]
    assert (step["from_rpm"], step["to_rpm"], step["rounds_per_pattern"]) == (937.5, 1000.0, 1)
    assert (step["from_rounds_per_min"], step["to_rounds_per_min"]) == (468.75, 500.0)


def test_speeds_asked_for_lie_on_their_steps(run):
    found = staircase(run("rate", *GUN, "--longest", "40", "--json"))
    on = [
        (row, step)
        for row in found["rows"]
        for step in found["plateaus"]
        if step["from_rpm"] <= row["rpm"] < step["to_rpm"]
    ]
    assert len(on) > 50
    for row, step in on:
        assert row["rounds_per_pattern"] == step["rounds_per_pattern"]
        rate = step["from_rounds_per_min"] * row["rpm"] / step["from_rpm"]
        assert row["rounds_per_min"] == pytest.approx(rate, rel=1e-12)


def test_the_sheet_says_how_much_is_left_out(run):
    shown = " ".join(run("rate", *GUN, "--longest", "1").stdout.split())
    assert "1 : 5 1187.50 1250.00 475.0 to 500.0" in shown
    assert "3 plateaus of up to 1 round (--longest), which cover 31.2 % of the speed range." in shown


def test_no_plateau_so_short_is_said_so(run):
    """One round in four blades ends at 1000 rpm, one in five begins at 1187.5."""
    shown = " ".join(run("rate", "--rpm", "1005:1180:5", *GUN[2:], "--longest", "1").stdout.split())
    assert "No plateau of up to 1 round (--longest) lies between these speeds." in shown
    assert "cover" not in shown
    assert "longer patterns" not in shown


def test_the_plateaus_of_a_cam_with_uneven_windows_hold_the_rates_of_its_speeds(run):
    """Within a plateau the rate is proportional to the speed, and every speed with so short a pattern lies in one."""
    uneven = ("--set", 'cam.windows=["0 °", "110 °", "240 °"]', "--set", "cam.dwell=50 °")
    asked = ("rate", BIPLANE, "--powerplant", "rotary", *uneven)
    (stairs,) = json.loads(run(*asked, "--json").stdout)["staircases"]
    steps, within = stairs["plateaus"], 0
    assert len(steps) > 8
    for row in stairs["rows"]:
        found = [step for step in steps if step["from_rpm"] <= row["rpm"] <= step["to_rpm"]]
        if not found:
            assert row["rounds_per_pattern"] is None or row["rounds_per_pattern"] > 12
            continue
        step = found[-1]  # of two that meet there the one that begins
        within += 1
        assert row["rounds_per_pattern"] == step["rounds_per_pattern"]
        assert row["intervals_per_pattern"] == step["intervals_per_pattern"]
        expected = row["rpm"] * step["from_rounds_per_min"] / step["from_rpm"]
        assert row["rounds_per_min"] == pytest.approx(expected, rel=1e-12)
    assert within > 100
    shown = " ".join(run(*asked).stdout.split())
    assert f"6 of {len(steps)} plateaus of up to 12 rounds (--longest), which cover" in shown
    least = min(step["from_rounds_per_min"] for step in steps)
    assert f"the gun fires {least:.0f} (at " in shown


def test_impulses_leave_nothing_to_longer_patterns(run):
    shown = " ".join(run("rate", *GUN, "--action", "impulse").stdout.split())
    assert "plateaus, which cover the whole speed range." in shown
    assert "--longest" not in shown
    assert "longer patterns" not in shown


def test_the_pattern_explained_is_one_of_the_table(run):
    for longest in (1, 2, 5):
        shown = run("rate", *GUN, "--longest", longest).stdout
        (rounds, blades) = re.search(r"Rounds : blades (\d+) : (\d+): \1 rounds? while \2 blades", shown).groups()
        assert re.search(rf"^ *{rounds} : {blades}  ", shown, re.MULTILINE)


def test_the_least_and_the_most_rate_come_first(run):
    """The least of 900 to 1500 rpm begins the plateau of one round in four blades, 468.75 at 937.5 rpm."""
    shown = " ".join(run("rate", *GUN).stdout.split())
    assert shown.startswith(
        "Propeller at 900 to 1500 rpm: the gun fires 469 (at 938 rpm) to 500 rounds per minute, "
        "500 unsynchronized. Widest plateaus"
    )


def test_blades_too_wide_have_no_answer(run):
    result = run("rate", "--rpm", "900:1000:50", "--blades", "2", "--blocked-deg", "190", "--gun-rate", "500")
    assert result.exit_code == 1
    assert result.stderr == (
        "no rate: each blade blocks 190° with its margins and the blades are 180° apart; "
        "narrow the arc or take fewer blades\n"
    )


def test_a_picture_is_written_whole(run, tmp_path):
    result = run("rate", *GUN, "--figure", tmp_path / "staircase.svg")
    assert result.exit_code == 0
    assert "steady rate of fire [1/min]" in (tmp_path / "staircase.svg").read_text(encoding="utf-8")


def test_the_gun_is_needed(run):
    result = run("rate", "--rpm", "900", "--blades", "2", "--blocked-deg", "45")
    assert result.exit_code == 2
    assert result.stderr == "--gun-rate: is missing; give it, or name a scenario\n"


def test_scatter_rounds_the_staircase_off(run):
    """The curve keeps between the deepest step and the gun's own rate, and meets the exact top of a step."""
    words = ("--rpm", "900:1500:5", *GUN[2:], "--cycle-scatter-ms", "1", "--json")
    rows = staircase(run("rate", *words))["rows"]
    exact = [row["rounds_per_min"] for row in rows]
    scattered = [row["scattered_rounds_per_min"] for row in rows]
    assert min(exact) < min(scattered) < max(scattered) < 500.0
    top = next(row for row in rows if row["rpm"] == 990.0)
    assert top["scattered_rounds_per_min"] == pytest.approx(top["rounds_per_min"], rel=2e-3)


def test_a_scenario_brings_its_own_scatter_and_range(run):
    found = staircase(run("rate", BIPLANE, "--powerplant", "rotary", "--json"))
    assert (found["rows"][0]["rpm"], found["rows"][-1]["rpm"]) == (600.0, 1250.0)
    assert found["cycle_scatter_ms"] == 3.0
    assert all(row["scattered_rounds_per_min"] for row in found["rows"])


def test_the_map_holds_the_staircase_as_one_of_its_rows(run):
    found = staircase(run("rate", *GUN, "--map", "--json"))
    over = found["over_rates"]
    kept = over["kept_share"][over["gun_rounds_per_min"].index(500.0)]
    assert [500.0 * share for share in kept] == pytest.approx([row["rounds_per_min"] for row in found["rows"]])


def test_too_many_speeds_with_scatter(run):
    result = run("rate", "--rpm", "9000:15000:1", *GUN[2:], "--cycle-scatter-ms", "1")
    assert result.exit_code == 2
    assert result.stderr == ("--rpm: must be at most 5000 speeds where the cycle scatters; give --cycle-scatter-ms 0\n")


def test_one_speed_has_no_plateaus_and_still_draws(run, tmp_path):
    words = ("--rpm", "1000", *GUN[2:], "--map", "--figure", tmp_path / "one.png", "--json")
    assert staircase(run("rate", *words))["plateaus"] == []


def test_every_panel_of_the_map_is_drawn(run, tmp_path):
    assert run("rate", *GUN, "--map", "--cycle-scatter-ms", "2", "--figure", tmp_path / "map.svg").exit_code == 0
    text = (tmp_path / "map.svg").read_text(encoding="utf-8")
    assert all(words in text for words in ("cycle scatter 2 ms", "1 : 5", "rate of fire over that of"))


def test_a_list_without_end_is_refused(run):
    """A gun that fires once in a thousand minutes lets millions of windows pass."""
    result = run("rate", *GUN[:-1], "0.001")
    assert result.exit_code == 1
    assert result.stderr == (
        "no list of plateaus: 1.8e+06 to 3e+06 windows pass while the gun cycles once; "
        "narrow the range of speeds, shorten the patterns or quicken the gun\n"
    )


@pytest.mark.parametrize(("words", "count"), [((), 6), (("--all",), None)])
def test_a_long_list_shows_its_widest_plateaus_in_the_order_of_speed(run, words, count):
    shown = run("rate", *GUN, *words)
    steps = staircase(run("rate", *GUN, "--json"))["plateaus"]
    widest = sorted(
        sorted(steps, key=lambda step: step["from_rpm"] - step["to_rpm"])[:count], key=lambda s: s["from_rpm"]
    )
    lines = [
        line.split() for line in shown.stdout.splitlines() if line.split()[1:2] == [":"] and line.split()[0].isdigit()
    ]
    assert [(float(line[3]), float(line[4])) for line in lines] == [
        (round(step["from_rpm"], 2), round(step["to_rpm"], 2)) for step in widest
    ]
    told = " ".join(shown.stdout.split())
    assert (f"6 of {len(steps)} plateaus of up to 12 rounds" in told) == bool(count)
    assert ("--all lists them." in told) == bool(count)


def test_one_speed_has_one_rate(run):
    """500 a minute before blades that come 2000 times: 3.997 blades a round when 1 : 4 holds from 937.5 to 1000."""
    shown = run("rate", "--rpm", "999", *GUN[2:])
    assert "999 1 : 4 499.5 500" in " ".join(shown.stdout.split())


def test_one_speed_is_drawn_as_a_point():
    from sim.studies.rate import rate
    from viz.figures.rate import draw

    given = {"spin_rad_s": [math.tau * 999.0 / 60.0], "blades": 2.0, "blocked_deg": 45.0}
    figure = draw(rate(None, **given, natural_rate_per_s=500.0 / 60.0), "us")
    above, below = figure.axes
    assert [tuple(line.get_xydata()[0]) for line in above.lines if line.get_marker() == "o"] == [
        (pytest.approx(999.0), pytest.approx(499.5))
    ]
    assert [tuple(line.get_xydata()[0]) for line in below.lines] == [(pytest.approx(999.0), 4.0)]


def test_a_map_that_is_not_drawn_is_refused(run):
    result = run("rate", *GUN, "--map")
    assert (result.exit_code, result.stderr) == (
        2,
        "--map: is drawn or listed, not printed; give --figure FILE or --json as well\n",
    )


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "rate", airplane, "--longest", 4, "--all")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_of_two_guns_it_names_the_one_it_is_of(run):
    second = ("--set", "second_gun.opens=-40 °")
    for words, whose in ((second, "First"), ((*second, "--which-gun", "second"), "Second")):
        assert f"{whose} gun: fixed cam: impulses" in " ".join(run("rate", TRIPLANE, *words).stdout.split())
        assert json.loads(run("rate", TRIPLANE, *words, "--json").stdout)["gun"] == whose.lower()
    assert "gun: fixed cam" not in run("rate", BIPLANE).stdout
