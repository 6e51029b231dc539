"""The least standard size of a wire or tube, as one cell of a table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.structures.sizes import tube_sizes
from sim.units.text import brief
from viz.sheets.blocks import Either, say

if TYPE_CHECKING:
    from viz.sheets.blocks import Cell


def standard_size(name: str) -> Cell:
    """Return a size by its name; of a tube diameter and wall in the units of the reader, a dash for none."""
    one = next((one for one in tube_sizes() if one.name == name), None)
    if one is None:
        return name or "–"
    diameter, wall = (brief("wall_m", size_m, "si") for size_m in (one.diameter_m, one.wall_m))
    return say("{diameter} x {wall}", diameter=Either(diameter, one.diameter), wall=Either(wall, one.wall))
