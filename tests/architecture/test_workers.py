"""The files that come first, or share a worker, are there: a name that has changed would be given no place."""

from pathlib import Path

import pytest
import workers

ROOT = Path(__file__).parents[2]
NAMED = {*workers.LONGEST, *(start for starts in workers.TOGETHER.values() for start in starts)}


@pytest.mark.parametrize("start", sorted(NAMED))
def test_there_are_tests_whose_names_begin_so(start):
    assert [*ROOT.glob(f"{start}*.py")]


def test_the_books_share_a_worker_and_other_drawings_do_not():
    scope = workers.Files._split_scope
    files = ("test_book.py", "test_book_use.py", "test_templates.py", "test_dxf.py")
    scopes = [scope(None, f"tests/screen/drawings/{file}::test_one") for file in files]
    assert scopes[0] == scopes[1] == scopes[2] != scopes[3]
