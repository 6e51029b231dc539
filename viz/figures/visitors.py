"""The airplane from three sides for visitors: as on the first page of a report, with the words of their language."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from viz.figures.three_view import drawn

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.drawing_answer import DrawingAnswer
    from viz.sheets.format import Units

WIDE_IN, POINTS = 5.0, 14.0
"""As narrow as lets words be read on a phone, with letters that are still large on a page with other pictures."""


@dataclass(frozen=True, slots=True)
class ForVisitors:
    """An airplane and what stands beside it; its cautions stand on the page, in the language of the page."""

    answer: DrawingAnswer = field(metadata={"aside": True})
    units: Units
    given: str


def draw(shown: ForVisitors, _units: Units) -> Figure:
    """Return plan, front and side view with a scale bar and the words given, a line each."""
    return drawn(shown.answer, shown.units, WIDE_IN, given=shown.given, points=POINTS)
