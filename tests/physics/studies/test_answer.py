"""In a notebook every answer is a table: units, meanings, no NaN, and nothing that a text could smuggle in."""

from dataclasses import dataclass
from html.parser import HTMLParser

import pytest

from sim.scenario.reading import load
from sim.studies.answer import MOST_ROWS, Answer
from sim.sweep.registry import QUESTIONS


@dataclass(frozen=True, slots=True)
class Row:
    name: str
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Whole(Answer):
    title: str
    rows: tuple[Row, ...]
    by_name: dict[str, float]


class Tags(HTMLParser):
    """Keeps what is open, and what was ever opened."""

    def __init__(self):
        super().__init__()
        self.open, self.seen = [], set()

    def handle_starttag(self, tag, attrs):
        self.open.append(tag)
        self.seen.add(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def tags(html: str) -> set[str]:
    parser = Tags()
    parser.feed(html)
    assert not parser.open
    return parser.seen


def test_numbers_carry_unit_and_meaning():
    html = Whole("any", (Row("engine", 172.8),), {"x": float("nan")})._repr_html_()
    assert '<th scope="row" title="mass">mass_kg [kg]</th>' in html
    assert "<td>172.8</td>" in html
    assert "nan" not in html


def test_texts_cannot_be_markup():
    html = Whole("<script>alert('x')</script>", (Row('"><b>', 1.0),), {"<i>": 1.0})._repr_html_()
    assert tags(html) <= {"table", "tr", "th", "td", "p"}
    assert "&lt;script&gt;" in html


def test_a_long_list_is_cut():
    html = Whole("any", tuple(Row("r", 1.0) for _ in range(MOST_ROWS + 5)), {})._repr_html_()
    assert html.count("<td>r</td>") == MOST_ROWS
    assert "<p>and 5 more</p>" in html


@pytest.mark.parametrize("name", QUESTIONS)
def test_every_study_can_be_shown(name):
    answer = QUESTIONS[name](load("tollgate"))
    assert isinstance(answer, Answer)
    assert tags(answer._repr_html_()) <= {"table", "tr", "th", "td", "p"}
