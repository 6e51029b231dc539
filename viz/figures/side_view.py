"""The airplane from the side for visitors: to scale, with a few names and a scale bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.drawing import side
from viz.figures.inks import NEUTRAL
from viz.figures.sheet import arrange, sheet
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.drawing_answer import DrawingAnswer
    from viz.sheets.format import Units

NAMED = {"propeller": "propeller", "engine CG": "engine", "pilot": "pilot", "fuel": "fuel"}
"""Place of a drawing -> its name for visitors."""
BAR_SHARE = 0.2
"""Of the length of the airplane, that the scale bar comes nearest to."""


def draw(answer: DrawingAnswer, units: Units) -> Figure:
    """Return the side view without axes: names over it, a scale bar below."""
    figure, (panel,) = sheet(1, width_in=9.0, height_in=3.6)
    side(panel, next(view for view in answer.views if view.name == "side"), units, plain=True)
    _names(panel, answer, units)
    _bar(panel, answer, units)
    arrange(figure)
    return figure


def _names(panel: Axes, answer: DrawingAnswer, units: Units) -> None:
    """Write names over the airplane, two rows in turn, each with a line down to its place."""
    _, factor = quantity("station_m").shown(units)
    top = panel.get_ylim()[1]
    high = top - panel.get_ylim()[0]
    found = [one for one in answer.places if one.view == "side" and one.name in NAMED]
    for number, one in enumerate(found):
        panel.annotate(
            NAMED[one.name],
            (one.station_m * factor, one.waterline_m * factor),
            xytext=(one.station_m * factor, top + high * (0.04 + 0.12 * (number % 2))),
            ha="center",
            fontsize=10,
            arrowprops={"arrowstyle": "-", "color": NEUTRAL, "linewidth": 0.6},
        )


def _bar(panel: Axes, answer: DrawingAnswer, units: Units) -> None:
    """Draw a scale bar of a whole number of units that people know, feet or metres."""
    _, factor = quantity("station_m").shown(units)
    _, people = quantity("length_m").shown(units)
    whole_m = next(one.drawn_m for one in answer.dimensions if one.name == "overall length")
    long_m = max(round(BAR_SHARE * whole_m * people), 1) / people
    left, low = panel.get_xlim()[0], panel.get_ylim()[0]
    panel.plot([left, left + long_m * factor], [low, low], color=NEUTRAL, linewidth=2.5, solid_capstyle="butt")
    words = text_of(Value("length_m", long_m, decimals=0), units)
    panel.annotate(words, (left + 0.5 * long_m * factor, low), xytext=(0, 4), textcoords="offset points", ha="center")
