"""The handbook's pages: everything has its place, nothing on them is stale, nothing is fetched from a network."""

import re
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest

from sim.interface import NAMES
from sim.scenario.schema import schema
from viz.cli import COMMANDS
from viz.handbook.making.examples import FENCE, StaleExampleError, filled
from viz.handbook.making.site import CONTENTS, MADE, build, pages


@pytest.fixture(scope="module")
def every():
    return pages()


def test_every_page_has_its_place_in_the_contents_and_the_reverse(every):
    named = {"index.md"} | {f"{name}.md" for names in CONTENTS.values() for name in names}
    assert set(every) == named
    assert not any(MADE in text for text in every.values())


def test_every_command_has_a_page_with_each_of_its_options(every, run):
    for name in COMMANDS:
        page = every[f"commands/{name}.md"]
        told = re.sub(r"-\n +", "-", run(name, "--help").output)
        options = set(re.findall(r"--[a-z][a-z-]+", told))
        assert options <= set(re.findall(r"--[a-z][a-z-]+", page)), name
        assert "whirlgate " in page.split("## Example", 1)[1]
        assert f"]({name}.md)" in every["commands/index.md"]


def test_neither_a_window_opens_nor_the_handbook_makes_itself_as_its_pages_are_made(every):
    lines = [line for text in every.values() for block in FENCE.finditer(text) for line in block["lines"].splitlines()]
    assert len(lines) > 70
    assert all(line.startswith("whirlgate ") for line in lines)
    assert not [line for line in lines if line.startswith("whirlgate handbook")]
    assert all("--snapshot" in line or "--help" in line for line in lines if line.startswith("whirlgate view"))


def test_every_key_has_a_row_in_the_table_of_its_table(every):
    """By the schema, walked again from its roots: each property of each object that can be reached."""
    text = every["keys.md"]
    for named, part in zip(
        ({}, {"drawing": True}, {"exhibit": True}), re.split(r"^## ", text, flags=re.MULTILINE)[1:], strict=True
    ):
        whole = schema(**named)
        for one in (whole, *whole.get("$defs", {}).values()):
            for key, found in one.get("properties", {}).items():
                row = f"| `{key}` | {' '.join(found.get('description', '').split())}"
                headed = re.search(rf"^### (.*\.)?{key}\b", part, re.MULTILINE)
                assert row in part.replace("\\|", "|") or headed, (named, key)


def test_every_function_has_an_entry(every):
    assert set(re.findall(r"^## sim\.(\w+)$", every["python.md"], re.MULTILINE)) == set(NAMES)


def test_commands_on_a_page_are_run_and_followed_by_what_they_answer_and_draw(tmp_path):
    lines = "whirlgate new a.toml\nwhirlgate windows a.toml --figure w.svg\n"
    made = filled(f"Before\n\n```whirlgate A couple\n{lines}```\n\nBehind\n", tmp_path / "page")
    assert made.startswith("Before\n\n```console\n$ whirlgate new a.toml\n```")
    assert "It writes [a.toml](page/a.toml)." in made
    assert made.endswith("![A couple](page/w.svg)\n\nBehind\n")
    assert "Next: whirlgate" in made
    assert (tmp_path / "page" / "w.svg").read_text(encoding="utf-8").startswith("<?xml")


def test_what_is_refused_stands_with_its_sentences_where_that_is_meant(tmp_path):
    line = "whirlgate speeds --set wing.cord='4 ft'\n```\n"
    assert "did you mean" in filled(f"```whirlgate-refused\n{line}", tmp_path / "page")
    with pytest.raises(StaleExampleError, match=r"speeds --set wing\.cord.*ends with 2"):
        filled(f"```whirlgate\n{line}", tmp_path / "page")
    with pytest.raises(StaleExampleError, match="ends with 0"):
        filled("```whirlgate-refused\nwhirlgate couple --help\n```\n", tmp_path / "page")


def test_without_what_sets_the_pages_a_sentence_says_how_to_get_it(run, monkeypatch, tmp_path):
    """At once, before the commands are run."""
    monkeypatch.setattr("viz.handbook.making.site.pages", None)
    monkeypatch.setitem(sys.modules, "mkdocs.config", None)
    shown = run("handbook", "--out", tmp_path / "pages")
    assert shown.exit_code == 2
    assert 'pip install "whirlgate[handbook]"' in " ".join(shown.stderr.split())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("words", [(), ("--force",)])
