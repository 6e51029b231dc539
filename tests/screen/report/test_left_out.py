"""A scenario without some tables gets its report all the same, with a sentence where something is left out."""

from pathlib import Path

import pytest

from sim.scenario.reading import load
from viz.report.answers import answers
from viz.report.build import SECTIONS, told
from viz.report.findings import Findings
from viz.sheets.text import text_of

LEAST = Path(__file__).parents[2] / "scenarios/valid/least.toml"


@pytest.fixture(scope="module")
def found():
    return Findings(load(LEAST), "si", called=str(LEAST))


def part(name):
    """Return the part of the report of that name."""
    (wanted,) = [part for _, _, parts in SECTIONS for part in parts if part.__name__ == name]
    return wanted


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("mount", "Left out: mount: is missing; give the table mount with firewall and bolts."),
        (
            "weight",
            "Left out: balance: is missing: the table with forward_limit and aft_limit is needed to balance.",
        ),
        (
            "display",
            "Left out: the scenario has no [exhibit] table; copy the one of the tollgate scenario and change it.",
        ),
        ("cooling", "Left out: warmth: is missing; the table of the receiver, as in the bundled scenario tollgate."),
    ],
)
def test_what_is_left_out_and_why(found, name, sentence):
    (block,) = told(part(name), found)
    assert text_of(block, "us") == sentence


def test_an_interrupter_without_a_cam_has_no_safe_range_and_impulses_have_one(found):
    held = Findings(load(LEAST, ["gun.action=interrupter"]), "si", called=str(LEAST))
    (block,) = told(part("safe_range"), held)
    assert text_of(block, "us") == "Left out: dwell_deg: is missing; give it, or the table cam of the scenario."
    assert found.safe_range.dwell_deg == 0.0


def test_answers_stay_five_each(found):
    said = list(answers(found))
    assert [len(answer.sentences) for answer in said] == [5, 5, 5]
    assert (
        text_of(said[0].sentences[3], "us")
        == "No answer here: mount: is missing; give the table mount with firewall and bolts."
    )
    assert all(text_of(sentence, "us").endswith(".") for answer in said for sentence in answer.sentences)


@pytest.mark.slow
def test_a_whole_report_of_it(run, read, tmp_path):
    out = tmp_path / "least.html"
    assert run("report", LEAST, "--out", out).exit_code == 0
    page = read(out.read_text(encoding="utf-8"))
    assert page.wrong == []
    assert "Left out: mount: is missing" in page.all("main")[0][1]
