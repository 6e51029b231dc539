"""An exploded view: parts drawn apart along the shaft, seen from the upper right, each with its item number."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from shapely import LineString, Polygon, STRtree, union_all
from shapely.affinity import translate

from sim.units.convert import mm
from viz.drawings.hidden_lines import CHORD_MM, Seen, prisms, visible
from viz.drawings.items import key
from viz.drawings.marks import Note, Ring, Stroke, box_of
from viz.drawings.solid_stl import polygons
from viz.drawings.view import View

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Fastener, Part
    from viz.drawings.marks import Mark, Point

    Any_ = Part | Fastener

WAY = (0.80, 0.42)
"""Where a millimetre toward the visitor leads on paper at full size; depth is drawn at nine tenths."""
BALLOON_MM = 5.2
LETTER_MM = 1.9
FEW = 12
"""Parts up to which the gaps between them are wide."""
OUT_MM = 6.0
"""Distance of the balloons from the parts. [mm]"""


def exploded(parts: Sequence[Any_], numbers: Mapping[tuple[object, ...], int], room: Point, what: str) -> View:
    """Return parts apart along the shaft in a room of paper [mm]; one of each kind has its number."""
    apart = _apart(parts)
    shapes = [(each, list(_drawn(each, shift))) for each, shift in zip(parts, apart, strict=True)]
    plain = visible([one for _, drawn in shapes for one in drawn], 1.0)
    left, low, right, high = box_of(plain)
    margins = room[0] - 2.0 * (OUT_MM + BALLOON_MM + 2.0), room[1] - BALLOON_MM - 2.0
    scale = min(margins[0] / (right - left), margins[1] / (high - low), 2.0)
    marks: list[Mark] = [Stroke([(x * scale, y * scale) for x, y in one.points], one.pen) for one in plain]
    spots: dict[int, Point] = {}
    for number, at in _spots(shapes, numbers).items():
        spots[number] = at[0] * scale, at[1] * scale
    marks += _balloons(spots, (left * scale, low * scale, right * scale, high * scale), room[1])
    return View(tuple(marks), scale, what)


def _spots(
    shapes: Sequence[tuple[Any_, Sequence[Seen]]], numbers: Mapping[tuple[object, ...], int]
) -> dict[int, Point]:
    """Return where each item is pointed at: in the largest piece of it that nothing nearer hides. [mm]."""
    every = [one for _, drawn in shapes for one in drawn]
    tree = STRtree([one.shape for one in every])
    best: dict[int, tuple[float, Point]] = {}
    for each, drawn in shapes:
        for one in drawn:
            over = (every[number] for number in tree.query(one.shape).tolist())
            nearer = [other.shape for other in over if other.near > one.near + 1e-6]
            left = one.shape.difference(union_all(nearer)) if nearer else one.shape
            piece = max(polygons(left), key=lambda polygon: polygon.area, default=None)
            area, shape = (piece.area, piece) if piece is not None else (0.0, one.shape)
            at = shape.representative_point()
            if area > best.get(numbers[key(each)], (-1.0, (0.0, 0.0)))[0]:
                best[numbers[key(each)]] = area, (at.x, at.y)
    return {number: at for number, (_, at) in best.items()}


def _apart(parts: Sequence[Any_]) -> list[float]:
    """Return how far each part is moved along the shaft so that none stands behind the face of the one before. [mm]."""
    order = sorted(range(len(parts)), key=lambda each: (parts[each].z_from_m + parts[each].z_to_m, each))
    alike: tuple[tuple[object, ...], float] = ((), 0.0)
    shifts, end, before = [0.0] * len(parts), -math.inf, 0.0
    extent = max((shape.bounds[2] - shape.bounds[0] for _, shape, _, _ in prisms(parts)), default=50.0)
    gap = 0.06 * extent * min(1.0, FEW / len(parts)) + 8.0
    for number in order:
        each = parts[number]
        start, stop = mm(each.z_from_m), mm(each.z_to_m)
        if alike != (key(each), round(start, 3)):
            before = 0.0 if end == -math.inf else end + gap - start
            end, alike = stop + before, (key(each), round(start, 3))
        shifts[number] = before
    return shifts


def _drawn(each: Any_, shift: float) -> Iterator[Seen]:
    """Yield each prism of a part as it is seen."""
    for _, exact, start, end in prisms((each,)):
        shape = exact.simplify(10.0 * CHORD_MM)
        back, face = (translate(shape, WAY[0] * z, WAY[1] * z) for z in (start + shift, end + shift))
        swept = union_all([back, face, *_flanks(shape, start + shift, end + shift)])
        yield Seen(swept, end + shift, edges=face.boundary)


def _flanks(shape: BaseGeometry, start: float, end: float) -> Iterator[BaseGeometry]:
    """Yield what the outer rim of a prism sweeps from its back to its face."""
    for polygon in polygons(shape):
        for (ax, ay), (bx, by) in pairwise(polygon.exterior.coords):
            flank = Polygon(
                [
                    (ax + WAY[0] * start, ay + WAY[1] * start),
                    (bx + WAY[0] * start, by + WAY[1] * start),
                    (bx + WAY[0] * end, by + WAY[1] * end),
                    (ax + WAY[0] * end, ay + WAY[1] * end),
                ]
            )
            if flank.is_valid and flank.area > 0.0:
                yield flank


def _balloons(spots: Mapping[int, Point], box: tuple[float, float, float, float], most: float) -> Iterator[Mark]:
    """Yield numbers in rings at both sides, their leaders uncrossed."""
    left, low, right, high = box
    ranked = sorted(spots, key=lambda number: spots[number][0])
    half = (len(ranked) + 1) // 2
    for side, column in ((-1.0, ranked[:half]), (1.0, ranked[half:])):
        x = left - OUT_MM if side < 0.0 else right + OUT_MM
        down = sorted(column, key=lambda number: spots[number][1])
        room = max(high - low, (BALLOON_MM + 0.6) * max(len(down) - 1, 0))
        step = min(room, most - BALLOON_MM) / max(len(down) - 1, 1)
        start = (low + high - step * (len(down) - 1)) / 2.0
        ends = [(x - side * BALLOON_MM / 2.0, start + step * turn) for turn in range(len(down))]
        down = _uncrossed(down, ends, spots)
        for turn, number in enumerate(down):
            y = start + step * turn
            yield Stroke([ends[turn], spots[number]], "leader")
            yield Ring(spots[number], 0.7, "edge")
            yield Ring((x, y), BALLOON_MM, "thin")
            yield Note(str(number), (x, y), "thin", LETTER_MM)


def _uncrossed(column: Sequence[int], ends: Sequence[Point], spots: Mapping[int, Point]) -> list[int]:
    """Return items in an order in which no two leaders of a column cross.

    Two that cross change places: the sum of the lengths falls each time, so it ends.
    """
    order = list(column)
    changed = True
    while changed:
        changed = False
        for one in range(len(order)):
            for other in range(one + 1, len(order)):
                first, last = (LineString([ends[at], spots[order[at]]]) for at in (one, other))
                if first.crosses(last):
                    order[one], order[other] = order[other], order[one]
                    changed = True
    return order
