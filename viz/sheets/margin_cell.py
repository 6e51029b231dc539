"""A margin of safety with the lower end of its band, as one cell of a table."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, say

if TYPE_CHECKING:
    from viz.sheets.blocks import Cell


def margin_cell(margin: float, low: float) -> Cell:
    """Return a margin and in brackets the lower end of its 90 % band; ``none`` where nothing bears on the part."""
    if margin == inf:
        return "none"
    return say("{margin} ({low})", margin=Value("margin", margin, decimals=2), low=Value("margin_low", low, decimals=2))
