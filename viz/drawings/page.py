"""One A4 page on which everything is placed in millimetres of paper, so that a drawing is at its stated scale."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from viz.drawings.drawing import Chain, Drawing, Point

WIDE, HIGH = 210.0, 297.0
EDGE = 12.0
LETTER = 8.5
"""Size of running text. [pt]"""
_LETTER_MM = 0.172
"""Width of a letter per point of its size, on the safe side. [mm/pt]"""
CUT = {"color": "#000000", "linewidth": 1.0}
THIN = {"color": "#555555", "linewidth": 0.5}
CENTRE = {"color": "#777777", "linewidth": 0.4, "linestyle": (0, (8, 2, 2, 2))}
MARK = {"color": "#0b4f8a", "linewidth": 0.8}
HIDDEN = {"color": "#777777", "linewidth": 0.7, "linestyle": "--"}


class Page:
    """A sheet of A4 paper with a frame and a title."""

    def __init__(self, title: str, number: int, of: int) -> None:
        import matplotlib as mpl
        from matplotlib.figure import Figure

        with mpl.rc_context({"font.size": LETTER, "pdf.fonttype": 42}):
            self.figure = Figure(figsize=(WIDE / 25.4, HIGH / 25.4))
            self.axes = self.figure.add_axes((0.0, 0.0, 1.0, 1.0))
        self.axes.set_xlim(0.0, WIDE)
        self.axes.set_ylim(0.0, HIGH)
        self.axes.axis("off")
        box = [(EDGE - 4, EDGE - 4), (WIDE - EDGE + 4, EDGE - 4), (WIDE - EDGE + 4, HIGH - EDGE + 4)]
        self.line([*box, (EDGE - 4, HIGH - EDGE + 4)], closed=True, look=CUT)
        self.text((EDGE, HIGH - EDGE - 4.0), title, size=14.0, weight="bold")
        self.text((WIDE - EDGE, HIGH - EDGE - 4.0), f"sheet {number} of {of}", ha="right")
        self.line([(EDGE - 4, HIGH - EDGE - 8.0), (WIDE - EDGE + 4, HIGH - EDGE - 8.0)], look=THIN)

    def line(self, chain: Chain, *, closed: bool = False, look: dict[str, Any]) -> None:
        """Draw a chain of cuts in millimetres of paper."""
        across, up = zip(*(chain + chain[:1] if closed else chain), strict=True)
        self.axes.plot(across, up, **look)

    def circle(self, centre: Point, diameter: float, look: dict[str, Any]) -> None:
        """Draw a circle."""
        from matplotlib.patches import Circle

        style = {"edgecolor": look["color"], **{key: value for key, value in look.items() if key != "color"}}
        self.axes.add_patch(Circle(centre, diameter / 2.0, fill=False, **style))

    def text(self, at: Point, words: str, *, size: float = LETTER, **look: Any) -> None:  # noqa: ANN401
        """Write words, by default from their left end on the line at `at`."""
        self.axes.text(at[0], at[1], words, fontsize=size, **{"va": "center", **look})

    def paragraph(self, at: Point, words: str, width: float, *, size: float = LETTER, mark: str = "") -> float:
        """Write wrapped words from `at` down, hung on `mark`, and return where the next line would stand."""
        pitch, hang = size * 0.47, size * _LETTER_MM * len(mark) + 2.0 if mark else 0.0
        if mark:
            self.text(at, mark, size=size)
        lines = textwrap.wrap(words, max(8, int((width - hang) / (size * _LETTER_MM * 1.09))))
        for row, line in enumerate(lines):
            self.text((at[0] + hang, at[1] - row * pitch), line, size=size)
        return at[1] - len(lines) * pitch - 0.35 * pitch

    def table(
        self, at: Point, widths: Sequence[float], rows: Sequence[Sequence[str]], *, size: float = LETTER
    ) -> float:
        """Write rows in columns, the first row as heads, wrap what is long, and return where the next line stands."""
        pitch, top = size * 0.47, at[1]
        for number, row in enumerate(rows):
            cells = [
                textwrap.wrap(cell, max(3, int((width - 2.0) / (size * _LETTER_MM * 1.09)))) or [""]
                for cell, width in zip(row, widths, strict=True)
            ]
            left = at[0]
            for lines, width in zip(cells, widths, strict=True):
                for step, line in enumerate(lines):
                    self.text((left, top - step * pitch), line, size=size, weight="bold" if number == 0 else "normal")
                left += width
            top -= max(map(len, cells)) * pitch + 0.25 * pitch
            self.line([(at[0], top + 0.62 * pitch), (at[0] + sum(widths), top + 0.62 * pitch)], look=THIN)
        return top - pitch

    def part(self, drawing: Drawing, at: Point, scale: float, *, look: dict[str, Any] = CUT) -> None:
        """Draw a part with its origin at `at`: outline, holes, openings, centre marks, scribed lines and words."""
        for chain in (drawing.outline, *drawing.openings):
            self.line(placed(chain, at, scale), closed=True, look=look)
        for centre, diameter in drawing.circles:
            self.circle(placed([centre], at, scale)[0], diameter * scale, look)
        for mark in drawing.marks:
            self.line(placed(mark, at, scale), look=CENTRE)
        for scribe in drawing.scribes:
            self.line(placed(scribe, at, scale), look=MARK)
        crowded = scale < 1.0 and len(drawing.labels) > 2
        readable = drawing.labels if scale >= 0.5 else []
        for label in readable[::-2] if crowded else readable:
            where = placed([label.at], at, scale)[0]
            points = max(5.5, label.letter_mm * scale * 3.6)
            self.text(where, label.text, size=points, ha="center", rotation=label.turned_deg, color=MARK["color"])

    def across(self, x: tuple[float, float], y: float, words: str) -> None:
        """Draw a dimension across."""
        self._dimension([(x[0], y), (x[1], y)], [(0.0, 2.0), (0.0, -2.0)], ((x[0] + x[1]) / 2.0, y + 2.4), words)

    def up(self, x: float, y: tuple[float, float], words: str) -> None:
        """Draw a dimension up."""
        ends = [(2.0, 0.0), (-2.0, 0.0)]
        self._dimension([(x, y[0]), (x, y[1])], ends, (x - 2.4, (y[0] + y[1]) / 2.0), words, rotation=90.0)

    def _dimension(self, ends: Chain, tick: Chain, at: Point, words: str, *, rotation: float = 0.0) -> None:
        self.axes.annotate(
            "", ends[0], ends[1], arrowprops={"arrowstyle": "<|-|>", "color": "#333333", "linewidth": 0.5}
        )
        for end in ends:
            self.line([(end[0] + step[0], end[1] + step[1]) for step in tick], look=THIN)
        self.text(at, words, size=7.5, ha="center", rotation=rotation)


def placed(chain: Chain, at: Point, scale: float) -> Chain:
    """Return a chain in millimetres of paper, its origin at `at`."""
    return [(at[0] + x * scale, at[1] + y * scale) for x, y in chain]


def turned(chain: Chain, about: Point, angle_rad: float) -> Chain:
    """Return a chain turned by an angle and then moved to `about`."""
    from math import cos, sin

    c, s = cos(angle_rad), sin(angle_rad)
    return [(about[0] + c * x - s * y, about[1] + s * x + c * y) for x, y in chain]


def scale_for(wide: float, high: float, room: Point) -> tuple[float, str]:
    """Return the largest usual scale at which something fits a room, and how it is written."""
    for scale, words in ((2.0, "2 : 1"), (1.0, "1 : 1"), (0.5, "1 : 2"), (0.2, "1 : 5")):
        if wide * scale <= room[0] and high * scale <= room[1]:
            return scale, words
    return 0.1, "1 : 10"
