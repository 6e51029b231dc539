"""A view on paper: marks in millimetres of paper about the part's origin, at the largest usual scale that fits."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from viz.drawings.marks import Mark, Ring, Stroke, box_of, scaled

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Pen, Point

SCALES = (2.0, 1.0, 0.5, 0.2, 0.1)
CHECK_MM = 100.0
CHECK = "This line is 100 mm long. If it measures otherwise, print again at 100 %."
"""Length of the line that the scale of a print is checked by, and what stands beside it."""
LEAST_UNDER = 500.0
"""The smallest scale that is drawn is one to so many."""
READABLE_SCALE = 0.5
"""The smallest scale at which what is written on a part is shown."""
SMALLEST_LETTER_MM = 1.4


@dataclass(frozen=True, slots=True)
class View:
    """Everything drawn in one view, its scale, and what it shows, in words for who cannot see it."""

    marks: tuple[Mark, ...]
    scale: float
    description: str

    @property
    def size(self) -> Point:
        """Width and height of the paper it takes. [mm]."""
        left, bottom, right, top = box_of(self.marks)
        return right - left, top - bottom


def fitted(make: Callable[[float], View], room: Point, bare: Point = (0.0, 0.0)) -> View:
    """Return the view at the largest usual scale at which it fits a room of paper, width and height. [mm].

    A scale at which what is `bare` of dimensions and numbers does not fit, at full size, is not tried.
    """
    views = (make(scale) for scale in SCALES if bare[0] * scale <= room[0] and bare[1] * scale <= room[1])
    fits = next((view for view in views if view.size[0] <= room[0] and view.size[1] <= room[1]), None)
    return fits or make(SCALES[-1])


def ratio(scale: float) -> str:
    """Return a scale as it is written on a drawing.

    Examples
    --------
    >>> ratio(0.5)
    '1 : 2'
    """
    return f"{scale:g} : 1" if scale >= 1.0 else f"1 : {1.0 / scale:.6g}"


def read_ratio(text: str) -> float | None:
    """Return a scale written as ``1:20``, ``1 : 20``, ``1/20`` or ``20``, paper over full size; None for any other.

    Examples
    --------
    >>> read_ratio("1:20")
    0.05
    """
    found = re.fullmatch(r"\s*(?:1\s*[:/]\s*)?(\d+(?:\.\d+)?)\s*", text)
    under = float(found[1]) if found else 0.0
    return 1.0 / under if 1.0 <= under <= LEAST_UNDER else None


def part(drawing: Drawing, scale: float) -> Iterator[Mark]:
    """Yield a part: outline, holes, openings, centre marks, scribed lines, and their labels where there is room."""
    yield from outline(drawing, scale, "cut")
    yield from (Ring(scaled([centre], scale)[0], diameter * scale, "cut") for centre, diameter in drawing.circles)
    yield from (Stroke(scaled(mark, scale), "centre") for mark in drawing.centres)
    yield from (Stroke(scaled(scribe, scale), "mark") for scribe in drawing.scribes)
    crowded = scale < 1.0 and len(drawing.labels) > 2
    readable = drawing.labels if scale >= READABLE_SCALE else []
    for label in readable[::-2] if crowded else readable:
        letter = max(SMALLEST_LETTER_MM, label.letter_mm * scale)
        yield replace(label, at=scaled([label.at], scale)[0], letter_mm=letter)


def outline(drawing: Drawing, scale: float, pen: Pen) -> Iterator[Mark]:
    """Yield the outline of a part and its openings."""
    yield from (Stroke(scaled(chain, scale), pen, closed=True) for chain in (drawing.outline, *drawing.openings))
