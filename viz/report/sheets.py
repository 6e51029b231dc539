"""Sheets of the commands as parts of a report: their tables, and nothing that only a terminal needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets import blocks
from viz.sheets.table import Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator


def tables(sheet: Iterable[blocks.Block | Table | str]) -> Iterator[blocks.Block]:
    """Yield the tables of a sheet; one of a single column becomes a list."""
    for block in sheet:
        if isinstance(block, Table):
            made = blocks.rows(block.title, block.heads, block.rows, *filter(None, block.note.split("\n")))
        elif isinstance(block, blocks.Table):
            made = block
        else:
            continue
        yield made if len(made.columns) > 1 else blocks.Points(made.columns[0].cells)
