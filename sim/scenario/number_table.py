"""A table of numbers as a CSV file: a head of column names, then a row of plain numbers each line."""

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
from sim.units.parsing import read

if TYPE_CHECKING:
    import os
    from collections.abc import Iterator, Mapping

    from sim.units.parsing import Allowed

SEPARATORS = (",", ";", "\t")


@dataclass(frozen=True, slots=True)
class NumberRow:
    """A row of a table.

    Attributes
    ----------
    line : int
        Where it stands in the file, from 1.
    numbers : mapping of str to float
        By column.
    """

    line: int
    numbers: Mapping[str, float]


def read_numbers(path: str | os.PathLike[str], columns: Mapping[str, Allowed], *, what: str) -> list[NumberRow]:
    """Return the rows of a CSV file whose first row names the columns, in any order; others are left alone.

    Parameters
    ----------
    path : str or path
        The file; cells are parted by commas, semicolons (then also with decimal commas) or tabs. Empty rows are none.
    columns : mapping of str to Allowed
        Column -> what its cells may be.
    what : str
        What the file is to be, for the error: ``a table of a blade``.

    Raises
    ------
    InputError
        With every fault of the file at once, each with its line.
    """
    called = str(path)
    text = fetch_beside(Path(), called, called, what=what).text
    separator = max(SEPARATORS, key=text.partition("\n")[0].count)
    rows = [(line, cells) for line, cells in _records(text, separator) if any(cell.strip() for cell in cells)]
    heads = [cell.strip() for cell in rows[0][1]] if rows else []
    faults = [Fault(name, "is missing: a column of that name", called, 1) for name in columns if name not in heads]
    if faults:
        raise InputError(faults)
    found = [
        NumberRow(line, _numbers(columns, dict(zip(heads, cells, strict=False)), (called, line, separator), faults))
        for line, cells in rows[1:]
    ]
    if faults:
        raise InputError(faults)
    return found


def _records(text: str, separator: str) -> Iterator[tuple[int, list[str]]]:
    yield from enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=separator), start=1)


def _numbers(
    columns: Mapping[str, Allowed], given: Mapping[str, str], place: tuple[str, int, str], faults: list[Fault]
) -> dict[str, float]:
    """Return the numbers of a row by column; faults are added. `place` is file, line and what parts the cells."""
    found = dict.fromkeys(columns, math.nan)
    for name, allowed in columns.items():
        try:
            found[name] = read(number(given.get(name, ""), comma=place[2] == ";"), allowed, key=name).value
        except InputError as error:
            faults += (Fault(name, fault.what, *place[:2]) for fault in error.faults)
        except CellError as error:
            faults.append(Fault(name, str(error), *place[:2]))
    return found