def test_a_folder_with_something_else_in_it_is_left_alone(run, tmp_path, words):
    (tmp_path / "kept.txt").write_text("mine")
    shown = run("handbook", "--out", tmp_path, *words)
    assert shown.exit_code == 2
    assert "holds something else than a handbook; give another folder" in " ".join(shown.stderr.split())
    assert (tmp_path / "kept.txt").read_text() == "mine"


def test_a_handbook_is_replaced_when_asked_and_is_made_once_to_be_opened(run, tmp_path, monkeypatch):
    made, opened = [], []
    monkeypatch.setattr("viz.handbook.making.site.build", lambda folder, _: made.append(folder))
    monkeypatch.setattr("click.get_app_dir", lambda _: str(tmp_path / "app"))
    monkeypatch.setattr("click.launch", opened.append)
    pages = tmp_path / "pages"
    pages.mkdir()
    (pages / "keys.html").write_text("old")
    assert run("handbook", "--out", pages).exit_code == 2
    assert run("handbook", "--out", pages, "--force").exit_code == 0
    assert (made, opened) == ([pages], [])
    run("handbook")
    own = made[1]
    assert own.is_relative_to(tmp_path / "app")
    assert opened == [str(own / "index.html")]
    own.mkdir(parents=True)
    (own / "keys.html").write_text("made")
    run("handbook")
    assert len(made) == 2
    assert len(opened) == 2


class Links(HTMLParser):
    """What a page loads, where it leads, and its pictures."""

    def __init__(self):
        super().__init__()
        self.loaded, self.led, self.pictures = [], [], []

    def handle_starttag(self, tag, attrs):
        found = dict(attrs)
        if tag == "script" or (tag == "link" and found.get("rel") not in ("canonical", "next", "prev")):
            self.loaded.append(found.get("src") or found.get("href") or "")
        elif tag == "img":
            self.pictures.append((found["src"], found.get("alt")))
        elif tag == "a" and found.get("href"):
            self.led.append(found["href"])


QUICK = ("index", "compare", "windows", "layout", "disc", "couple", "scale", "check", "new", "view")
"""Pages whose commands are run in the test of the whole: those of all take minutes."""


@pytest.mark.slow
def test_the_whole_handbook_is_made_opens_from_a_disk_and_fetches_nothing(tmp_path):
    """Strictly: a broken link is an error of the build."""
    folder = tmp_path / "pages"
    build(folder, runs=lambda name: Path(name).stem in QUICK)
    seen = {}
    for path in folder.rglob("*.html"):
        links = Links()
        links.feed(path.read_text(encoding="utf-8"))
        assert not [one for one in links.loaded if re.match(r"(https?:)?//", one)], path
        for picture, told in links.pictures:
            file = (path.parent / picture).resolve()
            assert file.stat().st_size > 2000
            assert told
            seen[file] = told
    assert {file.parent.name for file in seen} >= {"compare", "windows", "layout", "disc", "scale", "view", "index"}
    assert "Angular momentum" in (folder / "commands" / "compare.html").read_text(encoding="utf-8")
    shown = re.sub(r"<[^>]+>", "", (folder / "commands" / "maneuver.html").read_text(encoding="utf-8"))
    assert "$ whirlgate maneuver reversal" in shown


@pytest.mark.parametrize("name", [*COMMANDS, ""])
def test_options_of_the_commands_on_a_page_are_there(every, run, name):
    """Of a command's own page, and of those by hand: no option is left that the command does not have."""
    texts = (
        [every[f"commands/{name}.md"]] if name else [text for page, text in every.items() if "commands/" not in page]
    )
    for block in (block for text in texts for block in FENCE.finditer(text) if not block["refused"]):
        for line in block["lines"].splitlines():
            asked = re.match(r"whirlgate (--units \w+ )?([\w-]+)", line)[2]
            words = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", line)) - {"--units"}
            told = re.sub(r"-\n +", "-", run(asked, "--help").output)
            assert words <= set(re.findall(r"--[a-z][a-z-]+", told)), line
