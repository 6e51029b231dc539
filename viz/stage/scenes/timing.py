"""The timing disc: a paper disc on the propeller, with a mark where every round went through; the last is ringed."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage.scenes.arcs import polar, sector, way
from viz.stage.shapes import Block, Disc, Layer, Line, Polygon, Rect, Shape

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import BladesView, Snapshot

BORE = 0.62
"""Circle of the marks, as a share of the paper's radius."""
SPREAD = 0.30
"""How far marks are set apart across that circle, so that one does not hide the other."""
GOLDEN = 0.6180339887498949


def timing_disc(snapshot: Snapshot, view: BladesView, rect: Rect, layout: Layout) -> list[Shape]:  # noqa: ARG001
    """Return the paper with the blades' shadows and every mark; it stands still, as the blades do on it.

    All marks are about the blade at the top, that which was nearest to the line of fire: blades are alike.
    """
    line = view.gun.line
    arcs = line.blades, round(line.blocked_rad, 3)
    passed = tuple(
        (way(line.rotation) * math.remainder(angle, math.tau / line.blades), struck) for angle, struck in view.passed
    )
    return [_paper(arcs, passed, rect, layout.unit)]


@lru_cache(maxsize=4)
def _paper(arcs: tuple[int, float], passed: tuple[tuple[float, bool], ...], rect: Rect, unit: float) -> Layer:
    blades, blocked = arcs
    centre, radius = rect.center, 0.48 * min(rect.w, rect.h)
    ring = (0.18 * radius, 0.97 * radius)
    items: list[Shape] = [Block(rect, "back"), Disc(*centre, radius, "paper")]
    for blade in range(blades):
        middle = math.tau * blade / blades
        items.append(Polygon(sector(centre, ring, middle - 0.5 * blocked, middle + 0.5 * blocked), "blade"))
    items += [Disc(*centre, radius, "groove", rim=2 * unit), *_marks(passed, centre, radius, unit)]
    return Layer(rect, tuple(items))


def cross(place: tuple[float, float], reach: float, width: float) -> list[Shape]:
    """Return the mark of a strike, told from the others by its shape as well."""
    x, y = place
    ends = ((x - reach, y - reach), (x + reach, y + reach)), ((x - reach, y + reach), (x + reach, y - reach))
    return [Line(each, role, wide) for role, wide in (("keyline", 2.2 * width), ("strike", width)) for each in ends]


def square(x: float, y: float, size: float) -> Rect:
    """Return a square about a point."""
    return Rect(x - 0.5 * size, y - 0.5 * size, size, size)


def _marks(
    passed: tuple[tuple[float, bool], ...], centre: tuple[float, float], radius: float, unit: float
) -> list[Shape]:
    size = max(3.0, 8 * unit)
    marks: list[Shape] = []
    for count, (angle, struck) in enumerate(passed):
        apart = BORE + SPREAD * ((count * GOLDEN) % 1.0 - 0.5)
        place = polar(centre, apart * radius, -angle)
        marks += mark(place, size, struck=struck)
        if count == len(passed) - 1:
            marks.append(Disc(*place, 1.9 * size, "ink", rim=3 * unit))
    return marks


def mark(place: tuple[float, float], size: float, *, struck: bool) -> list[Shape]:
    """Return the mark of a round."""
    return cross(place, 0.7 * size, 0.25 * size) if struck else [Block(square(*place, size), "now")]
