"""A sheet with the cautions that its quantities bear: no sheet leaves without them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import cautions_of
from viz.sheets.blocks import Caution, quantities_in

if TYPE_CHECKING:
    from collections.abc import Iterable

    from viz.sheets.blocks import Block


def complete(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Return the blocks of a sheet and behind them a caution for everything in them that can hurt."""
    whole = tuple(blocks)
    return (*whole, *(Caution(text) for text in cautions_of(quantities_in(whole))))
