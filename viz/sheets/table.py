"""Sheets as data: a command's sheet yields tables and text; printing them is one thing, a report another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

SHORT = 16
"""Letters of a first column that is never broken into lines."""


@dataclass(frozen=True, slots=True)
class Table:
    """A table before anybody prints it: the first column holds words, the others numbers; a note stands under it."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


Block = Table | str
"""A piece of a sheet."""


def table(title: str, heads: Sequence[str], rows: Iterable[Sequence[str]], note: str = "") -> Table:
    """Return a table of any rows."""
    return Table(title, tuple(heads), tuple(map(tuple, rows)), note)


def show(sheet: Iterable[Block]) -> None:
    """Print a sheet, piece by piece."""
    for block in sheet:
        click.echo(block if isinstance(block, str) else _drawn(block))


def _drawn(whole: Table) -> str:
    from rich import box
    from rich.console import Console
    from rich.table import Table as Grid

    drawn = Grid(
        title=whole.title,
        title_justify="left",
        title_style="bold",
        box=box.SIMPLE_HEAD,
        caption=whole.note or None,
        caption_justify="left",
    )
    short = max((len(row[0]) for row in whole.rows), default=0) <= SHORT
    for position, head in enumerate(whole.heads):
        words = position == 0
        drawn.add_column(head, justify="left" if words else "right", overflow="fold", no_wrap=words and short)
    for row in whole.rows:
        drawn.add_row(*row)
    console = Console(highlight=False, markup=False)
    with console.capture() as capture:
        console.print(drawn)
    return "\n".join(line.rstrip() for line in capture.get().rstrip().splitlines()) + "\n"
