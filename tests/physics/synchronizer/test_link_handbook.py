"""The handbook's page on links prints what it says it prints."""

import doctest
from pathlib import Path

import viz


def test_every_example_on_the_page_gives_what_is_printed_there():
    page = Path(viz.__file__).parent / "handbook" / "link.md"
    result = doctest.testfile(str(page), module_relative=False)
    assert result.failed == 0
    assert result.attempted == 13
