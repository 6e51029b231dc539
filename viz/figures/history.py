"""The caution that every timing figure carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import caution
from viz.figures.sheet import INKS

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def with_caution(figure: Figure) -> Figure:
    """Return the figure with the caution along its lower edge."""
    figure.text(0.995, 0.004, caution("history"), ha="right", va="bottom", fontsize=5.5, color=INKS[5])
    return figure
