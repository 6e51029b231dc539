"""A figure with the cautions that its answer bears: none is drawn without them, no module writes its own."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from math import ceil
from textwrap import fill
from typing import TYPE_CHECKING, NamedTuple

from sim.answer import borne
from sim.model.plausibility.remark import FORBIDDEN
from viz.figures.inks import NEUTRAL, WARNING
from viz.figures.sheet import rendered
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from viz.sheets.format import Units

POINTS = 7.0
WARNED_POINTS, WARNED_PER_IN, WARNED_IN = 10.0, 9.0, 0.2
"""Of what forbids the use of a figure: points, letters to an inch of its width, and height of a line."""
LETTERS_PER_IN = 16.0
"""Letters to a line of cautions over the width of the figure, so that the widest font of a reader has room as well."""
PAGE_IN, LEAST_POINTS = (7.25, 9.2), 8.1
"""Room for a figure on the narrower of both papers, width and height, and the smallest letters there."""
LINE_IN, GAP_IN = 0.14, 0.1
COLUMNS, ROW_IN, LEGEND_PER_IN = 2, 0.19, 6.0
"""Of the legend of another airplane: columns, height of a line, and letters to a line over the width of the figure."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A figure as it stands on a page.

    Attributes
    ----------
    svg : str
        The file.
    width_in : float
        Width on paper [in].
    """

    svg: str
    width_in: float


class Other(NamedTuple):
    """Another airplane: what it is called, and its answer to the same question."""

    called: str
    answer: object


def complete(name: str, answer: object, units: Units, other: Other | None = None, *, on_paper: bool = False) -> Figure:
    """Return the figure of an answer, or of several by name, and under it the cautions that their quantities bear.

    Parameters
    ----------
    name : str
        Module of ``viz/figures`` that draws it.
    answer : Answer or mapping of str to Answer
        What is drawn.
    units : {"us", "si"}
        Units of its axes.
    other : Other or None
        Another airplane to be drawn with it; a figure that cannot says so below.
    on_paper : bool
        Whether it goes on a page of paper, where no letter is smaller than 8 points.
    """
    from viz.figures.wording import word

    draw = import_module(f"viz.figures.{name}").draw
    figure: Figure = draw(answer, units)
    width_in, height_in = figure.get_size_inches()
    points = max(POINTS, LEAST_POINTS / paper_share(width_in, height_in)) if on_paper else POINTS
    larger = points / POINTS
    columns = int(LETTERS_PER_IN * width_in / larger)
    words = fill(" ".join(map(worded, borne(answer))), columns)
    legend_in = 0.0
    if other:
        told, legend_in = _with_other(name, figure, draw(other.answer, units), other.called)
        words = f"{fill(told, columns)}\n{words}" if told else words
    if words:
        strip_in = LINE_IN * larger * (1 + words.count("\n"))
        figure.set_figheight(height_in + strip_in + legend_in)
        for legend in figure.legends:  # the axes make room for their own, but not for that of the figure
            legend.set_bbox_to_anchor((0.5, (strip_in + GAP_IN) / (height_in + strip_in + legend_in)))
        room = "\n" * ceil(legend_in / LINE_IN / larger)
        figure.supxlabel(room + words, fontsize=points, color=NEUTRAL)
    _warn(figure, answer)
    if on_paper:
        _enlarge(figure)
    word(figure)
    return figure


def paper_share(width_in: float, height_in: float) -> float:
    """Return by how much a figure of that size is made smaller to fit a page, 1 where it fits."""
    return min(1.0, PAGE_IN[0] / width_in, PAGE_IN[1] / height_in)


def _enlarge(figure: Figure) -> None:
    """Make letters larger that would be too small where the figure is made to fit a page."""
    from matplotlib.text import Text

    least = LEAST_POINTS / paper_share(*map(float, figure.get_size_inches()))
    for text in figure.findobj(Text):
        if float(text.get_fontsize()) < least:
            text.set_fontsize(least)
    for panel in figure.axes:
        for axis in (panel.xaxis, panel.yaxis):
            if any(float(tick.label1.get_fontsize()) <= least for tick in axis.get_major_ticks()):
                axis.set_tick_params(labelsize=least)  # of the ticks that are made later as well


def _warn(figure: Figure, answer: object) -> None:
    """Write above a figure what forbids its use: a picture goes where its sheet does not."""
    told = [one for one in getattr(answer, "remarks", ()) if FORBIDDEN in one]
    scales = getattr(answer, "weighing", None)
    if scales is not None:
        from sim.model.scales_and_list import contradiction

        told += [said for said in [contradiction(scales)] if said]
    if told:
        words = fill(worded(told[0]), int(WARNED_PER_IN * figure.get_figwidth()))
        figure.set_figheight(figure.get_figheight() + WARNED_IN * (1 + words.count("\n")))
        figure.suptitle(words, fontsize=WARNED_POINTS, color=WARNING, fontweight="bold")


def _with_other(name: str, figure: Figure, theirs: Figure, called: str) -> tuple[str, float]:
    """Draw the other airplane and its legend; return what is said where that cannot be, and the legend's height."""
    from viz.figures.other_airplane import SECOND_STROKE, add, stroke

    new = add(name, figure, theirs)
    if new is None:
        said = "{name}, the other airplane, is not drawn in this figure: what differs stands in the sheet."
        return tell(said, name=called), 0.0
    second = tell(SECOND_STROKE, name=called)
    labels = [second, *(tell("the other: {name}", name=label) for label in new)]
    lines = [fill(label, int(LEGEND_PER_IN * figure.get_figwidth())) for label in labels]
    figure.legend([stroke(), *new.values()], lines, loc="lower center", ncols=COLUMNS, fontsize=8)
    deep = [1 + line.count("\n") for line in lines]
    first = ceil(len(lines) / COLUMNS)
    return "", ROW_IN * max(sum(deep[:first]), sum(deep[first:])) + GAP_IN


def drawing(name: str, answer: object, units: Units) -> Drawing:
    """Return the figure of `complete` as it stands on a page."""
    figure = complete(name, answer, units, on_paper=True)
    width_in, height_in = map(float, figure.get_size_inches())
    return Drawing(rendered(figure).decode(), width_in * paper_share(width_in, height_in))
