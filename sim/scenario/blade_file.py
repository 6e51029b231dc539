"""The blade of a propeller as a CSV file: radius, chord and angle at stations along it."""

from __future__ import annotations

import csv
import io
import math
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from sim.scenario.bill_cells import CellError, number
from sim.scenario.bundled import fetch_beside
from sim.units.parsing import Allowed, read

if TYPE_CHECKING:
    import os
    from collections.abc import Iterator, Sequence

COLUMNS = {
    "radius_share": Allowed("1", least=0.01, most=1.0),
    "chord_share": Allowed("1", least=0.0, most=0.5),
    "angle_deg": Allowed("1", least=-90.0, most=90.0),
}
"""Column -> what its cells may be: radius over tip radius, chord over diameter, angle to the plane of the disc [°]."""
SEPARATORS = (",", ";", "\t")
LEAST_ROWS = 2


@dataclass(frozen=True, slots=True)
class BladeFile:
    """What a file says of a blade, a station a row from the hub to the tip.

    Attributes
    ----------
    radius_share : tuple of float
        Radius over tip radius, ascending.
    chord_share : tuple of float
        Chord over the propeller's diameter.
    blade_angle_deg : tuple of float
        Angle of the flat lower face to the plane of the disc. [°]
    """

    radius_share: tuple[float, ...]
    chord_share: tuple[float, ...]
    blade_angle_deg: tuple[float, ...]


def read_blade(path: str | os.PathLike[str]) -> BladeFile:
    """Return the blade in a CSV file whose first row is ``radius_share,chord_share,angle_deg`` in any order.

    Parameters
    ----------
    path : str or path
        The file; cells are parted by commas, semicolons (then also with decimal commas) or tabs.

    Raises
    ------
    InputError
        With every fault of the file at once, each with its line.
    """
    called = str(path)
    text = fetch_beside(Path(), called, called, what="a table of a blade").text
    separator = max(SEPARATORS, key=text.partition("\n")[0].count)
    rows = [(line, cells) for line, cells in _records(text, separator) if any(cell.strip() for cell in cells)]
    heads = [cell.strip() for cell in rows[0][1]] if rows else []
    faults = [Fault(name, "is missing: a column of that name", called, 1) for name in COLUMNS if name not in heads]
    if faults:
        raise InputError(faults)
    values = [_values(heads, cells, (called, line), faults, comma=separator == ";") for line, cells in rows[1:]]
    if not faults:
        faults += _order_faults([row["radius_share"] for row in values], [line for line, _ in rows[1:]], called)
    if faults:
        raise InputError(faults)
    return BladeFile(*(tuple(row[name] for row in values) for name in COLUMNS))


def _records(text: str, separator: str) -> Iterator[tuple[int, list[str]]]:
    yield from enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=separator), start=1)


def _values(
    heads: Sequence[str], cells: Sequence[str], place: tuple[str, int], faults: list[Fault], *, comma: bool
) -> dict[str, float]:
    """Return the numbers of a row by column; faults are added."""
    found = dict.fromkeys(COLUMNS, math.nan)
    given = dict(zip(heads, cells, strict=False))
    for name, allowed in COLUMNS.items():
        try:
            found[name] = read(number(given.get(name, ""), comma=comma), allowed, key=name).value
        except InputError as error:
            faults += (Fault(name, fault.what, *place) for fault in error.faults)
        except CellError as error:
            faults.append(Fault(name, str(error), *place))
    return found


def _order_faults(radii: Sequence[float], lines: Sequence[int], called: str) -> Iterator[Fault]:
    """Yield what is wrong with the stations taken together."""
    if len(radii) < LEAST_ROWS:
        yield Fault("radius_share", f"must have at least {LEAST_ROWS} rows", called, lines[-1] if lines else 1)
    for inner, outer, line in zip(radii, radii[1:], lines[1:], strict=False):
        if outer <= inner:
            what = f'must be greater than {inner:g} in the row above, got "{outer:g}"'
            yield Fault("radius_share", what, called, line)
