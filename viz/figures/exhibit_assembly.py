"""The whole display in a panel of a figure: front view and side view, true in proportion."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.convert import mm
from viz.drawings.hidden_lines import front, side, visible
from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.reader import tell

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from sim.display.assembly.data import Assembly
    from viz.drawings.marks import Point, Stroke
    from viz.sheets.format import Units

APART = 0.12
"""Between the views, over the width of the front view."""
WIDTHS = {"cut": 0.8, "edge": 0.6, "thin": 0.3}
"""Pen -> width of its lines. [pt]"""
INK = "#1f1f1f"


def draw_assembly(panel: Axes, assembly: Assembly, units: Units) -> None:
    """Draw front view and side view side by side into a panel, in millimetres of the display. [mm]."""
    from matplotlib.collections import LineCollection

    face, flank = visible(front(assembly.pieces), 1.0), visible(side(assembly.pieces, from_left=True), 1.0)
    (left, low), (right, high) = _ends(face)
    (beside, _), (last, _) = _ends(flank)
    across = right - beside + APART * (right - left)
    for pen, width in WIDTHS.items():
        chains = [
            [(x + aside, y) for x, y in (*one.points, *one.points[: one.closed])]
            for lines, aside in ((face, 0.0), (flank, across))
            for one in lines
            if one.pen == pen
        ]
        panel.add_collection(LineCollection(chains, colors=INK, linewidths=width))
    wide, tall = (text_of(Value("drawn_m", end / mm(1.0), decimals=1), units) for end in (right - left, high - low))
    said = tell("The display from the front and from the left, {width} wide and {height} high", width=wide, height=tall)
    panel.set_title(said, wrap=True)
    panel.set_aspect("equal")
    panel.set_xlim(left, last + across)
    panel.set_ylim(low, high)
    panel.set_axis_off()


def _ends(lines: list[Stroke]) -> tuple[Point, Point]:
    """Return the lower left and the upper right corner round lines. [mm]."""
    xs, ys = zip(*(point for one in lines for point in one.points), strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))
