"""Outlines in numbers, so that a part can be marked out from paper: lines and arcs, and the cam by angle."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, hypot, radians, sin, tau
from typing import TYPE_CHECKING

import numpy as np
from shapely import LineString, Polygon

from sim.display.shapes import CHORD_ERROR_M
from sim.units.convert import mm
from viz.drawings.bores import circle_of
from viz.drawings.lengths import dimension
from viz.sheets.blocks import Column, Table, Value, rows, say

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.display.rise_laws import FloatArray
    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Point
    from viz.sheets.format import Units

STRAIGHT_MM = 1.2
"""Chords of arcs are shorter than this, where their radius is below some 20 mm; longer ones are lines. [mm]"""
TRUE_MM = 0.02
"""By which an arc may miss a corner of the outline. [mm]"""
ARC_MM = 1.2 * mm(CHORD_ERROR_M)
"""By which a corner may miss its arc: where a line cuts the arc off, the corner is on a chord. [mm]"""
ENDS_APART = 5
"""Of more corners than this, the first and the last have no part in finding the arc."""
CAM_STEP_DEG = 2
"""Step of the table of the cam. [°]"""
BESIDE = 3
"""Pairs of columns in which the table of the cam stands."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight line, or an arc, from the end of the piece before it.

    Attributes
    ----------
    end : tuple of float
        Where it ends. [mm]
    centre : tuple of float or None
        Centre of an arc; None for a line. [mm]
    radius : float
        Radius of an arc; 0 for a line. [mm]
    hollow : bool
        Whether an arc is hollow, its centre outside the part.
    """

    end: Point
    centre: Point | None = None
    radius: float = 0.0
    hollow: bool = False


def outline_pieces(corners: Sequence[Point]) -> tuple[Piece, ...]:
    """Return the lines and arcs of a closed outline, anticlockwise, from the end of its longest line. [mm]."""
    ring = np.array(corners, dtype=float)
    ring = ring if Polygon(ring).exterior.is_ccw else ring[::-1]
    steps = np.hypot(*(np.roll(ring, -1, axis=0) - ring).T)
    ring = np.roll(ring, -int(np.argmax(steps)) - 1, axis=0)
    ring = np.vstack([ring, ring[:1]])
    pieces: list[Piece] = []
    start = 0
    while start < len(ring) - 1:
        end, arc = _longest_arc(ring, start)
        if arc is None:
            end = start + 1
            pieces.append(Piece(_point(ring[end])))
        else:
            middle, radius, hollow = arc
            pieces.append(Piece(_point(ring[end]), middle, radius, hollow))
        start = end
    return tuple(_merged(pieces, _point(ring[0])))


def _longest_arc(ring: FloatArray, start: int) -> tuple[int, tuple[Point, float, bool] | None]:
    """Return how far one arc reaches from a corner, and that arc; None where a line begins."""
    best: tuple[int, tuple[Point, float, bool] | None] = (start + 1, None)
    for end in range(start + 3, len(ring)):
        arc = _arc(ring[start : end + 1])
        if arc is None:
            break
        best = end, arc
    return best


def _arc(run: FloatArray) -> tuple[Point, float, bool] | None:
    """Return centre, radius and sense of the arc through corners, None where they are on none."""
    chords = np.hypot(*np.diff(run, axis=0).T)
    if chords.max() > 3.0 * np.median(chords) + TRUE_MM:
        return None
    middle, radius = circle_of(run[1:-1] if len(run) > ENDS_APART else run)
    off = np.abs(np.hypot(*(run - middle).T) - radius)
    if not np.isfinite(radius) or radius > 2000.0 or off.max() > ARC_MM:
        return None
    (a, b), (c, d) = run[1] - run[0], run[2] - run[1]
    sag = radius - np.sqrt(max(radius**2 - (chords.max() / 2.0) ** 2, 0.0))
    return None if sag > TRUE_MM else (middle, radius, bool(a * d - b * c < 0.0))


def _point(corner: FloatArray) -> Point:
    return float(corner[0]), float(corner[1])


def _merged(pieces: Sequence[Piece], first: Point) -> list[Piece]:
    """Return the pieces with lines on one straight line joined, and short steps left out."""
    kept: list[Piece] = []
    starts: list[Point] = []
    at = first
    for piece in pieces:
        if kept and piece.centre is None and kept[-1].centre is None and _straight(starts[-1], at, piece.end):
            kept[-1] = piece
        else:
            starts.append(at)
            kept.append(piece)
        at = piece.end
    return kept


def _straight(a: Point, b: Point, c: Point) -> bool:
    long = hypot(c[0] - a[0], c[1] - a[1])
    aside = abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
    return aside < TRUE_MM / 4.0 * long


def origin_of(drawing: Drawing) -> Point:
    """Return the place from which a part is marked out: the centre of hole 1, else its lower left corner. [mm]."""
    return drawing.circles[0][0] if drawing.circles else (drawing.box[0], drawing.box[1])


def is_box(corners: Sequence[Point]) -> bool:
    """Return whether an outline is a rectangle along the axes."""
    xs, ys = zip(*corners, strict=True)
    shape = Polygon(corners)
    return bool(abs(shape.area - (max(xs) - min(xs)) * (max(ys) - min(ys))) < 1e-6 * shape.area)


def true_box(corners: Sequence[Point]) -> tuple[float, float, float, float]:
    """Return left, bottom, right and top of an outline whose arcs are whole, not the chords that stand for them. [mm].

    Examples
    --------
    >>> true_box([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)])
    (0.0, 0.0, 4.0, 3.0)
    """
    pieces = outline_pieces(corners)
    across, up = ([corner[axis] for corner in corners] for axis in (0, 1))
    at = pieces[-1].end
    for one in pieces:
        if one.centre is not None:
            (x, y), radius = one.centre, one.radius
            first, last = (atan2(b - y, a - x) for a, b in ((one.end, at) if one.hollow else (at, one.end)))
            sweep = tau if len(pieces) == 1 else (last - first) % tau
            for way, (a, b) in enumerate(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))):
                if (way * tau / 4.0 - first) % tau < sweep:
                    across.append(x + radius * a)
                    up.append(y + radius * b)
        at = one.end
    return min(across), min(up), max(across), max(up)


def outline_tables(drawing: Drawing, cutouts: Sequence[Sequence[Point]], units: Units) -> list[Table]:
    """Return a table of each outline of a part that neither its overall size nor its table of holes tells."""
    x, y = origin_of(drawing)
    named = [("Outline", drawing.outline), *((f"Opening {number}", each) for number, each in enumerate(cutouts, 1))]
    tables = []
    for name, corners in named:
        if name == "Outline" and is_box(corners):
            continue
        pieces = outline_pieces([(a - x, b - y) for a, b in corners])
        tables.append(_table(name, pieces, drawing, units))
    return tables


def _table(name: str, pieces: Sequence[Piece], drawing: Drawing, units: Units) -> Table:
    where = "the centre of hole 1" if drawing.circles else "the lower left corner"
    title = say(f"{name}, anticlockwise from the last point; x and y from {where}")

    def column(head: str, numbers: list[float | None]) -> Column:
        cells = tuple("" if each is None else dimension(each, units) for each in numbers)
        return Column(head, cells, "drawn_m")

    if len(pieces) == 1:
        heads = (column("radius", [pieces[0].radius]), *_centre(pieces, column))
        return Table(say(f"{name}, a circle; x and y from {where}"), heads)
    numbered = Column("no.", tuple(str(number) for number, _ in enumerate(pieces, 1)))
    kinds = Column("by", tuple(map(_kind, pieces)))
    return Table(
        title,
        (
            numbered,
            kinds,
            column("to x", [one.end[0] for one in pieces]),
            column("to y", [one.end[1] for one in pieces]),
            column("radius", [one.radius or None for one in pieces]),
            *_centre(pieces, column),
        ),
    )


def _centre(pieces: Sequence[Piece], column: Callable[[str, list[float | None]], Column]) -> tuple[Column, Column]:
    xs, ys = ([one.centre[axis] if one.centre else None for one in pieces] for axis in (0, 1))
    return column("centre x", xs), column("centre y", ys)


def _kind(one: Piece) -> str:
    if one.centre is None:
        return "line"
    return "hollow arc" if one.hollow else "arc"


def scribe_table(drawing: Drawing, units: Units) -> Table:
    """Return the ends of the lines to engrave, and their labels."""
    x, y = origin_of(drawing)

    lines = (
        (
            str(number),
            note.text,
            *(dimension(each, units) for (a, b) in (line[0], line[-1]) for each in (a - x, b - y)),
            "arc" if len(line) > 2 else "line",
        )
        for number, (line, note) in enumerate(zip(drawing.scribes, drawing.labels, strict=True), 1)
    )
    title = "To engrave; x and y from the centre of hole 1, arcs round it"
    return rows(title, ["no.", "label", "from x", "from y", "to x", "to y", "as"], lines)


def cam_radii(drawing: Drawing, step_deg: int = CAM_STEP_DEG) -> tuple[tuple[int, float, float], ...]:
    """Return angle from line 0 of the cam clockwise [°], radius of its edge, and of the cutter's centre path. [mm].

    Clockwise, as the cam turns anticlockwise: the roller meets the angles in the order of the table.
    """
    (x0, y0), (x1, y1) = drawing.scribes[0]
    zero = atan2(y1 - y0, x1 - x0)
    edge, path = (Polygon(each).exterior for each in (drawing.outline, drawing.cutter_path))
    far = 2.0 * max(hypot(x, y) for x, y in drawing.cutter_path)
    found = []
    for angle in range(0, 360, step_deg):
        way = zero - angle * tau / 360.0
        ray = LineString([(0.0, 0.0), (far * cos(way), far * sin(way))])
        radii = (float(np.hypot(*np.array(ray.intersection(each).coords[0]))) for each in (edge, path))
        found.append((angle, *radii))
    return tuple(found)  # type: ignore[arg-type]


def cam_radius_table(drawing: Drawing, units: Units) -> Table:
    """Return the radii of the cam by angle, in columns beside one another."""
    every = cam_radii(drawing)
    deep = -(-len(every) // BESIDE)
    heads = ["angle", "edge", "cutter"] * BESIDE

    lines = (
        [
            cell
            for column in range(BESIDE)
            if row + deep * column < len(every)
            for angle, edge, cutter in (every[row + deep * column],)
            for cell in (
                Value("placed_rad", radians(angle), decimals=0),
                dimension(edge, units),
                dimension(cutter, units),
            )
        ]
        for row in range(deep)
    )
    (x0, y0), (x1, y1) = drawing.scribes[0]
    zero = Value("placed_rad", atan2(y1 - y0, x1 - x0) % tau, decimals=2)
    title = say(
        "Radii of edge and of the path of the cutter's centre, by angle clockwise from line 0; "
        "line 0 stands {zero} anticlockwise from the x axis, which runs from hole 1 through the middle of the slot at "
        "the right",
        zero=zero,
    )
    return rows(title, heads, lines)
