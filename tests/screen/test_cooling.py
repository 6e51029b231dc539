"""``whirlgate cooling``: four cases, the band, and a scenario without the table."""

import json

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE


def answer(result) -> dict:
    assert result.exit_code == 0, result.stderr
    return json.loads(result.stdout)


def test_four_cases_with_their_band(run):
    found = answer(run("cooling", BIPLANE, "--json"))
    assert [(case["cowled"], case["firing"]) for case in found["cases"]] == [
        *((False, False), (False, True), (True, False), (True, True)),
    ]
    bare = found["cases"][0]
    assert bare["stiff_earliest_s"] < bare["stiff_after_s"] < bare["stiff_latest_s"]
    assert bare["fastest_k"][30] < bare["temperature_k"][30] < bare["slowest_k"][30]
    assert len(found["time_s"]) == len(bare["temperature_k"])


def test_higher_is_colder_and_a_cowling_keeps_warm(run):
    low, high = (answer(run("cooling", BIPLANE, "--altitude", each, "--json")) for each in ("3000 ft", "18000 ft"))
    assert high["cases"][0]["temperature_k"][-1] < low["cases"][0]["temperature_k"][-1]
    assert high["cases"][2]["temperature_k"][-1] > high["cases"][0]["temperature_k"][-1]
    assert low["cases"][0]["stiff_after_s"] is None


def oil(result) -> list[str]:
    """Return what the sheet says of the oil, a case a line."""
    lines = (line.split("°F")[-1].strip() for line in result.stdout.splitlines() if line.count("°F") == 2)
    return [line.rsplit("  ", 1)[0].strip() for line in lines if line.endswith(" in")]


def test_oil_that_stiffens_after_the_end_is_not_said_to_stay_fluid(run):
    """It stiffens after some 11 minutes; the steady temperature of the other cases is above its limit."""
    short, long = (run("cooling", BIPLANE, "--duration", each) for each in ("5 min", "60 min"))
    assert oil(short) == ["not within 5 min", "never", "never", "never"]
    assert oil(long) == ["after 11 min (9–13)", "never", "never", "never"]
    cases = answer(run("cooling", BIPLANE, "--duration", "5 min", "--json"))["cases"]
    assert [(case["stiff_after_s"], case["stays_fluid"]) for case in cases] == [(None, False), *[(None, True)] * 3]


def test_oil_that_is_stiff_at_the_start_becomes_fluid_or_does_not(run):
    cold = ("cooling", BIPLANE, "--set", "warmth.start=-20 °C")
    bare, firing, *_ = answer(run(*cold, "--json"))["cases"]
    assert (bare["stiff_after_s"], bare["fluid_after_s"], bare["stays_fluid"]) == (0.0, None, False)
    assert firing["stiff_after_s"] == 0.0
    at = np.searchsorted(answer(run(*cold, "--json"))["time_s"], firing["fluid_after_s"])
    assert firing["temperature_k"][at - 1] < 263.15 <= firing["temperature_k"][at]
    assert firing["fluid_earliest_s"] < firing["fluid_after_s"] < firing["fluid_latest_s"]
    shown = run(*cold).stdout
    assert "from start to end" in shown
    assert "at start; fluid" in shown


def test_the_sheet_says_it_is_for_education(run):
    shown = " ".join(run("cooling", BIPLANE).stdout.split())
    assert "education only" in shown
    assert "a heat transfer coefficient 20 % higher or lower" in shown


def test_a_scenario_without_the_table(run, tmp_path):
    text = (tmp_path / "bare.toml").as_posix()
    whole = BIPLANE.read_text(encoding="utf-8")
    start = whole.index("[warmth]")
    (tmp_path / "bare.toml").write_text(whole[:start] + whole[whole.index("\n[", start) :], encoding="utf-8")
    result = run("cooling", text)
    assert result.exit_code == 2
    assert result.stderr == "warmth: is missing; the table of the receiver, as in the bundled scenario tollgate\n"


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_picture_in_the_readers_units(run, tmp_path, units):
    assert run("--units", units, "cooling", "--figure", tmp_path / "cooling.svg").exit_code == 0
    assert ("°F" if units == "us" else "°C") in (tmp_path / "cooling.svg").read_text(encoding="utf-8")


def test_a_fit_is_in_the_readers_units(run):
    """7 millionths a kelvin times 32 kelvin on an inch."""
    assert "0.00022 in" in run("cooling", BIPLANE).stdout
    assert "0.0056 mm" in run("--units", "si", "cooling", BIPLANE).stdout


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "cooling", airplane)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_clearance_that_is_lost_is_less_and_one_gained_is_more(run):
    found = json.loads(run("cooling", "tollgate", "--json").stdout)["cases"]
    lines = run("--units", "si", "cooling", "tollgate").stdout.splitlines()
    assert {case["clearance_lost_m"] < 0.0 for case in found} == {True, False}
    for case in found:
        (line,) = (each for each in lines if each.strip().startswith(case["name"]))
        change_mm = float(line.split()[-2].replace("\N{MINUS SIGN}", "-"))
        assert change_mm == pytest.approx(-1000.0 * case["clearance_lost_m"], rel=0.05)
