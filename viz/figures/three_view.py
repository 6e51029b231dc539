"""The airplane from three sides, all to one scale: a picture for the first page, without axes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.figures.drawing import side
from viz.figures.inks import NEUTRAL
from viz.figures.sheet import sheet
from viz.sheets.blocks import Value
from viz.sheets.text import text_of
from viz.words.reader import tell

if TYPE_CHECKING:
    from collections.abc import Mapping

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.drawing_answer import DrawingAnswer
    from viz.sheets.format import Units

WIDE_IN, ROOM_IN = 7.2, 0.8
"""Width of the figure, and height of it that words and margins take."""
FACING = {"plan": "from above", "front": "from the front", "side": "from the left"}
BAR_SHARE = 0.2
"""Of the length of the airplane, that the scale bar comes nearest to."""


def draw(answer: DrawingAnswer, units: Units) -> Figure:
    """Return plan over front view at the left, side view with the scale bar at the right."""
    return drawn(answer, units, WIDE_IN, facing=FACING, given=_given(answer, units))


def drawn(
    answer: DrawingAnswer,
    units: Units,
    wide_in: float,
    *,
    given: str,
    points: float = 11.0,
    facing: Mapping[str, str] | None = None,
) -> Figure:
    """Return the three views over a width [in], `given` in the free corner, each view with the words of `facing`.

    `points` is the size of letters.
    """
    spans = {view.name: _extent_m(answer, view.name) for view in answer.views}
    wide = (spans["plan"][0], spans["side"][0])
    high = (spans["plan"][1], max(spans["front"][1], spans["side"][1]))
    height_in = ROOM_IN + wide_in * sum(high) / sum(wide)
    figure, (plan, corner, front, left) = sheet(2, 2, width_in=wide_in, height_in=height_in, widths=wide, heights=high)
    corner.set_axis_off()
    for panel, name in ((plan, "plan"), (front, "front"), (left, "side")):
        side(panel, next(view for view in answer.views if view.name == name), units, plain=True)
        panel.set_title((facing or {}).get(name, ""), loc="center", fontweight="normal")
    corner.text(0.1, 0.5, given, transform=corner.transAxes, va="center", linespacing=1.8, fontsize=points)
    if plan.get_ylim()[0] < plan.get_ylim()[1]:
        plan.invert_yaxis()  # stations count aft, the nose is up
    _bar(left, answer, units, points)
    return figure


def _extent_m(answer: DrawingAnswer, name: str) -> tuple[float, float]:
    """Return width and height of a view [m]."""
    view = next(view for view in answer.views if view.name == name)
    points = [point for line in view.lines for point in line.points_m]
    for circle in view.circles:
        (x, y), half = circle.centre_m, 0.5 * circle.diameter_m
        points += [(x - half, y - half), (x + half, y + half)]
    across, up = zip(*points, strict=True)
    return max(across) - min(across), max(up) - min(up)


def _given(answer: DrawingAnswer, units: Units) -> str:
    """Return the dimensions that stand in the free corner, a line each."""
    return "\n".join(
        tell("{dimension} {size}", dimension=name, size=text_of(Value("length_m", size_m, decimals=1), units))
        for name, size_m in answer.sizes_m().items()
    )


def _bar(panel: Axes, answer: DrawingAnswer, units: Units, points: float) -> None:
    """Draw a scale bar of a whole number of units that people know, feet or metres, over the side view."""
    _, factor = quantity("station_m").shown(units)
    _, people = quantity("length_m").shown(units)
    whole_m = answer.sizes_m()["length"]
    long_m = max(round(BAR_SHARE * whole_m * people), 1) / people
    right, high = panel.get_xlim()[1], panel.get_ylim()[1]
    ends = [right - long_m * factor, right]
    panel.plot(ends, [high, high], color=NEUTRAL, linewidth=2.5, solid_capstyle="butt", clip_on=False)
    words = text_of(Value("length_m", long_m, decimals=0), units)
    panel.annotate(
        words, (0.5 * sum(ends), high), xytext=(0, 4), textcoords="offset points", ha="center", fontsize=points
    )
