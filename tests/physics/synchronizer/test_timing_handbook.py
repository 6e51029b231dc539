"""The handbook's page on timed guns prints what it says it prints, and names every cause that a disc may show."""

import doctest
from pathlib import Path

import viz
from sim.synchronizer.disc_causes import LIKELY, LINE_WRONG
from sim.synchronizer.disc_guesses import HANGS, MISREADS, SPEED_SHARES

PAGE = Path(viz.__file__).parent / "handbook" / "timing.md"


def test_every_example_on_the_page_gives_what_is_printed_there():
    result = doctest.testfile(str(PAGE), module_relative=False)
    assert result.failed == 0
    assert result.attempted > 6


def test_the_guesses_on_the_page_are_those_of_the_code():
    said = " ".join(PAGE.read_text(encoding="utf-8").split())
    assert f"hang-fires have {HANGS:.0%}".replace("%", " %") in said
    assert f"misread marks {MISREADS:.0%}, shared errors {1.0 - SPEED_SHARES[0.0]:.0%}".replace("%", " %") in said
    assert f"a wrong cam and a wrong slope {LINE_WRONG[0]:.0%} each".replace("%", " %") in said
    assert f"named from {LIKELY:.0%} on".replace("%", " %") in said
