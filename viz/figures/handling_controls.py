"""Control travel over bank and the roots of the modes, one under another, as a page has room for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.handling import draw_controls
from viz.figures.sheet import sheet

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.handling_answer import Handling
    from viz.sheets.format import Units


def draw(answer: Handling, units: Units) -> Figure:
    """Return three panels of control travel and one of roots."""
    figure, panels = sheet(4, width_in=7.2, height_in=8.6)
    draw_controls(panels, answer, units)
    return figure
