"""Item numbers in rings at the nearest free places, their leaders as short as they can be together.

The shortest sum of leaders has no two that cross: if two did, to change their rings would make the sum shorter.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely
from shapely import LineString, Point, STRtree, union_all
from shapely.ops import nearest_points

from viz.drawings.marks import Note, Ring, Stroke

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

    from viz.drawings.marks import Mark

BALLOON_MM = 5.2
LETTER_MM = 1.9
CLEAR_MM = 0.8
"""Between a ring and the nearest line, at least. [mm]"""
PITCH_MM = BALLOON_MM + 1.2
"""From ring to ring. [mm]"""
ROUND_MM = 9.0
"""How far beyond everything drawn rings may stand. [mm]"""
INSIDE_MM = 0.7
"""How far inside the outline of a part its leader ends, where the part is wide enough. [mm]"""
NEVER = 1e6
ROUNDS = 300


def balloons(places: Mapping[int, BaseGeometry], lines: BaseGeometry, filled: BaseGeometry) -> Iterator[Mark]:
    """Yield rings with numbers, leaders, and the dots in which these end (ISO 128-2).

    Parameters
    ----------
    places : mapping of int to geometry
        Item number -> where on paper the item is seen. [mm]
    lines, filled : geometry
        What no ring may cover: lines, and areas of parts. [mm]
    """
    numbers = sorted(places)
    aims = [_aim(places[number]) for number in numbers]
    free = _free(union_all([lines, filled]))
    for number, aim, at in zip(numbers, aims, _placed(aims, free), strict=True):
        end = nearest_points(aim, at)[0]
        yield Stroke([_rim(at, end), (end.x, end.y)], "thin")
        yield Ring((end.x, end.y), 0.7, "edge")
        yield Ring((at.x, at.y), BALLOON_MM, "thin")
        yield Note(str(number), (at.x, at.y), "thin", LETTER_MM)


def _rim(at: Point, end: Point) -> tuple[float, float]:
    share = 0.5 * BALLOON_MM / at.distance(end)
    return at.x + share * (end.x - at.x), at.y + share * (end.y - at.y)


def _aim(place: BaseGeometry) -> BaseGeometry:
    """Return where a leader may end: well inside of what is seen, or in the middle of what is small."""
    inside = place.buffer(-INSIDE_MM)
    return place.representative_point() if inside.is_empty else inside


def _free(taken: BaseGeometry) -> list[Point]:
    """Return the places on a hexagonal grid where a ring covers nothing."""
    left, low, right, high = taken.bounds
    row = PITCH_MM * 3.0**0.5 / 2.0
    ups = np.arange(low - ROUND_MM, high + ROUND_MM + row, row)
    steps = np.arange(left - ROUND_MM, right + ROUND_MM + PITCH_MM, PITCH_MM)
    grid = [(x + (PITCH_MM / 2.0 if number % 2 else 0.0), y) for number, y in enumerate(ups) for x in steps]
    points = np.array([Point(at) for at in grid], dtype=object)
    shapely.prepare(taken)
    bare = ~shapely.dwithin(points, taken, BALLOON_MM / 2.0 + CLEAR_MM)
    return list(points[bare])


def _placed(aims: Sequence[BaseGeometry], free: Sequence[Point]) -> list[Point]:
    """Return the place of the ring of each item."""
    from scipy.optimize import linear_sum_assignment

    costs: NDArray[np.float64] = shapely.distance(np.array(aims)[:, None], np.array(free)[None, :])
    for _ in range(ROUNDS):
        chosen = linear_sum_assignment(costs)[1].tolist()
        rings = [free[slot] for slot in chosen]
        barred = _barred(aims, rings)
        if not barred:
            break
        for number in barred:
            costs[number, chosen[number]] += NEVER
    return rings


def _barred(aims: Sequence[BaseGeometry], rings: Sequence[Point]) -> list[int]:
    """Return items whose leaders run into the ring of another, or across its leader."""
    leaders = [LineString([ring, nearest_points(aim, ring)[0]]) for aim, ring in zip(aims, rings, strict=True)]
    tree = STRtree([ring.buffer(BALLOON_MM / 2.0 + 0.3) for ring in rings])
    found = {one for one, other in tree.query(leaders, predicate="intersects").T.tolist() if one != other}
    crossed = STRtree(leaders).query(leaders, predicate="intersects").T.tolist()
    return sorted(found | {max(pair, key=lambda each: leaders[each].length) for pair in crossed if pair[0] < pair[1]})
