"""A bill of items: a CSV file from a spreadsheet, an item a row, the unit of each column in its head.

Cells are parted by commas, semicolons or tabs; quotes as in RFC 4180. With semicolons a comma may be the decimal mark,
but not beside points: 1,400 could then be either.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, field
from itertools import zip_longest
from typing import TYPE_CHECKING, Any

from sim.errors import Fault
from sim.scenario.bill_cells import CellError, number, plain, yes_or_no
from sim.scenario.bill_columns import NAME, BillColumn, columns, key_of_head, quantities, yes_or_no_keys
from sim.scenario.bill_slips import sums
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from sim.scenario.bundled import File

SEPARATORS = (",", ";", "\t")
SUM_VALUES = 3
"""Cells that a row of sums has at most, its name one of them: an item has a group and a station besides its mass."""


@dataclass(slots=True)
class BillRow:
    """An item as the bill has it.

    Attributes
    ----------
    line : int
        Number of the row, from 1, as a spreadsheet counts.
    values : dict
        Key -> what a scenario file would hold, without its error: ``"45 in"``; nothing where the cell is blank.
    errors : dict
        Key -> its standard deviation: ``"1 in"``.
    unread : set of str
        Keys whose cell is wrong.
    """

    line: int
    values: dict[str, str | bool] = field(default_factory=dict)
    errors: dict[str, str] = field(default_factory=dict)
    unread: set[str] = field(default_factory=set)

    @property
    def name(self) -> str:
        """Of the item; empty where it has none."""
        return str(self.values.get(NAME, ""))

    def written(self, key: str) -> str | bool:
        """Return what a scenario file would hold, with the error."""
        value = self.values[key]
        return f"{value} ± {self.errors[key]}" if key in self.errors else value

    def table(self) -> dict[str, Any]:
        """Return the item as a scenario file would hold it, without a name that another one has."""
        return {key: self.written(key) for key in self.values if key != NAME or NAME not in self.unread}


@dataclass(frozen=True, slots=True)
class Bill:
    """All items of a file, and everything that is wrong with it.

    Attributes
    ----------
    called : str
        The file in an error.
    columns : tuple of BillColumn
        Those that could be read.
    rows : tuple of BillRow
        In the order of the file.
    faults : tuple of Fault
        With file, row and column.
    unread : frozenset of str
        Keys whose column is wrong or missing.
    """

    called: str
    columns: tuple[BillColumn, ...]
    rows: tuple[BillRow, ...]
    faults: tuple[Fault, ...]
    unread: frozenset[str]

    @property
    def heads(self) -> dict[str, str]:
        """The head of the column of each key."""
        return {column.key: column.head for column in self.columns if not column.error}

    def has_error(self, key: str) -> bool:
        """Return whether there is a column for the error of a key."""
        return any(column.error and column.key == key for column in self.columns)


def read_bill(file: File, needed: Iterable[str] = ()) -> Bill:
    """Return what a CSV file says of items, with every fault of the file and its cells.

    Parameters
    ----------
    file : File
        With its text.
    needed : iterable of str
        Keys that must have a column besides the name.
    """
    faults = list[Fault]()
    separator = _separator(file.text)
    records = list(_records(file, separator, faults))
    if not records:
        faults = faults or [Fault("", "is empty: its first row names the columns, as in name, group", file.called, 1)]
        return Bill(file.called, (), (), tuple(faults), frozenset())
    (top, heads), *below = records
    known, unread = _known(heads, needed, lambda head, what: faults.append(Fault(head, what, file.called, top)))
    comma = separator == ";"
    faults += (Fault(head, what, file.called, at) for at, head, what in _odd_marks(known, below) if comma)
    rows = [BillRow(at) for at, _ in below]
    for row, (at, cells) in zip(rows, below, strict=True):
        faults += (Fault(*said, file.called, at) for said in _fill(row, known, cells, comma=comma))
    for row in [row for row in rows if sums(row.name) and len(row.values) <= SUM_VALUES]:
        rows.remove(row)
        faults.append(Fault(NAME, f"is {quoted(row.name)}, a row of sums: leave it out", file.called, row.line))
    if NAME not in unread:
        faults += (Fault(NAME, what, file.called, row.line) for row, what in _unnamed(rows))
    faults.sort(key=lambda fault: fault.line)
    read = tuple(one for one in known if one and one.key)
    return Bill(file.called, read, tuple(rows), tuple(faults), unread)


def _known(
    heads: Sequence[str], needed: Iterable[str], tell: Callable[[str, str], None]
) -> tuple[list[BillColumn | None], frozenset[str]]:
    """Return the columns, None where one is wrong, and the keys that cannot be read; tell head and fault of these."""
    known, unread = list[BillColumn | None](), set[str]()
    for one in columns(heads):
        known.append(one if isinstance(one, BillColumn) else None)
        if not isinstance(one, BillColumn):
            tell(_place(one[0]), one[1])
            unread.add(key_of_head(one[0]))
    for key in (NAME, *needed):
        if key not in {*unread, *(one.key for one in known if one)}:
            tell(key, "is missing: a column of that name, which each item needs")
            unread.add(key)
    return known, frozenset(unread)


def _unnamed(rows: Iterable[BillRow]) -> Iterator[tuple[BillRow, str]]:
    """Yield the rows whose item cannot be told from the others, which are then none to go by, and why."""
    seen = set[str]()
    for row in rows:
        if row.name in seen or not row.name:
            row.unread.add(NAME)
            twice = f"must not be the name of another item, got {quoted(row.name)}"
            yield row, twice if row.name else "is missing: each item needs one of its own"
        seen.add(row.name)


def _odd_marks(
    known: Sequence[BillColumn | None], rows: Sequence[tuple[int, list[str]]]
) -> Iterator[tuple[int, str, str]]:
    """Yield row, column and sentence of each number that has a decimal point among commas, or a comma among points."""
    marked: dict[str, list[tuple[int, str, str]]] = {".": [], ",": []}
    for at, cells in rows:
        for column, cell in zip(known, cells, strict=False):
            if column and column.unit and ("." in cell) != ("," in cell):
                marked["." if "." in cell else ","].append((at, column.head, cell))
    few, many = sorted(marked, key=lambda mark: len(marked[mark]))
    if marked[few]:
        usual = "point" if many == "." else "comma"
        for at, head, cell in marked[few]:
            yield at, head, f"must have a decimal {usual}, as most numbers of the file have, got {quoted(cell)}"


def _place(head: str) -> str:
    return head if head.isprintable() and len(head) <= 60 else quoted(head)


def _separator(text: str) -> str:
    """Return what parts the cells of the first row, the one that makes most heads of it."""
    first = next((line for line in text.splitlines() if line.strip()), "")

    def known(separator: str) -> int:
        cells = next(csv.reader([first], delimiter=separator), [])
        return sum(isinstance(one, BillColumn) and bool(one.key) for one in columns(cells))

    return max(SEPARATORS, key=known)


def _records(file: File, separator: str, faults: list[Fault]) -> Iterator[tuple[int, list[str]]]:
    """Yield number and cells of every row that is not blank."""
    at = 0
    try:
        reader = csv.reader(io.StringIO(file.text, newline=""), delimiter=separator, strict=True)
        for at, cells in enumerate(reader, start=1):
            if any(cell.strip() for cell in cells):
                yield at, cells
    except csv.Error as error:
        faults.append(Fault("", f"is not CSV from here on: {error}", file.called, at + 1))


def _fill(
    row: BillRow, known: Sequence[BillColumn | None], cells: Sequence[str], *, comma: bool
) -> Iterator[tuple[str, str]]:
    """Put the cells of a row into it; yield column and sentence of what is wrong with them, in order."""
    filled = [cell if cell.strip() else "" for cell in cells]
    for place, (column, cell) in enumerate(zip_longest(known[: len(filled)], filled), start=1):
        if not cell:
            continue
        if place > len(known) or (column and not column.key):
            yield (f"column {place}", f"must have a name in the first row, got {quoted(cell)}")
        elif column:
            try:
                _put(row, column, cell, comma=comma)
            except CellError as error:
                row.unread.add(column.key)
                yield (column.head, str(error))
    for key in row.errors.keys() - row.values.keys() - row.unread:
        head = next(column.head for column in known if column and column.key == key and column.error)
        yield (head, f"must be blank where {key} is blank, got {quoted(row.errors[key])}")


def _put(row: BillRow, column: BillColumn, cell: str, *, comma: bool) -> None:
    if quantities()[column.key] is None:
        row.values[column.key] = yes_or_no(cell) if column.key in yes_or_no_keys() else plain(cell)
        return
    text = f"{number(cell, comma=comma)} {column.unit}" if column.unit else cell.strip()
    if column.error and text.startswith(("-", "±")):
        what = f"must be a positive number, got {quoted(cell)}"
        raise CellError(what)
    if column.error:
        row.errors[column.key] = text
    else:
        row.values[column.key] = text
