"""The radius of each arc of an outline beside it, and the centres of hollow arcs, from which a shop sets them out."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, hypot, inf, sin, tau
from operator import itemgetter
from typing import TYPE_CHECKING

from viz.drawings.crossing import Lines
from viz.drawings.hole_numbers import crowding
from viz.drawings.marks import LETTER_ADVANCE, Note, Ring, Stroke, box_of
from viz.drawings.outline_table import outline_pieces

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Mark, Point
    from viz.drawings.outline_table import Piece

AWAY_MM = (4.0, 7.0, 11.0)
"""Distances of the words from their arc, the best first. [mm]"""
ALONG = (0.5, 0.3, 0.7, 0.15, 0.85)
"""Places along an arc where its line ends, as shares of it, the best first."""
CROSS_MM = 2.0
"""Half the size of the cross at the centre of a hollow arc. [mm]"""
MOST = 12
"""Outlines of more arcs are read from their table alone."""


def hollow_centres(drawing: Drawing) -> tuple[Point, ...]:
    """Return the centre of every hollow arc of an outline. [mm]."""
    pieces = outline_pieces(drawing.outline)
    return tuple(one.centre for one in pieces if one.centre is not None and one.hollow)


def radii(drawing: Drawing, scale: float, drawn: Sequence[Mark], told: Callable[[float], str]) -> list[Mark]:
    """Return the radius of each arc with a line to it, and a cross at the centre of each hollow one.

    Parameters
    ----------
    drawing : Drawing
        The part; of one that is round the diameter says all.
    scale : float
        Paper over full size.
    drawn : sequence of Mark
        The part as it is drawn at that scale.
    told : callable
        A length in millimetres as the drawing writes it.
    """
    pieces = outline_pieces(drawing.outline)
    arcs = [(start.end, one) for start, one in pairwise([pieces[-1], *pieces]) if one.centre is not None]
    if len(pieces) == 1 or len(arcs) > MOST:
        return []
    made: list[Mark] = [mark for centre in hollow_centres(drawing) for mark in _cross(centre, scale)]
    rings = [box_of([mark]) for mark in drawn if isinstance(mark, Ring)]
    under = Lines(drawn)
    for start, one in arcs:
        words = [box_of([mark]) for mark in (*drawn, *made) if isinstance(mark, Note)]
        best: tuple[float, tuple[Mark, ...]] = (inf, ())
        for choice in _choices(f"R{told(one.radius)}", start, one, scale):
            cost = crowding(choice, words, rings, (under, Lines(made)), most=best[0])
            best = min(best, (cost, choice), key=itemgetter(0))
        made += best[1]
    return made


def _cross(centre: Point, scale: float) -> Iterator[Mark]:
    x, y = centre[0] * scale, centre[1] * scale
    yield Stroke([(x - CROSS_MM, y), (x + CROSS_MM, y)], "centre")
    yield Stroke([(x, y - CROSS_MM), (x, y + CROSS_MM)], "centre")


def _choices(text: str, start: Point, one: Piece, scale: float) -> Iterator[tuple[Mark, ...]]:
    """Yield words outside the part, each with a line that ends on the arc."""
    assert one.centre is not None
    (x, y), side = one.centre, -1.0 if one.hollow else 1.0
    first, last = (atan2(b - y, a - x) for a, b in (start, one.end))
    sweep = -((first - last) % tau) if one.hollow else (last - first) % tau
    for away in AWAY_MM:
        for share in ALONG:
            turn = first + share * sweep
            way = side * cos(turn), side * sin(turn)
            on = (x + one.radius * cos(turn)) * scale, (y + one.radius * sin(turn)) * scale
            end = on[0] + away * way[0], on[1] + away * way[1]
            note = Note(text, (0.0, 0.0), "thin")
            clear = LETTER_ADVANCE * note.letter_mm * len(text) / 2.0 + 0.8, note.letter_mm
            at = end[0] + clear[0] * way[0], end[1] + clear[1] * way[1]
            yield Note(text, at, "thin"), Stroke([on, end], "thin"), *_head(on, way)


def _head(tip: Point, way: Point) -> Iterator[Mark]:
    """Yield an arrowhead whose tip is on the arc, its line coming from outside."""
    long, half = 2.0, 0.5
    back = tip[0] + long * way[0], tip[1] + long * way[1]
    aside = -way[1] / hypot(*way) * half, way[0] / hypot(*way) * half
    yield Stroke([(back[0] + aside[0], back[1] + aside[1]), tip, (back[0] - aside[0], back[1] - aside[1])], "thin")
