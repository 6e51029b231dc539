"""Parts seen from the upper right by parallel rays, their faces true to shape, and what each hides of others."""

from __future__ import annotations

import heapq
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from shapely import Polygon, STRtree, union_all
from shapely.affinity import scale, translate

from sim.display.assembly.data import Fastener
from sim.units.convert import mm
from viz.drawings.hidden_lines import CHORD_MM, is_clear, prisms
from viz.drawings.solid_stl import polygons

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Sequence

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Part

    Piece = Part | Fastener
    Shift = tuple[float, float, float]

WAY = (-0.72, -0.42)
"""Where a millimetre toward who looks leads on paper: down and left, so that right sides and tops are seen."""
EVEN_MM = 1e-3
FLAT = 0.002
"""By which a curve may be drawn flat, per extent."""


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A prism of a part, x right, y up and z toward who looks.

    Attributes
    ----------
    of : Part or Fastener
        What it belongs to.
    shape, filled : geometry
        Its outline with its holes, and without. [mm]
    back, face : float
        Its ends, the face nearer to who looks. [mm]
    own : tuple of bool
        Whether back and face are ends of the part, not cuts through it.
    """

    of: Piece
    shape: BaseGeometry
    filled: BaseGeometry
    back: float
    face: float
    own: tuple[bool, bool] = (True, True)

    def at(self, level: float, shape: BaseGeometry) -> BaseGeometry:
        """Return an outline on paper where it stands at a level. [mm]."""
        return translate(shape, WAY[0] * level, WAY[1] * level)


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """A part or a screw in its place, as one sees it.

    Attributes
    ----------
    of : Part or Fastener
        What it is.
    solids : tuple of Solid
        Its prisms.
    shadow : geometry
        What they cover along the shaft, holes too. [mm]
    back, face : float
        Its ends, the face nearer to who looks. [mm]
    first : float
        Which place along the shaft says when it is put on: its middle, the head of a screw. [mm]
    """

    of: Piece
    solids: tuple[Solid, ...]
    shadow: BaseGeometry
    back: float
    face: float
    first: float

    def moved(self, shift: Shift) -> Iterator[Solid]:
        """Yield its prisms, moved to the right, up and nearer. [mm]."""
        right, up, near = shift
        for one in self.solids:
            shape, filled = (translate(each, right, up) for each in (one.shape, one.filled))
            yield replace(one, shape=shape, filled=filled, back=one.back + near, face=one.face + near)


@dataclass(frozen=True, slots=True, eq=False)
class Shown:
    """What is seen of a prism on paper at full size.

    Attributes
    ----------
    of : Part or Fastener
        What it belongs to.
    area, lines : geometry
        What is seen of it. [mm]
    plain : geometry
        Its area without what is seen through the holes of others. [mm]
    """

    of: Piece
    area: BaseGeometry
    lines: BaseGeometry
    plain: BaseGeometry

    @property
    def clear(self) -> bool:
        """Whether it is seen through."""
        return is_clear(self.of)


def body(piece: Piece, *, behind: bool) -> Body:
    """Return a part or screw as one sees it who stands in front, or behind."""
    solids = tuple(_solids(piece, -1.0 if behind else 1.0))
    back, face = min(one.back for one in solids), max(one.face for one in solids)
    first = (back + face) / 2.0
    if isinstance(piece, Fastener):
        first = face if piece.front != behind else back
    return Body(piece, solids, union_all([one.filled for one in solids]), back, face, first)


def _solids(piece: Piece, side: float) -> Iterator[Solid]:
    for _, exact, start, end in prisms((piece,)):
        left, low, right, high = exact.bounds
        shape = exact.simplify(CHORD_MM + FLAT * max(right - left, high - low))
        seen = scale(shape, side, 1.0, origin=(0.0, 0.0))
        back, face = sorted((side * start, side * end))
        yield Solid(piece, seen, union_all([Polygon(each.exterior) for each in polygons(seen)]), back, face)


def shown(drawn: Iterable[Solid], pale: Collection[Piece] = ()) -> list[Shown]:
    """Return what is seen of each prism that is not hidden whole, the nearest first; what is pale hides nothing."""
    parts = list(_sliced(list(drawn)))
    if not parts:
        return []
    whole = [_whole(one) for one in parts]
    swept = [_bored(one, filled) for one, filled in zip(parts, whole, strict=True)]
    tree = STRtree(whole)
    order = _nearest_first(parts, whole, tree)
    through = set(map(id, pale))
    rank = {number: place for place, number in enumerate(order)}
    found: list[Shown] = []
    for number in order:
        over = (other for other in tree.query(whole[number]).tolist() if rank[other] < rank[number])
        near = [other for other in over if not (is_clear(parts[other].of) or id(parts[other].of) in through)]
        cover, filled = (union_all([shapes[other] for other in near]) for shapes in (swept, whole))
        area = swept[number].difference(cover)
        if area.area > EVEN_MM:
            lines = _lines(parts[number], swept[number]).difference(cover)
            found.append(Shown(parts[number].of, area, lines, area.difference(filled)))
    return found


def _sliced(drawn: Sequence[Solid]) -> Iterator[Solid]:
    """Yield the prisms, cut where others beside them begin or end: so any two lie one before the other or abreast."""
    tree = STRtree([one.shape.envelope for one in drawn])
    for one in drawn:
        near = [drawn[number] for number in tree.query(one.shape.envelope).tolist()]
        ends = {end for other in near for end in (other.back, other.face)}
        inner = [end for end in sorted(ends) if one.back + EVEN_MM < end < one.face - EVEN_MM]
        levels = [one.back, *(end for before, end in pairwise([one.back, *inner]) if end - before > EVEN_MM), one.face]
        for back, face in pairwise(levels):
            yield replace(one, back=back, face=face, own=(back == one.back, face == one.face))


def _whole(one: Solid) -> BaseGeometry:
    """Return what a prism without holes covers."""
    back, face = one.at(one.back, one.filled), one.at(one.face, one.filled)
    if one.filled.convex_hull.area - one.filled.area < EVEN_MM * one.filled.area:
        return union_all([back, face]).convex_hull
    return union_all([back, face, *_flanks(one)])


def _bored(one: Solid, whole: BaseGeometry) -> BaseGeometry:
    """Return what a prism covers without that where one looks through its holes."""
    holes = one.filled.difference(one.shape)
    return whole if holes.is_empty else whole.difference(one.at(one.back, holes).intersection(one.at(one.face, holes)))


def _flanks(one: Solid) -> Iterator[BaseGeometry]:
    """Yield what the rim of a prism sweeps from its back to its face."""
    for each in polygons(one.filled):
        for (ax, ay), (bx, by) in pairwise(each.exterior.coords):
            corners = ((ax, ay, one.back), (bx, by, one.back), (bx, by, one.face), (ax, ay, one.face))
            flank = Polygon([(x + WAY[0] * z, y + WAY[1] * z) for x, y, z in corners])
            if flank.is_valid and flank.area > 0.0:
                yield flank


def _lines(one: Solid, swept: BaseGeometry) -> BaseGeometry:
    """Return the rim of the face, the outline of the whole, and what is seen of the rear rim of a hole through it."""
    ends = zip((one.back, one.face), one.own, strict=True)
    cuts = [one.at(level, one.filled.boundary).buffer(EVEN_MM) for level, own in ends if not own]
    outer = union_all([Polygon(each.exterior).boundary for each in polygons(swept)])
    lines = [outer.difference(union_all(cuts)) if cuts else outer]
    if one.own[1]:
        lines.append(one.at(one.face, one.shape).boundary)
    holes = one.filled.difference(one.shape)
    if one.own[0] and not holes.is_empty:
        lines.append(one.at(one.back, holes.boundary).intersection(one.at(one.face, holes)))
    return union_all(lines)


def _nearest_first(parts: Sequence[Solid], swept: Sequence[BaseGeometry], tree: STRtree) -> list[int]:
    """Return the numbers of prisms, each before those that it may hide."""
    hides: list[list[int]] = [[] for _ in parts]
    waits = [0] * len(parts)
    for one, other in tree.query(list(swept), predicate="intersects").T.tolist():
        if one < other:
            near, far = (one, other) if _nearer(parts[one], parts[other]) else (other, one)
            hides[near].append(far)
            waits[far] += 1
    order: list[int] = []
    ready = [(-parts[number].face, number) for number, count in enumerate(waits) if count == 0]
    heapq.heapify(ready)
    left = set(range(len(parts)))
    while left:  # where three hide each other in a ring, the one that reaches farthest forward goes first
        number = heapq.heappop(ready)[1] if ready else max(left, key=lambda each: (parts[each].face, each))
        if number in left:
            left.discard(number)
            order.append(number)
            for far in hides[number]:
                waits[far] -= 1
                if waits[far] == 0:
                    heapq.heappush(ready, (-parts[far].face, far))
    return order


def _nearer(one: Solid, other: Solid) -> bool:
    """Return whether a prism stands nearer than another: before it, at its right, above it, or round it."""
    mine = (one.back, *one.shape.bounds[:2]), (one.face, *one.shape.bounds[2:])
    its = (other.back, *other.shape.bounds[:2]), (other.face, *other.shape.bounds[2:])
    for axis in range(3):
        if mine[0][axis] >= its[1][axis] - EVEN_MM:
            return True
        if its[0][axis] >= mine[1][axis] - EVEN_MM:
            return False
    return one.shape.convex_hull.area > other.shape.convex_hull.area


def place_mm(piece: Piece, *, behind: bool) -> float:
    """Return the middle of a part along the shaft, toward who looks. [mm]."""
    return mm(piece.z_from_m + piece.z_to_m) / (-2.0 if behind else 2.0)
