"""The handbook's notebooks run from top to bottom, and what their cells show stands on their pages."""

import re

import pytest

from viz.handbook.making.notebooks import pages, ran, unrun

PAGES = pages()


@pytest.mark.parametrize("name", PAGES)
def test_a_notebook_runs_and_its_page_shows_what_its_cells_do(name, tmp_path):
    folder = tmp_path / "page"
    made = ran(PAGES[name], folder)
    pictures = re.findall(r"!\[[^\]]{20,}\]\(page/([^)]+)\)", made)
    assert len(pictures) + made.count("```text") + made.count('<div class="sheet">') >= 3
    assert pictures
    assert all("</svg>" in (folder / picture).read_text(encoding="utf-8") for picture in pictures)
    assert unrun(PAGES[name]).count("```python") == made.count("```python")
    assert "whirlgate-python" not in made + unrun(PAGES[name])


def test_blocks_of_one_page_share_their_names(tmp_path):
    text = "One\n\n```whirlgate-python\na = 6\n```\n\nTwo\n\n```whirlgate-python\nb = 7\na * b\n```\n"
    made = "One\n\n```python\na = 6\n```\n\nTwo\n\n```python\nb = 7\na * b\n```\n\n```text\n42\n```\n"
    assert ran(text, tmp_path) == made


def test_every_user_has_one():
    assert set(PAGES) == {f"notebooks/{name}.md" for name in ("designer", "educator", "builder")}
