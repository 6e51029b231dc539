"""Sheets of weight, mount, drag, speeds and derivatives in an invented language: nothing in them was not looked up."""

import re
from dataclasses import fields
from importlib import import_module

import pytest

import sim
from sim.aerodynamics.forces import Derivatives
from sim.model.model import model
from sim.scenario.reading import load
from sim.units.quantities import known, quantity
from tests.screen.words.invented import asked, invented, unmarked
from viz.report.answers import READERS
from viz.report.build import AGAINST, SECTIONS
from viz.report.findings import SENSITIVITY_OF
from viz.report.sections.against import STUDIES
from viz.report.sections.closing import ASSUMED
from viz.sheets.complete import complete
from viz.sheets.html import write

SCENARIOS = ("tollgate", "tests/fixtures/lopsided.toml")
ASKED = {
    "balance": sim.balance,
    "mount": sim.mount,
    "drag": sim.drag,
    "speeds": sim.speeds,
    "derivatives": sim.derivatives,
}
KEY = re.compile(r"\b[a-z]\w*(?:\.\w+)+|\[\[item\]\]")
DERIVATIVE = re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b")
COMMAND = re.compile(r"<code>.*?</code>|<[^>]+>", re.DOTALL)
SHORT = ("Ixz", "MPa", "rad", *(quantity(one.name).symbol for one in fields(Derivatives) if known(one.name)))
"""Units, and the symbols of derivatives."""
SOURCES = ("bolt steel", "mild steel", "4130 normalised", "4130 welded", "as given")
"""Materials, by the names with which a scenario asks for them."""


def names(scenario):
    """Return what the user has named: engines, items and their groups, supports, bolts, tubes, parts."""
    found = {scenario.title, *scenario.powerplant, *SOURCES}
    found |= {word for item in scenario.item for word in (item.name, item.group)}
    found |= {f"{name} propeller" for name in scenario.powerplant} | set(scenario.drag.part)
    if scenario.mount:
        found |= {*scenario.mount.bolt, *scenario.mount.node, *scenario.mount.tube, *scenario.mount.clearance}
        found |= {scenario.mount.isolators.source} if scenario.mount.isolators else set()
    if scenario.weighing:
        found |= {*scenario.weighing.support, *(one.attitude for one in scenario.weighing.reading)}
    if scenario.balance:
        found |= set(scenario.balance.ballast)
    return {*found, *(name.replace("_", " ") for name in found)}


@pytest.mark.parametrize("scenario", SCENARIOS)
@pytest.mark.parametrize("study", ASKED)
def test_a_sheet_says_nothing_that_was_not_looked_up(monkeypatch, scenario, study):
    answer = ASKED[study](model(scenario))
    written = import_module(f"viz.sheets.{study}").sheet
    blocks = written(answer, items=True) if study == "balance" else written(answer)
    with invented(monkeypatch):
        page = write([block for block in complete(blocks) if type(block).__name__ != "Next"], "si")
    text = KEY.sub(" ", COMMAND.sub(" ", page))
    for name in sorted(names(load(scenario)), key=len, reverse=True):
        text = text.replace(name, " ")
    assert unmarked(DERIVATIVE.sub(" ", text), SHORT) == []


def test_headings_questions_and_assumptions_of_a_report_have_words():
    said = [heading for _, heading, _ in (*SECTIONS, AGAINST)]
    said += [text for reader, question, _ in READERS for text in (reader, question)]
    said += [name for _, _, name in SENSITIVITY_OF] + [title for title, _ in STUDIES]
    said += [cell for row in ASSUMED for cell in row]
    assert [text for text in said if text not in asked()] == []
