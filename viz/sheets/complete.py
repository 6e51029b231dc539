"""A sheet with what forbids its use at the head and the cautions that its quantities bear at the foot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.remark import FORBIDDEN
from sim.units.quantities import cautions_of
from viz.sheets.blocks import Caution, Table, quantities_in, remarks, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.answer import Answer
    from viz.sheets.blocks import Block


def complete(blocks: Iterable[Block], answer: Answer | None = None) -> tuple[Block, ...]:
    """Return the blocks of a sheet and behind them a caution for everything in them that can hurt.

    What forbids the use of the answer, where it is given, stands at the head instead of among the remarks.
    """
    told: tuple[object, ...] = getattr(answer, "remarks", ())
    forbids = tuple(text for text in told if isinstance(text, str) and FORBIDDEN in text)
    whole = (*(say("{warning}", warning=text) for text in forbids), *_without(blocks, forbids))
    return (*whole, *(Caution(text) for text in cautions_of(quantities_in(whole))))


def _without(blocks: Iterable[Block], told: tuple[str, ...]) -> Iterator[Block]:
    """Yield the blocks, of remarks those that are not told elsewhere."""
    for block in blocks:
        cells = block.columns[0].cells if isinstance(block, Table) else ()
        left = tuple(cell for cell in cells if cell not in told)
        if len(left) == len(cells):
            yield block
        elif left:
            yield remarks(left)
