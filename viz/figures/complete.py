"""A figure with the cautions that its answer bears: none is drawn without them, no module writes its own."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from textwrap import fill
from typing import TYPE_CHECKING

from sim.answer import borne
from viz.figures.sheet import INKS, rendered

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from viz.sheets.format import Units

POINTS = 7.0
LETTERS_PER_IN = 16.0
"""Letters to a line of cautions over the width of the figure, so that the widest font of a reader has room as well."""
LINE_IN, GAP_IN = 0.14, 0.1


@dataclass(frozen=True, slots=True)
class Drawing:
    """A figure as it stands on a page.

    Attributes
    ----------
    svg : str
        The file.
    width_in : float
        Its own width [in].
    """

    svg: str
    width_in: float


def complete(name: str, answer: object, units: Units) -> Figure:
    """Return the figure of an answer, or of several by name, and under it the cautions that their quantities bear.

    Parameters
    ----------
    name : str
        Module of ``viz/figures`` that draws it.
    answer : Answer or mapping of str to Answer
        What is drawn.
    units : {"us", "si"}
        Units of its axes.
    """
    figure: Figure = import_module(f"viz.figures.{name}").draw(answer, units)
    width_in, height_in = figure.get_size_inches()
    words = fill(" ".join(borne(answer)), int(LETTERS_PER_IN * width_in))
    if words:
        strip_in = LINE_IN * (1 + words.count("\n"))
        figure.set_figheight(height_in + strip_in)
        for legend in figure.legends:  # the axes make room for their own, but not for that of the figure
            legend.set_bbox_to_anchor((0.5, (strip_in + GAP_IN) / (height_in + strip_in)))
        figure.supxlabel(words, fontsize=POINTS, color=INKS[5])
    return figure


def drawing(name: str, answer: object, units: Units) -> Drawing:
    """Return the figure of `complete` as it stands on a page."""
    figure = complete(name, answer, units)
    return Drawing(rendered(figure).decode(), float(figure.get_size_inches()[0]))
