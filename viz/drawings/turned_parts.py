"""The parts that are turned or printed, each kind once, with their item numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.display.fits import limits
from sim.units.convert import mm
from viz.drawings.items import key, numbers
from viz.drawings.lengths import dimension_text
from viz.drawings.turned_view import toleranced
from viz.sheets.blocks import rows

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part
    from viz.sheets.blocks import Cell, Table
    from viz.sheets.format import Units

PRINTED = (
    "To mill from acetal, or to print from PETG: layers of 0.2 mm (0.008 in), 4 walls, half filled, rear face down. "
    "Print check-bar.stl first: it measures 50 mm (1.969 in) within 0.2 mm (0.008 in), else scale the print by what is "
    "missing. Drill holes to size, tap those that bear a thread with its own drill"
)

FINER: dict[Units, int] = {"si": 1, "us": 1}
"""Decimals of a limit of size beyond those of a dimension."""


def to_turn(assembly: Assembly) -> Iterator[tuple[int, Part]]:
    """Yield item number and part of everything that is turned, each kind once."""
    return _made(assembly, printed=False)


def to_print(assembly: Assembly) -> Iterator[tuple[int, Part]]:
    """Yield item number and part of everything that is printed, each kind once."""
    return _made(assembly, printed=True)


def pulleys(assembly: Assembly) -> Iterator[tuple[int, Part]]:
    """Yield item number and part of every pulley: they are bought, bored and drilled."""
    for part in assembly.parts:
        if part.name.endswith("pulley"):
            yield numbers(assembly)[key(part)], part


def limit_table(assembly: Assembly, units: Units) -> Table:
    """Return the limits of size of every class and diameter that the turned parts have."""
    kinds = sorted({pair for _, part in to_turn(assembly) for pair in toleranced(part, assembly)})
    lines: list[tuple[Cell, ...]] = []
    for name, wide in kinds:
        ends = limits(name, wide / mm(1.0))
        sizes = [f"{dimension_text(wide + mm(end), units, fewer=-FINER[units])}" for end in ends]
        lines.append((f"⌀{dimension_text(wide, units)}", name, *sizes))
    return rows("Limits of size by ISO 286", ["size", "class", "from", "to"], lines)


def _made(assembly: Assembly, *, printed: bool) -> Iterator[tuple[int, Part]]:
    seen = set()
    for part in assembly.parts:
        wanted = part.process == "printed" if printed else part.made and part.outline_m is None
        if wanted and (printed or part.process != "printed") and key(part) not in seen:
            seen.add(key(part))
            yield numbers(assembly)[key(part)], part


def flat(part: Part) -> bool:
    """Return whether a part has a page of its own as a flat one."""
    return part.outline_m is not None


def sides_mm(part: Part) -> tuple[float, ...]:
    """Return width, height and thickness of a part over everything. [mm]."""
    corners = np.concatenate([slab.outline_m for slab in part.slabs])
    return *(mm(float(side)) for side in np.ptp(corners, axis=0)), mm(part.thickness_m)


def printed_text(part: Part, units: Units) -> str:
    """Return the file of a printed part and its size over everything."""
    size = " × ".join(dimension_text(side, units) for side in sides_mm(part))
    return f"{part.name.replace(' ', '-')}.stl: {size}"
