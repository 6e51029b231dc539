"""What sheets say of results beyond the range of validity: a star at the row, the bound below, and the table of all."""

import pytest
from airplanes import BIPLANE

from sim.flight.validity import BOUNDS
from viz.sheets.blocks import Value
from viz.sheets.terminal import write
from viz.sheets.validity import outside, range_of_validity, starred


def told(text: str) -> str:
    return " ".join(text.split())


def test_rows_of_handling_are_marked_as_its_answer_says(run, answered):
    found = answered("handling", "--speed", "51 mph")["powerplants"]
    text = run("handling", "--speed", "51 mph").stdout
    for name, powerplant in found.items():
        table = text.partition(f"{name}: steady turns")[2].partition("Steepest")[0]
        lines = [
            line for line in table.splitlines() if "left  " in line[:14] or "right " in line[:14] or "level" in line
        ]
        assert [line.endswith("*") for line in lines] == [bool(turn["beyond"]) for turn in powerplant["turns"]]
        assert any(line.endswith("*") for line in lines)
        assert not all(line.endswith("*") for line in lines)
    assert "* Outside the range of validity, indicative only: stall (" in told(text)


def test_sheets_within_the_range_say_nothing(run):
    for command in ("handling", "compare", "modes", "derivatives", "speeds"):
        assert "range of validity" not in told(run(command).stdout)


def test_derivatives_below_the_stall_say_so_and_from_where_on_the_airplane_flies(run, answered):
    found = answered("derivatives", "--speed", "30 mph")
    text = told(run("--units", "si", "derivatives", "--speed", "30 mph").stdout)
    assert f"Below the stall: level flight at 13.4 m/s requires CL {found['lift_level']:.2f}" in text
    assert f"The airplane flies level from {found['stall_m_s']:.1f} m/s on." in text
    assert "Level flight is outside the range of validity, indicative only: stall (" in text
    assert found["beyond"] == ["stall"]


def test_modes_near_the_stall_say_so_under_their_table(run):
    text = told(run("modes", "--speed", "38 mph").stdout)
    assert text.count("This flight is outside the range of validity, indicative only: stall (") == 2


def test_speeds_beyond_a_bound_have_a_star(run):
    asked = ("--set", "powerplant.flat_four.propeller.diameter=88 in")
    slow = ("--set", "powerplant.flat_four.propeller.pitch=40 in")
    text = run("speeds", *asked, *slow).stdout
    line = next(line for line in text.splitlines() if "top speed" in line)
    assert line.rstrip().endswith("*")
    assert "tip Mach (Mach number of the blade tips, valid up to 0.85; not computed:" in told(text)


def test_each_bound_is_told_once_in_the_order_of_the_table():
    (sentence,) = outside([("Mach",), ("stall", "Mach"), ()])
    text = told(write([sentence], "us"))
    assert text.index("stall (") < text.index("Mach (")
    assert text.count("Mach (") == 1
    assert list(outside([(), ()])) == []


def test_the_star_is_behind_the_cell():
    assert told(write([starred(Value("speed_m_s", 10.0), ("Mach",))], "si")) == "10.0 m/s *"
    assert starred("–", ()) == "–"


@pytest.mark.parametrize(("units", "altitude"), [("us", "-6561.7 ft to 36089 ft"), ("si", "-2000 m to 11000 m")])
def test_the_table_of_bounds_has_all_of_them_with_their_sources(units, altitude):
    table = range_of_validity()
    assert table.columns[0].cells == tuple(one.name for one in BOUNDS)
    columns = {column.head: column.cells for column in table.columns}
    assert all(columns["Source"])
    ranges = [told(write([cell], units)) for cell in columns["Valid"]]
    assert ranges[1:3] == ["up to 15° either way", "up to 10° either way"]
    assert ranges[-1] == altitude
    assert len(ranges) == len(BOUNDS)


def test_compare_marks_its_turns(run):
    text = run("compare", BIPLANE, "--set", "flight.speed=57 mph").stdout
    assert "*" in text.partition("Level turns")[2].partition("At the shaft speed")[0]
