"""The general arrangement: three views, in first angle for metric displays and in third angle for inch ones."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.hidden_lines import above, front, side, visible
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import EDGE_MM, Note, Stroke, box_of, dimension, shifted
from viz.drawings.view import SCALES, View

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from viz.drawings.marks import Box, Mark, Point
    from viz.sheets.format import Units

APART_MM = 22.0
"""Between the views. [mm]"""
FIRST = "First-angle projection (ISO 128): view from the left at the right of the front view, from above below it."
THIRD = "Third-angle projection (ASME Y14.3): view from the right at the right of the front view, from above above it."


def angle(assembly: Assembly) -> str:
    """Return what the projection is called, and where each view stands."""
    return FIRST if assembly.hardware == "metric" else THIRD


def three_views(assembly: Assembly, room: Point) -> View:
    """Return front, side and plan, dimensioned, at the largest usual scale that fits a room of paper [mm]."""
    first = assembly.hardware == "metric"
    all_of = assembly.pieces
    seen = visible(front(all_of), 1.0), visible(side(all_of, from_left=first), 1.0), visible(above(all_of), 1.0)
    for scale in SCALES:
        view = View(tuple(_composed(seen, scale, first=first)), scale, "Front view, side view and plan.")
        if view.size[0] <= room[0] and view.size[1] <= room[1]:
            break
    return view


def _composed(seen: tuple[list[Stroke], ...], scale: float, *, first: bool) -> Iterator[Mark]:
    drawn = [[shifted(one, (0.0, 0.0), scale) for one in view] for view in seen]
    face, flank, plan = (box_of(view) for view in drawn)
    yield from drawn[0]
    across = face[2] - flank[0] + APART_MM, 0.0
    up = 0.0, (face[1] - plan[3] - APART_MM if first else face[3] - plan[1] + APART_MM)
    yield from (shifted(one, across) for one in drawn[1])
    yield from (shifted(one, up) for one in drawn[2])
    units = units_of("metric" if first else "inch")
    yield from _sizes(_bare(face), scale, units)
    low = face[1] - 8.0 if not first else face[3] + 8.0
    flank = _bare((flank[0] + across[0], flank[1], flank[2] + across[0], flank[3]))
    deep = (flank[2] - flank[0]) / scale
    yield from dimension((flank[0], low), (flank[2], low), _length(deep, units))
    yield from (Stroke([(0.0, face[1] - 4.0), (0.0, face[3] + 4.0)], "centre"),)
    yield from (Note("A", (0.0, end), "thin", 2.5) for end in (face[1] - 6.5, face[3] + 6.5))


def _bare(box: Box) -> Box:
    """Return a box without the room for the outer half of the lines."""
    return box[0] + EDGE_MM, box[1] + EDGE_MM, box[2] - EDGE_MM, box[3] - EDGE_MM


def _sizes(face: Box, scale: float, units: Units) -> Iterator[Mark]:
    left, low, right, high = face
    wide = dimension((left, high + 12.0), (right, high + 12.0), _length((right - left) / scale, units), along_mm=12.0)
    yield from wide
    yield from dimension((left - 8.0, low), (left - 8.0, high), _length((high - low) / scale, units))


def _length(length_mm: float, units: Units) -> str:
    return dimension_text(length_mm, units, fewer=1)
