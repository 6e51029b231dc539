"""A figure in the language of its reader: phrases, and the marks of numbers, wherever letters stand in it.

A figure is drawn in English. What holds values is told where it is drawn, by `viz.words.reader.tell`; a phrase without
any is looked up here, as the writers of a sheet do.
"""

from __future__ import annotations

import re
from textwrap import fill
from typing import TYPE_CHECKING

from matplotlib.text import Text
from matplotlib.ticker import Formatter

from viz.words.catalogue import SOURCE
from viz.words.reader import language, numbered, worded

if TYPE_CHECKING:
    from matplotlib.axis import Axis
    from matplotlib.figure import Figure

POINTS_PER_IN, LINE = 72.0, 1.25
BESIDE_IN = 0.5
"""Of the width of a panel, what the words of its axis take."""
_SIGNED = re.compile(r"([-+±−]?)(\d.*)", re.DOTALL)
"""A number, perhaps with its unit; matplotlib writes a minus sign for a hyphen."""


EM: dict[bool, float] = {False: 0.52, True: 0.6}
"""Width of a letter over its size, of a bold one as well, on average; measured on titles of figures."""


def word(figure: Figure) -> None:
    """Put every word of a figure, and the marks of every number, into the reader's language.

    Titles and labels that are longer there than what they stand at go on in another line.
    """
    if language() == SOURCE:
        return
    for text in figure.findobj(Text):
        text.set_text(_worded(text.get_text()))
    for panel in figure.axes:
        for axis in (panel.xaxis, panel.yaxis):
            axis.set_major_formatter(_Worded(axis, axis.get_major_formatter()))
            axis.set_minor_formatter(_Worded(axis, axis.get_minor_formatter()))
    _wrap(figure)


def _wrap(figure: Figure) -> None:
    """Break what is longer than its room, and make the figure higher by the lines that this adds above a panel."""
    wide_in, high_in = map(float, figure.get_size_inches())
    added_in = sum(_within(text, wide_in) for text in figure.texts)
    above_in = [0.0]
    for panel in figure.axes:
        upward, spec = panel.yaxis.label, panel.get_subplotspec()
        upward.set_text(upward.get_text().replace("\n", " "))
        _within(upward, panel.get_position().height * high_in)
        columns = spec.get_gridspec().ncols / len(spec.colspan) if spec else 1.0
        titles = (one for one in panel.get_children() if isinstance(one, Text) and one not in panel.texts)
        above_in += [_within(title, wide_in / columns - BESIDE_IN) for title in titles]
    figure.set_figheight(high_in + added_in + max(above_in))


def _within(text: Text, room_in: float) -> float:
    """Break lines that are longer than the room for them; return by how much the text is higher now. [in]."""
    bold, size_in = text.get_fontweight() == "bold", float(text.get_fontsize()) / POINTS_PER_IN
    letters = int(room_in / EM[bold] / size_in)
    lines = text.get_text().split("\n")
    if max(map(len, lines)) <= letters:
        return 0.0
    broken = "\n".join(fill(line, letters, break_long_words=False) for line in lines)
    text.set_text(broken)
    return (1 + broken.count("\n") - len(lines)) * LINE * size_in


def _worded(text: str) -> str:
    number = _SIGNED.fullmatch(text)
    return number[1] + numbered(number[2]) if number else worded(text)


class _Worded(Formatter):
    """The labels of the ticks of an axis as another one writes them, in the reader's language."""

    def __init__(self, axis: Axis, own: Formatter) -> None:
        self._own = own
        self.set_axis(axis)

    def __call__(self, x: float, pos: int | None = None) -> str:
        """Return the label of one value."""
        return _worded(self._own(x, pos))

    def format_ticks(self, values: list[float]) -> list[str]:
        """Return the labels of all ticks."""
        return [_worded(text) for text in self._own.format_ticks(values)]

    def get_offset(self) -> str:
        """Return what stands at the end of the axis."""
        return _worded(self._own.get_offset())
