"""A section of the whole display by the plane of its shafts, x = 0, seen from the left: what is cut is hatched."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely import union_all
from shapely.geometry import LineString, MultiLineString, box

from viz.drawings.hidden_lines import prisms, strokes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Assembly, Fastener, Part
    from viz.drawings.marks import Stroke

SOLID = ("shaft", "pin", "screw", "bolt", "magnet")
"""Words of parts that are drawn whole, not hatched, where the plane runs along them: ISO 128-3, sections."""
PITCH_MM = 1.6
"""Of the hatching on paper. [mm]"""


def section(assembly: Assembly, scale: float, ends: tuple[float, float]) -> list[Stroke]:
    """Return the section between two heights on paper at a scale: z to the right, y up."""
    kept = box(-1e4, ends[0], 1e4, ends[1])
    lines: list[Stroke] = []
    for number, each in enumerate(assembly.pieces):
        area = union_all(list(cut_faces(each))).intersection(kept)
        if area.is_empty:
            continue
        lines += strokes(area.boundary, scale, "cut")
        if not _whole(each.name):
            lines += strokes(_hatching(area, number, PITCH_MM / scale), scale, "leader")
    return lines


def cut_faces(each: Part | Fastener) -> Iterator[BaseGeometry]:
    """Yield what the plane cuts of a part, z right and y up. [mm]."""
    plane = LineString([(0.0, -1e4), (0.0, 1e4)])
    for _, shape, start, end in prisms((each,)):
        met = shape.intersection(plane)
        for line in getattr(met, "geoms", (met,)):
            if line.length > 1e-6:
                yield box(start, line.bounds[1], end, line.bounds[3])


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
