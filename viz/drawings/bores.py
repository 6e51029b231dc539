"""Holes along the axis of a part, as its slabs have them, and which outlines are round."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.stock import stock
from sim.units.convert import mm

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly, Part
    from sim.display.rise_laws import FloatArray
    from viz.drawings.marks import Point

ROUND = 1e-3
"""By which a round outline may differ from a circle, over its diameter."""
ALIKE_MM = 0.02
"""Sizes nearer than this are the same. [mm]"""


@dataclass(frozen=True, slots=True)
class Bore:
    """A hole along the axis: centre, diameter, ends from the rear end of the part [mm], and its thread if any."""

    at: Point
    wide: float
    ends: Point
    thread: str

    @property
    def off(self) -> float:
        """Distance from the axis. [mm]."""
        return hypot(*self.at)


def bores(part: Part, assembly: Assembly) -> list[Bore]:
    """Return every hole along the axis, those of slabs behind one another joined."""
    found: list[Bore] = []
    threads = threads_in(part, assembly)
    for slab in sorted(part.slabs, key=lambda each: each.z_from_m):
        ends = mm(slab.z_from_m - part.z_from_m), mm(slab.z_to_m - part.z_from_m)
        for rim in slab.openings_m:
            middle, reach = circle_of(rim)
            at, wide = (mm(middle[0]), mm(middle[1])), 2.0 * mm(reach)
            before = next((one for one in found if _joins(one, at, wide, ends[0])), None)
            thread = next((name for name, size in threads.items() if abs(size - wide) < ALIKE_MM), "")
            if before is None:
                found.append(Bore(at, wide, ends, thread))
            else:
                found[found.index(before)] = Bore(at, wide, (before.ends[0], ends[1]), thread)
    return found


def _joins(one: Bore, at: Point, wide: float, start: float) -> bool:
    near = hypot(one.at[0] - at[0], one.at[1] - at[1]) < ALIKE_MM and abs(one.wide - wide) < ALIKE_MM
    return near and abs(one.ends[1] - start) < ALIKE_MM


def threads_in(part: Part, assembly: Assembly) -> dict[str, float]:
    """Return the threads that screws find tapped in a part, with their diameters. [mm]."""
    sizes = {each.name: mm(each.diameter_m) for each in stock(assembly.hardware).threads.values()}
    tapped = {
        each.nut.removeprefix("tapped ")
        for each in assembly.fasteners
        if each.nut.startswith("tapped ") and part.name in each.joins
    }
    return {name: sizes[name] for name in sorted(tapped)}


def circle_of(corners_m: FloatArray) -> tuple[Point, float]:
    """Return centre and radius of the circle nearest to corners, exact where they stand on one. [m]."""
    lines = np.column_stack([2.0 * corners_m, np.ones(len(corners_m))])
    (x, y, rest), *_ = np.linalg.lstsq(lines, (corners_m**2).sum(axis=1), rcond=None)
    return (float(x), float(y)), float(np.sqrt(rest + x**2 + y**2))


def is_round(corners_m: FloatArray) -> bool:
    """Return whether a closed outline is a circle."""
    middle, radius = circle_of(corners_m)
    reach = np.hypot(*(corners_m - middle).T)
    return len(corners_m) > 8 and float(np.ptp(reach)) < ROUND * radius
