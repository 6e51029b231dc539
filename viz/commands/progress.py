"""How far a long work is and how long it will take: on stderr, where that is a terminal."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, TypeVar

import click

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

Item = TypeVar("Item")


def bar(items: Iterable[Item], count: int, label: str) -> Iterator[Item]:
    """Show a bar with the time left while `count` items come in; silent where stderr is no terminal."""
    if not sys.stderr.isatty():
        yield from items
        return
    with click.progressbar(
        items, length=count, label=label, show_pos=True, show_percent=True, file=sys.stderr
    ) as shown:
        yield from shown
