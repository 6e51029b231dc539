"""A sheet with what forbids its use at the head and the cautions that its quantities bear at the foot."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility.remark import FORBIDDEN
from sim.units.quantities import cautions_of
from viz.sheets.blocks import Caution, Sentence, Table, quantities_in, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from viz.sheets.blocks import Block, Cell


def complete(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Return the blocks of a sheet and behind them a caution for everything in them that can hurt.

    A remark that forbids the use of the answer stands at the head instead of among the others.
    """
    told = tuple(blocks)
    forbids: list[Cell] = []
    for cell in (cell for block in told for cell in _first_cells(block) if _forbids(cell)):
        forbids += [cell] if cell not in forbids else []
    whole = (*(say("{warning}", warning=cell) for cell in forbids), *_without(told))
    return (*whole, *(Caution(text) for text in cautions_of(quantities_in(whole))))


def _without(blocks: Iterable[Block]) -> Iterator[Block]:
    """Yield the blocks, of remarks those that forbid nothing."""
    for block in blocks:
        cells = _first_cells(block)
        left = tuple(cell for cell in cells if not _forbids(cell))
        if len(left) == len(cells):
            yield block
        elif left:
            yield remarks(left)


def _first_cells(block: Block) -> tuple[Cell, ...]:
    return block.columns[0].cells if isinstance(block, Table) else ()


def _forbids(cell: Cell) -> bool:
    if isinstance(cell, Sentence):
        return FORBIDDEN in cell.text or any(map(_forbids, cell.slots.values()))
    return isinstance(cell, str) and FORBIDDEN in cell
