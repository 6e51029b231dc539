"""``modes``: the modes of ``handling``, the figure, and flight paths that are not there."""

import re

import pytest
from airplanes import BIPLANE, TRIPLANE


def test_modes_agree_with_handling(answered):
    found = answered("modes")
    handling = answered("handling")
    assert found["graded_by"] == "MIL-F-8785C, Class I, Category B"
    for flight in found["flights"]:
        assert flight["modes"] == handling["powerplants"][flight["powerplant"]]["modes"]


def test_modes_of_a_turn_that_does_not_exist_are_no_answer(run):
    result = run("modes", "--bank", "70 deg", "--speed", "45 mph")
    assert result.exit_code == 1
    assert result.stderr == (
        "rotary: no steady turn with 70° of right bank at 45 mph within CLmax; "
        "fly faster, at 58.5 mph or more, or bank 55° or less\n"
        "flat_four: no steady turn with 70° of right bank at 45 mph within CLmax; "
        "fly faster, at 58.5 mph or more, or bank 52° or less\n"
    )
    slower, faster = (run("modes", "--bank", "70 deg", "--speed", speed).stderr for speed in ("57 mph", "58.5 mph"))
    assert "rotary: no steady turn" in slower
    assert "rotary: no steady turn" not in faster
    assert "rotary: no steady turn" not in run("modes", "--bank", "55 deg", "--speed", "45 mph").stderr
    for bank, side in (("45 deg", "right"), ("-45 deg", "left")):
        told = run("modes", "--bank", bank, "--speed", "42 mph").stderr
        assert f"flat_four: no steady turn with 45° of {side} bank at 42 mph within CLmax; " in told


def test_a_flight_beyond_the_power_says_so_in_the_words_of_the_other_commands(run):
    """Modes, handling and a manoeuvre's refusal name the same limit and the same power."""
    fast = ("--speed", "160 mph")
    refused = run("maneuver", "pull", *fast)
    assert refused.exit_code == 1
    words = refused.stderr.partition(";")[0]
    assert words.startswith("rotary: no steady straight flight at 160 mph within power, for which full throttle gives ")
    for command in ("modes", "handling"):
        told = " ".join(run(command, *fast).stdout.split())
        assert f"{words}. The modes are of this flight all the same, which the airplane cannot hold." in told
        assert "which the airplane cannot hold" not in run(command).stdout


def test_a_lack_of_power_is_told_without_a_power_of_ten(run):
    told = " ".join(run("modes", "--speed", "300 mph").stdout.split())
    lacks = re.findall(r"full throttle gives (\S+) hp too little", told)
    assert lacks
    assert all(re.fullmatch(r"\d{4,}", lack) for lack in lacks)


def test_the_figure(run, tmp_path):
    path = tmp_path / "figure.svg"
    assert run("modes", "--figure", path).exit_code == 0
    drawn = path.read_text(encoding="utf-8")
    for text in ("rotary", "flat_four", "Dutch roll", "spiral", "negative where the mode decays"):
        assert text in drawn


def test_power_that_leaves_no_flight_path_is_a_sentence(run):
    result = run("modes", "--speed", "300 m/s", "--power", "idle")
    assert result.exit_code == 1
    assert result.stderr == (
        "rotary: no steady straight flight at 671.1 mph within power; fly nearer to the speed of least drag\n"
        "flat_four: no steady straight flight at 671.1 mph within power; fly nearer to the speed of least drag\n"
    )


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=lambda path: path.stem)
def test_the_sheet_as_a_whole(run, snapshot, airplane, units):
    assert run("--units", units, "modes", airplane, "--bank", "0 deg", "--bank", "-37 deg").output == snapshot


def test_a_flight_that_is_not_level_says_so(run):
    climb = " ".join(run("modes", "--power", "full", "--bank", "20 deg").stdout.split())
    assert climb.count("with 20.0° right bank at 80.0 mph and 1000 ft, climb or descent at full power") == 2
    assert "climb or descent" not in run("modes").stdout


def test_bands_stand_below_the_modes_rounded_with_them(run, answered):
    """The Dutch roll's damping of .3 is known to about .05, so nothing of it is printed finer than hundredths."""
    found = answered("modes", "--bands")
    mode = next(mode for mode in found["flights"][0]["modes"] if mode["name"] == "Dutch roll")
    told = run("modes", "--bands").stdout
    first, second = [line for line in told.splitlines() if line.split()[:1] == ["Dutch"]][:2]
    assert f"{mode['damping_ratio']:.2f}" in first
    assert f"{mode['damping_ratio']:.3f}" not in first
    assert f"{mode['damping_ratio_low']:.2f}" in second
    spiral = next(mode for mode in found["flights"][0]["modes"] if mode["name"] == "spiral")
    assert f"The spiral grows in {100.0 * spiral['grows_probability']:.0f} % of the airplanes drawn." in told
    assert "no end" in told


def test_the_figure_shows_the_roots_drawn(run, tmp_path):
    assert run("modes", "--bands", "--figure", tmp_path / "roots.svg").exit_code == 0
    assert "dots: airplanes drawn" in (tmp_path / "roots.svg").read_text(encoding="utf-8")
    assert run("modes", "--figure", tmp_path / "plain.svg").exit_code == 0
    assert "dots" not in (tmp_path / "plain.svg").read_text(encoding="utf-8")


def test_no_advice_passes_the_speed_that_the_wing_was_designed_for(run):
    """The equivalent one, faster in thin air by the root of the density."""
    steep = "modes", "--bank", "85 deg"
    free = run(*steep, "--set", "structure.dive_speed=200 mph").stderr.splitlines()[0]
    least_mph = float(free.split("fly faster, at ")[1].split(" mph")[0])
    slower = 0.9711**0.5  # of the density of the standard atmosphere at 1,000 ft, over that at sea level
    dive_mph = least_mph * slower - 1.0
    held = run(*steep, "--set", f"structure.dive_speed={dive_mph} mph").stderr.splitlines()[0]
    assert "fly faster" not in held
    assert ", the design speed VD; bank " in held
    assert float(held.split("nor at any speed up to ")[1].split(" mph")[0]) == pytest.approx(dive_mph / slower, abs=0.6)
    passed = run(*steep, "--speed", "110 mph", "--set", "structure.dive_speed=105 mph").stderr
    assert "within CLmax; bank " in passed.splitlines()[0]
