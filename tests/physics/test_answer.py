"""Every answer: JSON that any reader takes, rows for a data frame, a notebook's table, and its cautions on each."""

import json
from dataclasses import dataclass
from html.parser import HTMLParser
from typing import ClassVar

import numpy as np
import pytest
from shared import answer

from sim.answer import Answer
from sim.answer_html import MOST_ROWS
from sim.sweeps.grid import sweep
from sim.sweeps.registry import STUDIES
from sim.units.quantities import caution


@dataclass(frozen=True, slots=True)
class Row:
    name: str
    mass_kg: float


@dataclass(frozen=True, slots=True)
class Whole(Answer):
    title: str
    rows: tuple[Row, ...]
    by_name: dict[str, float]


@dataclass(frozen=True, slots=True)
class Engine:
    kind: str
    turns: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Nested(Answer):
    main: ClassVar[str] = "engines.turns"

    speed_m_s: float
    engines: dict[str, Engine]


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


@pytest.mark.parametrize("name", STUDIES)
def test_every_study_can_be_shown(name):
    made = answer(name)
    assert isinstance(made, Answer)
    assert tags(made._repr_html_()) <= {"table", "tr", "th", "td", "p"}


def test_json_has_no_nan_no_arrays_and_no_empty_cautions():
    whole = Whole("any", (Row("engine", float("inf")),), {"x": np.array([1.0, float("nan")])})
    assert json.loads(whole.to_json()) == {
        "title": "any",
        "rows": [{"name": "engine", "mass_kg": None}],
        "by_name": {"x": [1.0, None]},
    }


def test_an_answer_without_a_main_table_is_one_row_with_dotted_names():
    whole = Whole("any", (Row("engine", 172.8), Row("wing", 90.0)), {"x": 1.0})
    assert whole.records() == [
        {
            "title": "any",
            "rows.1.name": "engine",
            "rows.1.mass_kg": 172.8,
            "rows.2.name": "wing",
            "rows.2.mass_kg": 90.0,
            "by_name.x": 1.0,
        }
    ]


def test_each_row_says_where_it_stands():
    engines = {"rotary": Engine("nine", (Row("left", 1.0), Row("right", 2.0))), "flat": Engine("four", ())}
    assert Nested(30.0, engines).records() == [
        {"engine": "rotary", "kind": "nine", "name": "left", "mass_kg": 1.0},
        {"engine": "rotary", "kind": "nine", "name": "right", "mass_kg": 2.0},
    ]


def test_the_rows_of_handling_are_its_turns():
    made = answer("handling")
    rows = made.records()
    assert len(rows) == sum(len(own.turns) for own in made.powerplants.values())
    turn = made.powerplants["rotary"].turns[0]
    assert rows[0]["powerplant"] == "rotary"
    assert rows[0]["bank_deg"] == turn.bank_deg
    assert rows[0]["gyro_pitch_n_m"] == turn.gyro_pitch_n_m


def test_the_rows_of_a_sweep_go_by_the_keys_asked():
    found = sweep(vary=["wing.span=26ft:28ft:2"], collect=["speeds.stall_m_s"])
    assert [row["wing.span"] for row in found.records()] == [7.9248, 8.5344]
    assert all(row["speeds.stall_m_s"] > 10.0 and row["reason"] == "" for row in found.records())
    assert found.cautions == (caution("estimate"),)


CAUTIONS = {
    **dict.fromkeys(("handling", "modes", "derivatives", "speeds", "maneuver.pull"), ("shop", "estimate")),
    **dict.fromkeys(("summary", "propeller"), ("estimate",)),
    "balance": ("shop", "estimate"),
    "layout": ("shop",),
    "mount": ("shop", "structure"),
    **dict.fromkeys(("windows", "rate", "safe_range", "burst", "cooling"), ("history",)),
    "compare": ("history", "shop", "estimate"),
    "exhibit": ("history", "inert", "gun", "guard", "estimate"),
}


@pytest.mark.parametrize("name", CAUTIONS)
def test_a_study_bears_the_cautions_of_its_quantities(name):
    made = answer(name)
    texts = list(map(caution, CAUTIONS[name]))
    assert list(made.cautions) == texts
    whole = json.loads(made.to_json())
    assert list(whole)[-1] == "cautions"
    assert whole["cautions"] == texts
    assert made._repr_html_().endswith(f"<p>{texts[-1]}</p>")
