"""Sheets of the commands as parts of a report: their tables, or all but what only a terminal needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Next, Points, Table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from viz.sheets.blocks import Block


def tables(sheet: Iterable[Block]) -> Iterator[Block]:
    """Yield the tables of a sheet; one of a single column becomes a list."""
    for block in sheet:
        if isinstance(block, Table):
            yield block if len(block.columns) > 1 else Points(block.columns[0].cells)


def whole(sheet: Iterable[Block]) -> Iterator[Block]:
    """Yield a sheet without the commands that one would run next; a table of a single column becomes a list."""
    for block in sheet:
        if not isinstance(block, Next):
            yield from tables([block]) if isinstance(block, Table) else [block]
