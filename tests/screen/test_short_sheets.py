"""The sheets of timing: the answer within 25 lines, with the rest behind ``--all``."""

import pytest

MOST_LINES = 25
ADDED = {
    "windows": "Open: duration of one window.",
    "rate": "Plateau: speeds over which rounds and blades keep one ratio",
    "burst": "Time between rounds of one gun, range",
    "safe-range": "Clearance: angle from the nearest round to the blade and its margin",
}


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("command", ADDED)
def test_the_bundled_airplane_is_answered_within_25_lines(run, command, units):
    fewer = ("--rounds", 20_000) if command == "burst" else ()
    short = run("--units", units, command, "tollgate", *fewer).stdout
    whole = run("--units", units, command, "tollgate", *fewer, "--all").stdout
    assert len(short.splitlines()) <= MOST_LINES < len(whole.splitlines())
    assert ADDED[command] not in " ".join(short.split())
    assert ADDED[command] in " ".join(whole.split())


def test_rounds_that_meet_a_blade_are_said_before_the_table(run):
    """Behind the flat four, whose lead at 2600 rpm is twice that the cam is cut for."""
    told, table = run("windows", "tollgate").stdout.split("Firing windows")
    assert "At 2600 rpm some rounds of each window strike a blade; 34.8° earlier all would clear it." in " ".join(
        told.split()
    )
    assert "strikes" in table


def test_the_widest_plateaus_of_both_engines_stand_in_one_table(run):
    shown = run("rate", "tollgate").stdout
    rows = [line.split()[0] for line in shown.splitlines() if line.split()[2:3] == [":"] and line.split()[1].isdigit()]
    assert rows == ["rotary"] * 3 + ["flat_four"] * 3
