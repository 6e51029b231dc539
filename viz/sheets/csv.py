"""A sheet written as CSV: a block of rows for each table, then what is said, a sentence a row."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.scenario.bill_cells import defused
from sim.units.quantities import quantity, shown
from viz.sheets.blocks import Caution, Checklist, Picture, Points, Sentence, Table, Value, Verbatim
from viz.sheets.text import number_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from viz.sheets.blocks import Block, Cell
    from viz.sheets.format import Units


def write(blocks: Iterable[Block], units: Units) -> str:
    """Return a sheet as CSV.

    Numbers of a column that share a quantity are bare, with their unit in its head; else those of a row that do, with
    the unit behind the first cell of the row. They are not rounded; a head says which way + is.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    for block in blocks:
        rows = _table(block, units) if isinstance(block, Table) else ([line] for line in _prose(block, units))
        writer.writerows([*map(_harmless, row)] for row in rows)
        writer.writerow([])
    return stream.getvalue()


def _harmless(cell: str) -> str:
    """Return a cell that a spreadsheet shows; of what it could compute only a number is left."""
    try:
        float(cell)
    except ValueError:
        return defused(cell)
    return cell


def _table(table: Table, units: Units) -> Iterator[list[str]]:
    yield [text_of(table.title, units)]
    columns = [_measured(column.cells) for column in table.columns]
    yield [_named(column.head, name, units) for column, name in zip(table.columns, columns, strict=True)]
    for row in table.rows():
        name = _measured(row[1:])
        by_row = name and not any(columns)
        first = text_of(row[0], units)
        rest = (
            _bare(cell, units) if by_row or column else text_of(cell, units)
            for cell, column in zip(row[1:], columns[1:], strict=True)
        )
        yield [_named(first, name, units) if by_row else first, *rest]
    yield from ([text_of(note, units)] for note in table.notes)


def _measured(cells: Sequence[Cell]) -> str:
    """Return the quantity that all numbers among the cells share, empty where they do not or are none."""
    names = {cell.quantity for cell in cells if isinstance(cell, Value)}
    plain = all(isinstance(cell, Value) or cell == "" for cell in cells)
    return names.pop() if len(names) == 1 and plain else ""


def _named(head: str, name: str, units: Units) -> str:
    """Return a head with the unit of its numbers and the way that is positive."""
    if not name:
        return head
    signs = quantity(name).signs
    said = ", ".join(part for part in (shown(name, units)[0], f"{signs[0]} +" if signs else "") if part)
    return f"{head} [{said}]" if said else head


def _bare(cell: Cell, units: Units) -> str:
    if not isinstance(cell, Value):
        return text_of(cell, units)
    return "" if cell.number is None else f"{number_of(replace(cell, percent=False, held=False), units):.12g}"


def _prose(block: Block, units: Units) -> list[str]:
    match block:
        case Points(lines=lines):
            return [text_of(line, units) for line in lines]
        case Checklist(title=title, lines=lines):
            return [title, *(text_of(line, units) for line in lines)]
        case Verbatim(title=title, text=text):
            return [title, *text.splitlines()]
        case Picture(title=title, alt=alt):
            return [f"{title}. {text_of(alt, units)}"]
        case Caution(text=text):
            return [text]
        case Sentence():
            return [text_of(block, units)]
    return []
