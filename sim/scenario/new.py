"""A scenario or a drawing to start from: the text of the bundled one with its comments."""

from __future__ import annotations

from sim.scenario.bundled import fetch
from sim.scenario.drawing import SHELF
from sim.scenario.reading import DEMO


def new(*, drawing: bool = False) -> str:
    """Return the text of a commented scenario, or of a drawing to be scaled, that passes `check`."""
    return fetch(DEMO, SHELF if drawing else "").text
