"""A section of the whole display by the plane of its shafts, x = 0, seen from the left: what is cut is hatched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely import union_all
from shapely.affinity import scale as enlarged
from shapely.geometry import LineString, MultiLineString, box

from sim.units.convert import mm
from viz.drawings.balloons import balloons
from viz.drawings.hidden_lines import prisms, strokes
from viz.drawings.items import key, numbers
from viz.drawings.marks import Stroke
from viz.drawings.stack import faces, ordinates
from viz.drawings.view import SCALES, View

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Assembly, Fastener, Part
    from viz.drawings.marks import Mark, Point

SOLID = ("shaft", "pin", "screw", "bolt", "magnet")
"""Words of parts that are drawn whole, not hatched, where the plane runs along them: ISO 128-3, sections."""
PITCH_MM = 1.6
"""Of the hatching on paper. [mm]"""
BEYOND_MM = 12.0
"""How far the section reaches above and below the base. [mm]"""
BREAK_MM = 1.5
"""By which a break line runs beyond what is broken off, and half the height of its zigzag. [mm]"""
AROUND_MM = 24.0
"""Of paper, for item numbers on both sides. [mm]"""
HOW_READ = (
    "By the plane of the shafts, seen from the left, visitors at the right. Numbers in rings are items; those above "
    "and below are distances from the front of the base, of the faces on the shaft of propeller and cam, and on that "
    "of the crank, to the front positive. Thin zigzags: broken off."
)
WORDS = "Section A-A by the plane of the shafts, seen from the left."


def section_view(assembly: Assembly, room: Point) -> View:
    """Return the section, broken off above and below the base, with items and the stack, in a room of paper [mm]."""
    ends = _ends(assembly)
    cut = dict(_cut(assembly, ends))
    for scale in SCALES[1:]:
        drawn = _drawn(assembly, cut, ends, scale)
        size = View(tuple(drawn), scale, WORDS).size
        if size[0] + AROUND_MM <= room[0] and size[1] <= room[1]:
            break
    return View((*drawn, *_items(assembly, cut, drawn, scale)), scale, WORDS)


def _ends(assembly: Assembly) -> tuple[float, float]:
    """Return the heights at which what goes on is broken off: beyond the base, and below the crank. [mm]."""
    outline = assembly.part("base").outline_m
    assert outline is not None
    crank = [area.bounds[1] for each in assembly.parts if each.group == "crank" for area in cut_faces(each)]
    return min(mm(float(outline[:, 1].min())), *crank) - BEYOND_MM, mm(float(outline[:, 1].max())) + BEYOND_MM


def _cut(assembly: Assembly, ends: tuple[float, float]) -> Iterator[tuple[int, BaseGeometry]]:
    """Yield the number of each piece that is cut, and its area between two heights, z to the right and y up. [mm]."""
    kept = box(-1e4, ends[0], 1e4, ends[1])
    for number, each in enumerate(assembly.pieces):
        area = union_all(list(cut_faces(each))).intersection(kept)
        if not area.is_empty:
            yield number, area


def cut_faces(each: Part | Fastener) -> Iterator[BaseGeometry]:
    """Yield what the plane cuts of a part, z right and y up. [mm]."""
    plane = LineString([(0.0, -1e4), (0.0, 1e4)])
    for _, shape, start, end in prisms((each,)):
        met = shape.intersection(plane)
        for line in getattr(met, "geoms", (met,)):
            if line.length > 1e-6:
                yield box(start, line.bounds[1], end, line.bounds[3])


def _drawn(assembly: Assembly, cut: Mapping[int, BaseGeometry], ends: tuple[float, float], scale: float) -> list[Mark]:
    """Return the section on paper with its break lines, and the stacks of its shafts above and below."""
    marks: list[Mark] = []
    edges = MultiLineString([[(-1e4, end), (1e4, end)] for end in ends])
    for number, area in cut.items():
        marks += strokes(area.boundary.difference(edges.buffer(1e-6)), scale, "cut")
        if not _whole(assembly.pieces[number].name):
            marks += strokes(_hatching(area, number, PITCH_MM / scale), scale, "leader")
        marks += (mark for end in ends for mark in _broken(area, end, scale))
    propeller, cam, crank = (assembly.group(name).axis_m[1] for name in ("propeller", "cam", "crank"))
    above, below = faces(assembly, cut, (propeller, cam), above=True), faces(assembly, cut, (crank,), above=False)
    return [
        *marks,
        *ordinates(assembly, list(above), scale, marks, above=True),
        *ordinates(assembly, list(below), scale, marks, above=False),
    ]


def _broken(area: BaseGeometry, end: float, scale: float) -> Iterator[Stroke]:
    """Yield the break line of what goes on beyond a height: thin, with a zigzag in its middle (ISO 128-2)."""
    line = area.boundary.intersection(LineString([(-1e4, end), (1e4, end)]))
    if line.length > 1e-6:
        left, _, right, _ = (scale * edge for edge in line.bounds)
        middle, y, zig = (left + right) / 2.0, scale * end, BREAK_MM / 2.0
        points = [(left - BREAK_MM, y), (middle - zig, y), (middle - zig / 2.0, y + BREAK_MM)]
        points += [(middle + zig / 2.0, y - BREAK_MM), (middle + zig, y), (right + BREAK_MM, y)]
        yield Stroke(points, "thin")


def _items(assembly: Assembly, cut: Mapping[int, BaseGeometry], drawn: list[Mark], scale: float) -> Iterator[Mark]:
    """Yield the number of each item that is cut, once."""
    found = numbers(assembly)
    places: dict[int, list[BaseGeometry]] = {}
    for number, area in cut.items():
        places.setdefault(found[key(assembly.pieces[number])], []).append(
            enlarged(area, scale, scale, origin=(0.0, 0.0))
        )
    lines = union_all([LineString(mark.points) for mark in drawn if isinstance(mark, Stroke)])
    where = {number: union_all(areas) for number, areas in places.items()}
    yield from balloons(where, lines, union_all(list(where.values())))


def _whole(name: str) -> bool:
    return name.rsplit(maxsplit=1)[-1] in SOLID or name == "lever post"


def _hatching(area: BaseGeometry, number: int, pitch: float) -> BaseGeometry:
    """Return lines at 45° over an area; neighbours lean apart and stand closer or wider."""
    left, low, right, high = area.bounds
    lean = 1.0 if number % 2 else -1.0
    step = pitch * (1.0 + 0.3 * (number % 3)) * 2.0**0.5
    reach = high - low
    count = int((right - left + 2.0 * reach) / step) + 1
    starts = [left - reach + step * turn for turn in range(count)]
    rising = [
        LineString([(x, low), (x + reach, high)] if lean > 0.0 else [(x + reach, low), (x, high)]) for x in starts
    ]
    return MultiLineString(rising).intersection(area)
