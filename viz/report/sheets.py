"""Tables of the commands, made ready for paper: whole words for heads, cautions left to their own section."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.commands import gun_options as timing
from viz.commands.exhibit import GUN, INERT
from viz.report.blocks import Points
from viz.sheets import cautions
from viz.sheets.table import Table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from viz.sheets.table import Block

SAID_ELSEWHERE = {timing.HISTORY, INERT, GUN, *(text for name, text in vars(cautions).items() if name.isupper())}
HEADS = {
    "Elev": "Elevator",
    "Ail": "Aileron",
    "Real": "Real part",
    "Imag": "Imaginary part",
    "Damp": "Damping ratio",
    "Half s": "Halves in [s]",
    "Double s": "Doubles in [s]",
    "per min": "rounds a minute",
    "rounds/min": "rounds a minute",
}
"""Heads that a terminal makes short -> in full."""


def tables(sheet: Callable[..., Iterable[Block]], *answer: object, **options: object) -> Iterator[Table | Points]:
    """Yield the tables that a command's sheet prints; one of a single column becomes a list."""
    for table in (block for block in sheet(*answer, **options) if isinstance(block, Table)):
        yield ready(table) if len(table.heads) > 1 else _points(table)


def ready(table: Table) -> Table:
    """Return a table with its heads in full and without the cautions that stand in a section of their own."""
    note = " ".join(line for line in table.note.split("\n") if line not in SAID_ELSEWHERE)
    return replace(table, heads=tuple(HEADS.get(head, head) for head in table.heads), note=note)


def _points(table: Table) -> Points:
    return Points(tuple(row[0] for row in table.rows if row[0] not in SAID_ELSEWHERE))
