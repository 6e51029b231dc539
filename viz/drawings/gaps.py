"""Gaps that are measured before the guard is closed and on the finished display, and how the angle of blade 1 is."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, hypot
from typing import TYPE_CHECKING

from shapely import Point

from sim.display.assembly.housing import LEVER_SLOT_M
from sim.display.assembly.interference import shape_of
from viz.sheets.blocks import Value, rows
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Fastener, Part
    from sim.studies.exhibit import Exhibit
    from viz.sheets.blocks import Cell, Table
    from viz.sheets.format import Units

INSIDE, OUTSIDE = "blade_gap_m", "nip_gap_m"
"""Quantities of checks that are gaps: those that only an open guard lets one reach, and the others."""
FLAT_M = 0.001
"""Within which the blades are flat: common practice, no source. [m]"""
BLADE_CLEAR_M = 2.0 * FLAT_M
"""Least gap before the blades, as they are measured. [m]"""
HEADS = ["gap", "as drawn", "", "limit"]


def checked(exhibit: Exhibit, quantity: str) -> float:
    """Return the value of the first check of a quantity."""
    return next(each.value for each in exhibit.checks if each.quantity == quantity)


def inner_gaps(exhibit: Exhibit, assembly: Assembly) -> Table:
    """Return every gap that is measured before the backboard is on: as drawn, and its limit."""
    lines = [*_checked(exhibit, INSIDE), _before_blade(assembly), *_brake(assembly)]
    return rows("Gaps to measure before the backboard is on", HEADS, lines)


def outer_gaps(exhibit: Exhibit, assembly: Assembly) -> Table:
    """Return every gap that is measured on the finished display: as drawn, and its limit."""
    (slot,) = assembly.part("cover").slots
    wide, most = (Value(OUTSIDE, each) for each in (slot.width_m, LEVER_SLOT_M))
    lines = [*_checked(exhibit, OUTSIDE), ("width of the slot of the lever", wide, "at most", most)]
    return rows("Gaps to measure", HEADS, lines)


def _checked(exhibit: Exhibit, quantity: str) -> Iterator[tuple[Cell, ...]]:
    for each in exhibit.checks:
        if each.quantity == quantity:
            yield each.name, Value(quantity, each.value), each.bound, Value(quantity, each.limit)


def _before_blade(assembly: Assembly) -> tuple[Cell, ...]:
    """Return the gap from the sweep of the blades to what stands nearest in front of it."""
    blades = assembly.part("propeller")
    assert blades.outline_m is not None
    swept = Point(blades.x_m, blades.y_m).buffer(max(hypot(x, y) for x, y in blades.outline_m.tolist()))
    others: tuple[Part | Fastener, ...] = (*assembly.parts, *assembly.fasteners)
    gap_m, name = min(
        (slab.z_from_m - blades.z_to_m, each.name)
        for each in others
        if each.group != "propeller"
        for slab in each.slabs
        if slab.z_to_m > blades.z_to_m and swept.intersects(shape_of(slab, each))
    )
    return f"blade to {name}", Value(OUTSIDE, gap_m), "at least", Value(OUTSIDE, BLADE_CLEAR_M)


def _brake(assembly: Assembly) -> Iterator[tuple[Cell, ...]]:
    for disc in (each for each in assembly.parts if each.name == "brake disc"):
        front = min(each.z_from_m for each in assembly.parts if each.name == "magnet" and each.z_from_m > disc.z_from_m)
        gap = front - disc.z_to_m
        yield "brake disc to a magnet", Value(OUTSIDE, gap), "at least", Value(OUTSIDE, gap / 2.0)


def blade_edge(assembly: Assembly, units: Units) -> dict[str, str]:
    """Return where the longest straight upper edge of blade 1 lies, and how it slopes with blade 1 level."""
    outline_m = assembly.part("propeller").outline_m
    assert outline_m is not None
    corners = outline_m.tolist()
    upper = [ends for ends in map(sorted, pairwise([*corners, corners[0]])) if _on_upper_edge(ends)]
    (x0, y0), (x1, y1) = max(upper, key=lambda ends: hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]))
    slope = atan2(y1 - y0, x1 - x0)
    near, far = (text_of(Value("hole_x_m", each, decimals=3 if units == "us" else 1), units) for each in (x0, x1))
    return {
        "near": near,
        "far": far,
        "way": "rises" if slope > 0.0 else "falls",
        "slope": text_of(Value("placed_rad", abs(slope), decimals=1), units),
    }


def _on_upper_edge(ends: list[list[float]]) -> bool:
    """Return whether a line belongs to the upper edge of blade 1, which points to the right."""
    (x0, y0), (x1, y1) = ends
    return x0 > -1e-6 and min(y0, y1) > 0.0 and abs(y1 - y0) < x1 - x0
