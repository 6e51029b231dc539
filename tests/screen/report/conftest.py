"""The frozen biplane's report, written once for all tests, and a reader of pages."""

import re
from html.parser import HTMLParser

import pytest
from airplanes import BIPLANE
from click.testing import CliRunner

from viz.cli import main
from viz.report.findings import Findings

EMPTY = {"meta", "br", "img", "link", "input", "hr", "path", "use", "rect"}


class Page(HTMLParser):
    """A page as its elements: (tag, attributes, text directly inside), in order; unclosed ones are told."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str], list[str]]] = []
        self.open: list[int] = []
        self.wrong: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs), []))
        if tag not in EMPTY:
            self.open.append(len(self.elements) - 1)

    def handle_endtag(self, tag):
        if tag in EMPTY:
            return
        if not self.open or self.elements[self.open[-1]][0] != tag:
            self.wrong.append(tag)
        else:
            self.open.pop()

    def handle_data(self, data):
        for place in self.open:
            self.elements[place][2].append(data)

    def all(self, *tags: str):
        """Return attributes and text of every element of these tags."""
        return [(attributes, " ".join("".join(text).split())) for tag, attributes, text in self.elements if tag in tags]

    @property
    def tags(self) -> set[str]:
        return {tag for tag, _, _ in self.elements}


@pytest.fixture(scope="session")
def read():
    return Page


@pytest.fixture(scope="session")
def airplane(tmp_path_factory):
    """Return the frozen biplane with few of its ±: the report asks every answer again for each."""
    text = BIPLANE.read_text(encoding="utf-8")
    few = re.sub(rf'^(?!{"|".join(TOLERANCED)})(.*) ±[^"\n]*"', r'\1"', text, flags=re.MULTILINE)
    path = tmp_path_factory.mktemp("airplane") / "biplane.toml"
    path.write_text(few, encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def reported(tmp_path_factory, airplane):
    """Return the folder with report.html, report.pdf and handout.html of the frozen biplane, and their findings."""
    folder, kept = tmp_path_factory.mktemp("report"), []

    class Kept(Findings):
        def __init__(self, *given, **named):
            super().__init__(*given, **named)
            kept.append(self)

    words = [word for name in ("out", "pdf", "handout") for word in (f"--{name}", str(folder / NAMES[name]))]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("viz.report.findings.Findings", Kept)
        patch.setattr("viz.report.drawings.cores", lambda: 2)
        done = CliRunner().invoke(main, ["report", str(airplane), *words])
    assert done.exit_code == 0, done.output
    (found,) = kept
    return folder, found


@pytest.fixture(scope="session")
def files(reported):
    return reported[0]


TOLERANCED = ('mass = "1400', 'arm = "-2 in', 'polar_inertia = "106', 'scale = "')
"""How the lines begin that keep their ±: the gross weight, the wing's arm, the swung propeller, the scales."""
NAMES = {"out": "report.html", "pdf": "report.pdf", "handout": "handout.html"}


@pytest.fixture(scope="session")
def text(files):
    return (files / "report.html").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def page(text):
    return Page(text)
