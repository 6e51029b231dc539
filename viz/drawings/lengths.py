"""Lengths as the drawings of a display write them: millimetres with metric hardware, inches with inch hardware."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.convert import mm
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.display.display import Hardware
    from viz.sheets.format import Units

DECIMALS: dict[Units, int] = {"si": 2, "us": 3}
"""Of a dimension: to a hundredth of a millimetre, or to a thousandth of an inch."""


def units_of(hardware: Hardware) -> Units:
    """Return the units of every sheet of a display, those of its standard parts."""
    return "us" if hardware == "inch" else "si"


def dimension_text(length_mm: float, units: Units, *, fewer: int = 0) -> str:
    """Return a dimension [mm] without its unit, which the title block says, with so many decimals fewer than usual.

    Examples
    --------
    >>> dimension_text(12.7, "si"), dimension_text(12.7, "us"), dimension_text(12.7, "si", fewer=1)
    ('12.70', '0.500', '12.7')
    """
    return text_of(dimension(length_mm, units, fewer=fewer), units)


def dimension(length_mm: float, units: Units, *, fewer: int = 0) -> Value:
    """Return the same as the cell of a table."""
    return Value("drawn_m", length_mm / mm(1.0), decimals=DECIMALS[units] - fewer, bare=True)


def shop_length(length_m: float, units: Units) -> str:
    """Return a thickness or another size as a shop reads it, with its unit."""
    return text_of(Value("plate_thickness_m", length_m, nominal=True), units)
