"""The handbook's page on strips prints what it says it prints."""

import doctest
from pathlib import Path

import viz

PAGE = Path(viz.__file__).parent / "handbook" / "strips.md"


def test_every_example_on_the_page_gives_what_is_printed_there():
    result = doctest.testfile(str(PAGE), module_relative=False)
    assert result.failed == 0
    assert result.attempted > 10
