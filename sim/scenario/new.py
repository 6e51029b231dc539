"""A scenario to start from: the text of the bundled one with its comments."""

from __future__ import annotations

from sim.scenario.bundled import fetch
from sim.scenario.reading import DEMO


def new() -> str:
    """Return the text of a commented scenario that passes `check`."""
    return fetch(DEMO).text
