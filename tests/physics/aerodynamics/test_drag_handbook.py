"""The handbook's page on drag prints what it says it prints, and its table of kinds is that of the code."""

import doctest
from pathlib import Path

import viz
from sim.aerodynamics.drag_kinds import KINDS

PAGE = Path(viz.__file__).parent / "handbook" / "drag.md"


def test_the_examples_print_what_the_page_says():
    found = doctest.testfile(str(PAGE), module_relative=False)
    assert (found.failed, found.attempted >= 5) == (0, True)


def amount(number):
    return f"{number.value:g} ± {number.band:g}" if number.band else f"{number.value:g}"


def test_the_table_of_kinds_is_that_of_the_code():
    rows = [line.strip("| ").split(" | ") for line in PAGE.read_text(encoding="utf-8").splitlines() if "| `" in line]
    assert rows == [
        [
            f"`{name}`",
            kind.meaning,
            " × ".join(kind.sides),
            amount(kind.part_coefficient),
            amount(kind.interference),
            kind.source,
        ]
        for name, kind in KINDS.items()
    ]
