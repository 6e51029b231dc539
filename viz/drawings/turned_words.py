"""What is said of a turned part in words: sizes with their class, drills of its threads, teeth of a pulley."""

from __future__ import annotations

import re
from math import atan2, pi, tau
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.stock import stock
from sim.units.convert import mm
from viz.drawings.bores import ALIKE_MM
from viz.drawings.lengths import dimension_text, units_of
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.display.assembly.data import Assembly, Part
    from viz.drawings.bores import Bore


def sized(wide_mm: float, fit: str, assembly: Assembly, *, across: bool = False) -> str:
    """Return a diameter, or a width across flats, with its class in the units of the sheet."""
    size = dimension_text(wide_mm, units_of(assembly.hardware))
    text = f"{size} across flats" if across else f"⌀{size}"
    return f"{text} {fit}" if fit else text


def instead(part: Part, assembly: Assembly, front_m: float) -> str:
    """Return what is said in the place of a diameter that ends there: the thread of a knob, the teeth of a pulley."""
    sold = stock(assembly.hardware)
    if part.name == "lever post" and front_m > part.z_to_m - 1e-6:
        return sold.threads["large"].name
    teeth = _teeth(part)
    if teeth and part.z_from_m + sold.belts.boss_m + 1e-6 < front_m < part.z_to_m - 1e-6:
        return f"{teeth} teeth"
    return ""


def _teeth(part: Part) -> int:
    """Return the teeth of a pulley, as its designation says; 0 of other parts."""
    found = re.search(r"pulley, (\d+) teeth", part.standard)
    return int(found[1]) if found else 0


def pulley_lines(part: Part, assembly: Assembly) -> Iterator[str]:
    """Yield what a pulley is for and the circle on which its teeth stand."""
    sold, units = stock(assembly.hardware).belts, units_of(assembly.hardware)
    if teeth := _teeth(part):
        yield f"{teeth} teeth for {sold.name},"
        yield f"pitch circle ⌀{dimension_text(mm(teeth * sold.tooth_m / pi), units)}"


def hole_lines(off: Sequence[Bore], assembly: Assembly) -> Iterator[str]:
    """Yield how many holes of a kind stand on which circle, and at which angles from the horizontal at the right."""
    kinds = dict.fromkeys(map(_kind, off))
    units = units_of(assembly.hardware)
    for thread, wide, far in kinds:
        alike = [one for one in off if _kind(one) == (thread, wide, far)]
        angles = sorted(atan2(one.at[1], one.at[0]) % tau for one in alike)
        drill = f", drilled ⌀{dimension_text(_drill(thread, assembly), units)}," if thread else ""
        size = thread or sized(wide, "", assembly)
        yield f"{len(alike)} × {size}{drill} through on a circle ⌀{dimension_text(2.0 * far, units)}"
        yield "at " + ", ".join(text_of(Value("placed_rad", angle, decimals=1), units) for angle in angles)


def tapped_lines(holes: Sequence[Bore], part: Part, assembly: Assembly) -> Iterator[str]:
    """Yield drill and depth of every thread on the axis, from the end at which it is open."""
    units, long = units_of(assembly.hardware), mm(part.thickness_m)
    for one in holes:
        if one.thread:
            end = "rear" if one.ends[0] < ALIKE_MM else "front"
            deep = dimension_text(one.ends[1] - one.ends[0], units)
            how = "through" if one.ends[1] - one.ends[0] > long - ALIKE_MM else f"{deep} deep from the {end} end"
            yield f"{one.thread}, drilled ⌀{dimension_text(_drill(one.thread, assembly), units)}, {how}"


def stud_lines(part: Part, assembly: Assembly) -> Iterator[str]:
    """Yield how far the thread of the lever's post reaches, behind which it is plain."""
    units = units_of(assembly.hardware)
    if part.name == "lever post":
        plain, stud = sorted(part.slabs, key=lambda each: each.z_to_m)[-2:]
        long = dimension_text(mm(stud.z_to_m - stud.z_from_m), units)
        wide = sized(mm(float(np.ptp(plain.outline_m[:, 0]))), "", assembly)
        yield f"{instead(part, assembly, stud.z_to_m)} on the last {long} to the front end, {wide} behind"


def _drill(thread: str, assembly: Assembly) -> float:
    """Return the drill before a thread. [mm]."""
    return mm(stock(assembly.hardware).thread(thread).drill_m)


def _kind(one: Bore) -> tuple[str, float, float]:
    """Return what holes have in common that are told together."""
    return one.thread, round(one.wide, 2), round(one.off, 2)
