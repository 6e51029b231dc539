"""What drawings are made of: strokes, rings and notes, in millimetres, y up."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Point = tuple[float, float]
Chain = list[Point]
Box = tuple[float, float, float, float]
"""Left, bottom, right and top. [mm]"""
Pen = Literal["cut", "thin", "centre", "mark", "hidden", "number"]
"""What a line or a word is for; `viz.drawings.svg.LOOKS` says how each looks."""
Anchor = Literal["start", "middle", "end"]

LETTER_ADVANCE = 0.826
"""Width of a letter of the monospaced drawing font over its capital height."""
DIMENSION_LETTER_MM = 1.9
EDGE_MM = 0.2
"""Room for the outer half of a line at the edge of a box."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A chain of straight lines."""

    points: Chain
    pen: Pen
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    centre: Point
    diameter_mm: float
    pen: Pen


@dataclass(frozen=True, slots=True)
class Note:
    """Words on one line.

    Attributes
    ----------
    text : str
        The words.
    at : tuple of float
        Their anchor, at half the height of a capital letter. [mm]
    pen : str
        What they belong to.
    letter_mm : float
        Height of a capital letter. [mm]
    anchor : str
        ``start``, ``middle`` or ``end`` of the words.
    turned_deg : float
        Direction in which they run, anticlockwise from the x axis. [°]
    """

    text: str
    at: Point
    pen: Pen
    letter_mm: float = DIMENSION_LETTER_MM
    anchor: Anchor = "middle"
    turned_deg: float = 0.0

    def corners(self) -> Chain:
        """Return the corners of the box that the words fill."""
        length = LETTER_ADVANCE * self.letter_mm * len(self.text)
        start = -length * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        half = 0.75 * self.letter_mm
        box = [(start, -half), (start + length, -half), (start + length, half), (start, half)]
        return turned(box, self.at, radians(self.turned_deg))


Mark: TypeAlias = Stroke | Ring | Note


def box_of(marks: Iterable[Mark]) -> Box:
    """Return the box round everything, half the width of the widest line beyond its middle."""
    across, up = zip(*(point for mark in marks for point in _extent(mark)), strict=True)
    return min(across) - EDGE_MM, min(up) - EDGE_MM, max(across) + EDGE_MM, max(up) + EDGE_MM


def dimension(start: Point, end: Point, text: str) -> Iterator[Mark]:
    """Yield a dimension line with arrowheads and ticks, its text on the left of the way from start to end."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    way = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    aside = (-way[1], way[0])
    yield Stroke([start, end], "thin")
    for tip, sense in ((start, 1.0), (end, -1.0)):
        yield Stroke([_moved(tip, aside, 2.0), _moved(tip, aside, -2.0)], "thin")
        barbs = [_moved(_moved(tip, way, 2.0 * sense), aside, side) for side in (0.5, -0.5)]
        yield Stroke([barbs[0], tip, barbs[1]], "thin")
    middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
    upright = 90.0 if abs(way[1]) > abs(way[0]) else 0.0
    yield Note(text, _moved(middle, aside, 1.4 * DIMENSION_LETTER_MM), "thin", turned_deg=upright)


def scaled(chain: Chain, scale: float) -> Chain:
    """Return a chain with every coordinate multiplied."""
    return [(x * scale, y * scale) for x, y in chain]


def turned(chain: Chain, about: Point, angle_rad: float) -> Chain:
    """Return a chain turned about the origin by an angle and then moved to `about`."""
    c, s = cos(angle_rad), sin(angle_rad)
    return [(about[0] + c * x - s * y, about[1] + s * x + c * y) for x, y in chain]


def _moved(point: Point, way: Point, length: float) -> Point:
    return point[0] + length * way[0], point[1] + length * way[1]


def _extent(mark: Mark) -> Iterable[Point]:
    match mark:
        case Stroke():
            return mark.points
        case Ring((x, y), diameter):
            half = diameter / 2.0
            return [(x - half, y - half), (x + half, y + half)]
        case Note():
            return mark.corners()
