"""Of an airplane with two guns each number is said to be of one of them, and of the other whether it is clear."""

import json

import pytest

MILL = "millrace"
STEADY = [
    *("--set", "burst.cycle_scatter=0 ms", "--set", "burst.link_scatter=0 ms", "--set", "burst.lock_scatter=0 ms"),
    *("--set", "burst.barrel_scatter=0 ms", "--set", "burst.flight_scatter=0 ms", "--set", "burst.hang_share=0"),
    *("--set", "burst.speed_scatter=0", "--set", "burst.speed_drift=0 1/s", "--set", "burst.speed_ripple=0"),
    *("--set", "link.play=0 °"),
]
INTO_THE_BLADE = ["--set", "second_gun.opens=-80 °"]
"""280° and 76° of lead on the way: 4° before blade 1, which blocks 9° to each side."""
CLEAR = ["--powerplant", "rotary", "--set", "second_gun.opens=1.7 °"]


def flat(text):
    return " ".join(text.split())


def engines_of(answer, faulty):
    return [
        name for name in ("rotary", "geared_six") if any(map(faulty, (r for r in answer if r["powerplant"] == name)))
    ]


def test_strikes_are_those_of_each_gun_and_the_sentence_names_the_one_that_strikes(run):
    asked = ("compare", MILL, *STEADY, *INTO_THE_BLADE, "--strikes")
    found = json.loads(run(*asked, "--json").stdout)
    one = found["powerplants"]["rotary"]
    assert one["timed_strikes_of_each_gun"] == pytest.approx([0.0, 1000.0], abs=1e-9)
    assert one["timed_strikes_per_1000"] == pytest.approx(500.0)
    assert sum(one["untimed_strikes_of_each_gun"]) / 2.0 == pytest.approx(one["untimed_strikes_per_1000"])
    assert found["gun"] == "first"
    assert all(window["clearance_deg"] > 0.0 for row in one["timing"] for window in row["windows_deg"])
    told = flat(run(*asked).stdout)
    assert "Firing windows through the propeller, first gun" in told
    assert "the cam of the second gun strikes more blades of the rotary" in told
    assert "the cam of the first gun strikes" not in told
    assert "this cam strikes" not in told


@pytest.mark.parametrize("changed", [[], INTO_THE_BLADE, CLEAR])
def test_of_the_first_gun_it_is_said_whether_the_cam_of_the_second_serves(run, changed):
    first, second = (
        json.loads(run("safe-range", MILL, *changed, *which, "--json").stdout)
        for which in ([], ["--which-gun", "second"])
    )
    fails = engines_of(second["propellers"], lambda one: not one["serves"])
    assert first["second_gun_fails"] == fails
    assert bool(fails) == (changed is not CLEAR)
    assert (first["gun"], second["gun"], second["second_gun_fails"]) == ("first", "second", None)
    told = flat(run("safe-range", MILL, *changed).stdout)
    assert "First gun, rotary: the cam serves" in told
    said = f"does not serve all of these speeds with {' and '.join(fails)};" if fails else "serves these speeds too;"
    assert f"Second gun: its cam {said} --which-gun second shows it." in told
    of_second = flat(run("safe-range", MILL, *changed, "--which-gun", "second").stdout)
    assert "Second gun, rotary: the cam" in of_second
    assert "The first gun is not looked at here" in of_second


@pytest.mark.parametrize("changed", [[], INTO_THE_BLADE, CLEAR])
def test_of_the_windows_of_the_first_gun_it_is_said_whether_those_of_the_second_are_clear(run, changed):
    first, second = (
        json.loads(run("windows", MILL, *changed, *which, "--json").stdout) for which in ([], ["--which-gun", "second"])
    )
    meets = engines_of(second["rows"], lambda row: any(each["clearance_deg"] < 0.0 for each in row["windows_deg"]))
    assert first["second_gun_meets"] == meets
    assert bool(meets) == (changed is not CLEAR)
    told = flat(run("windows", MILL, *changed).stdout)
    assert "Firing windows, first gun" in told
    said = f"rounds meet a blade or its margin with {' and '.join(meets)};" if meets else "its rounds are clear"
    assert told.count(said) == 1


def test_of_a_single_gun_nothing_is_said_of_another(run):
    for command in ("windows", "safe-range", "compare"):
        told = run(command, "tollgate").stdout
        assert "irst gun" not in told
        assert "econd gun" not in told
