"""``balance``: keys, moves in words, what is written into the scenario, and wrong input refused."""

import pytest

from sim.scenario.reading import load


def test_the_keys_of_balance(answered):
    found = answered("balance")
    assert {
        "mass_kg",
        "cg_station_m",
        "cg_percent_mac",
        "inertia_kg_m2",
        "target_station_m",
        "engine_move_m",
        "cg_per_half_inch_percent_mac",
        "envelope",
    } <= set(found)
    assert {"xx", "yy", "zz", "xz"} <= set(found["inertia_kg_m2"])
    assert set(found["envelope"][0]) == {"name", "mass_kg", "cg_station_m", "cg_percent_mac", "inside"}


def test_moves_are_said_in_words(run):
    shown = " ".join(run("balance").stdout.split())
    assert "move the engine 0.56 in forward" in shown
    assert "6.63 in forward to 1.93 in aft of the drawn place keeps every loading within the limits" in shown
    assert "Tail ballast cannot do it: none is placed, or the CG must come forward." in shown
    aft = " ".join(run("balance", "--set", "balance.target=30 %").stdout.split())
    assert "3.10 in aft" in aft
    assert "Tail ballast instead: 8.1 lb." in aft


def test_limits_that_no_engine_position_serves(run):
    shown = run("balance", "--set", "balance.forward_limit=27 %", "--set", "balance.aft_limit=29 %").stdout
    assert "OUTSIDE" in shown
    assert "no position of the engine keeps every loading within the limits" in " ".join(shown.split())


def test_the_items_are_listed_when_asked(run):
    assert "tail surfaces (past builds)" not in run("balance").stdout
    assert "tail surfaces (past builds)" in run("balance", "--items").stdout


@pytest.mark.parametrize(("units", "mass"), [("us", '"1394.5 lb ± 10 lb"'), ("si", '"632.54 kg ± 4.6 kg"')])
def test_balance_writes_what_it_settles_and_leaves_the_rest(answered, scenario, units, mass):
    before = scenario.read_text(encoding="utf-8")
    old, found = load(scenario), answered("--units", units, "balance", scenario, "--write", scenario)
    after = scenario.read_text(encoding="utf-8")
    changed = [row for row, was in zip(after.split("\n"), before.split("\n"), strict=True) if row != was]
    assert len(changed) == 10
    assert changed[0] == f"mass = {mass}"
    columns = [[row.find("#") for row in text.split("\n") if row.startswith("inertia_y")] for text in (before, after)]
    assert columns[0] == columns[1]
    new = load(scenario)
    assert new.airplane.mass_kg == pytest.approx(found["mass_kg"], rel=1e-4)
    assert new.airplane.inertia_yaw_kg_m2 == pytest.approx(found["inertia_kg_m2"]["zz"], rel=1e-4)
    apart = [scenario.tailplane.arm_m - scenario.wing.arm_m for scenario in (old, new)]
    assert apart[0] == pytest.approx(apart[1], abs=2e-4)
    assert new.airplane.inertia_product_kg_m2 == pytest.approx(found["inertia_kg_m2"]["xz"], rel=1e-4)
    flown = new.powerplant["flat_four"]
    assert found["cg_station_m"] - flown.propeller.arm_m == pytest.approx(flown.propeller.station_m, abs=1e-4)
    below_m = found["cg_waterline_m"] - new.balance.thrust_line_m
    assert flown.thrust_arm_m == pytest.approx(
        below_m, rel=1e-4
    )  # positive: the shaft lies below the centre of gravity


REFUSED = {
    ("--powerplant", "rotery"): (
        '--powerplant: must be one of rotary, flat_four, got "rotery"; did you mean rotary?\n'
    ),
    ("--set", "item.pilot.mass=-190 lb"): ('--set item.21.mass: must be 0 to 220460 lb, got "-190 lb"\n'),
    ("--set", "weighing.reading.3.scale=6 lb"): (
        'weighing.reading: tail at level must be above 0 after tare, got "-1.1 kg (-2.5 lb)": the centre of '
        "gravity would lie outside the wheels; check the reading and its tare\n"
    ),
}


@pytest.mark.parametrize("words", REFUSED)
def test_wrong_input_is_refused(run, words):
    result = run("balance", *words)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", REFUSED[words])
