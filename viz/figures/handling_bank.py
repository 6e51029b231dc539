"""Forces at stick and pedals over bank, one under another, as a page has room for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.handling import draw_bank_forces
from viz.figures.handling_forces import FORCES
from viz.figures.sheet import sheet

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.handling_answer import Handling
    from viz.sheets.format import Units


def draw(answer: Handling, units: Units) -> Figure:
    """Return a panel for each force."""
    figure, panels = sheet(len(FORCES), width_in=7.2, height_in=8.6)
    draw_bank_forces(panels, answer, units)
    return figure
