"""What drawings are made of: strokes, rings and notes, in millimetres, y up."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, cos, hypot, radians, sin
from typing import TYPE_CHECKING, Literal, TypeAlias

from sim.units.convert import degrees, mm

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Point = tuple[float, float]
Chain = list[Point]
Box = tuple[float, float, float, float]
"""Left, bottom, right and top. [mm]"""
Pen = Literal["cut", "edge", "thin", "centre", "mark", "hidden", "number", "leader", "pale", "other"]
"""What a line or a word is for; `viz.drawings.svg.LOOKS` says how each looks."""
Anchor = Literal["start", "middle", "end"]

LETTER_ADVANCE = 0.826
"""Width of a letter of the monospaced drawing font over its capital height."""
DIMENSION_LETTER_MM = 1.9
TICK_MM = 1.0
"""By which the tick at an end of a dimension line passes it on either side."""
EDGE_MM = 0.2
"""Room for the outer half of a line at the edge of a box."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A chain of straight lines."""

    points: Chain
    pen: Pen
    closed: bool = False
    layer: str = ""


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle."""

    centre: Point
    diameter_mm: float
    pen: Pen
    layer: str = ""


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
    layer : str
        Of the file that they are written to; empty where it has none.
    """

    text: str
    at: Point
    pen: Pen
    letter_mm: float = DIMENSION_LETTER_MM
    anchor: Anchor = "middle"
    turned_deg: float = 0.0
    layer: str = ""

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


def arrow_line(start: Point, end: Point) -> Iterator[Mark]:
    """Yield a line with an arrowhead and a tick at either end."""
    way, aside = _ways(start, end)
    yield Stroke([start, end], "thin")
    for tip, sense in ((start, 1.0), (end, -1.0)):
        yield Stroke([_moved(tip, aside, TICK_MM), _moved(tip, aside, -TICK_MM)], "thin")
        barbs = [_moved(_moved(tip, way, 2.0 * sense), aside, side) for side in (0.5, -0.5)]
        yield Stroke([barbs[0], tip, barbs[1]], "thin")


def _ways(start: Point, end: Point) -> tuple[Point, Point]:
    """Return the unit vectors along a line and to its left."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    way = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    return way, (-way[1], way[0])


def dimension(start: Point, end: Point, text: str, *, along_mm: float = 0.0, pen: Pen = "thin") -> Iterator[Mark]:
    """Yield a dimension line with arrowheads and ticks, its text on the left of the way from start to end.

    Parameters
    ----------
    start, end : (x, y)
        Ends of the line. [mm]
    text : str
        What stands beside its middle.
    along_mm : float
        How far the text stands from the middle towards the end. [mm]
    pen : str
        Of the text.
    """
    yield from arrow_line(start, end)
    way, aside = _ways(start, end)
    middle = (start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0
    heading = degrees(atan2(way[1], way[0]))
    upright = heading - 180.0 if heading > 90.0 else heading + 180.0 if heading <= -90.0 else heading
    at = _moved(_moved(middle, way, along_mm), aside, 1.4 * DIMENSION_LETTER_MM)
    yield Note(text, at, pen, turned_deg=upright)


def shifted(mark: Mark, by: Point, factor: float = 1.0) -> Mark:
    """Return a mark enlarged by a factor about the origin and then moved [mm]."""

    def at(point: Point) -> Point:
        return factor * point[0] + by[0], factor * point[1] + by[1]

    match mark:
        case Stroke():
            return replace(mark, points=[at(point) for point in mark.points])
        case Ring():
            return replace(mark, centre=at(mark.centre), diameter_mm=factor * mark.diameter_mm)
        case Note():
            return replace(mark, at=at(mark.at), letter_mm=factor * mark.letter_mm)


def overlap(one: Box, other: Box) -> bool:
    """Return whether two boxes have room in common."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def in_words(length_mm: float) -> str:
    """Return a length [mm] in both systems, for a sentence that says what is wrong."""
    from sim.units.text import in_both

    return in_both("drawn_m", round(length_mm, 1) / mm(1.0))


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
