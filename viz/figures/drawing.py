"""The side view of a drawing, nose to the left, in stations and waterlines."""

from __future__ import annotations

from math import cos, sin, tau
from typing import TYPE_CHECKING, Any

from sim.units.quantities import quantity
from viz.figures.inks import NEUTRAL, ink
from viz.figures.sheet import arrange, sheet
from viz.words.reader import axis_label, tell

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.airframe.projection import Stroke, ThreeViewSide
    from sim.studies.drawing_answer import DrawingAnswer
    from viz.sheets.format import Units

WIDTHS: dict[Stroke, dict[str, Any]] = {
    "edge": {"linewidth": 1.1, "linestyle": "-"},
    "thin": {"linewidth": 0.6, "linestyle": "-"},
    "hidden": {"linewidth": 0.6, "linestyle": "--"},
    "centre": {"linewidth": 0.6, "linestyle": "-."},
}
CORNERS = 72
"""Of a circle, drawn as a line, so that another airplane's can be laid over it."""
GRAVITY = "centre of gravity"
PARTS = {"wing": 0, "spars": 0, "propeller": 1, "engine": 1, "mount": 1, GRAVITY: 2, "aboard": 3}
"""Part -> the ink of its lines; the others are grey."""


def draw(answer: DrawingAnswer, units: Units) -> Figure:
    """Return the side view with the datum and the centre of gravity."""
    figure, (panel,) = sheet(1, width_in=9.0, height_in=4.2)
    side(panel, next(view for view in answer.views if view.name == "side"), units)
    panel.set_title(tell("{title} with {engine}: side view", title=answer.title, engine=answer.powerplant))
    arrange(figure)
    return figure


def side(panel: Axes, view: ThreeViewSide, units: Units, *, plain: bool = False) -> None:
    """Draw a side view into a panel: the airplane to scale, its parts told apart by ink and in the legend.

    Parameters
    ----------
    panel : Axes
        Where.
    view : ThreeViewSide
        Of a drawing.
    units : {"us", "si"}
        Of stations and waterlines.
    plain : bool
        Whether to leave out what is no part of the airplane: datum, axes, centre of gravity; and axes and legend.
    """
    _, factor = quantity("station_m").shown(units)
    told = set[str]()
    for line in view.lines:
        if plain and (line.stroke == "centre" or line.part == GRAVITY):
            continue
        points = [*line.points_m, line.points_m[0]] if line.closed else line.points_m
        stations, waterlines = zip(*((s * factor, w * factor) for s, w in points), strict=True)
        label = line.part if line.part in PARTS and line.part not in told else None
        told.add(line.part)
        panel.plot(stations, waterlines, color=_ink(line.part), label=label, **WIDTHS[line.stroke])
    for circle in view.circles:
        if plain and circle.part == GRAVITY:
            continue
        (x, y), radius = circle.centre_m, 0.5 * circle.diameter_m
        turns = [tau * number / CORNERS for number in range(CORNERS + 1)]
        round_it = [((x + radius * cos(turn)) * factor, (y + radius * sin(turn)) * factor) for turn in turns]
        panel.plot(*zip(*round_it, strict=True), color=_ink(circle.part), **WIDTHS[circle.stroke])
    panel.set_aspect("equal")
    panel.margins(x=0.03, y=0.08)
    if plain:
        panel.set_axis_off()
        return
    panel.set_xlabel(axis_label("station_m", units))
    panel.set_ylabel(axis_label("waterline_m", units))
    panel.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), fontsize=8)


def _ink(part: str) -> str:
    return ink(PARTS[part]) if part in PARTS else NEUTRAL
