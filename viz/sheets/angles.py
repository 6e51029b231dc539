"""Propeller angles as a reader knows them: 0° to 360°, also where a window runs across 0°."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, say

if TYPE_CHECKING:
    from viz.sheets.blocks import Sentence


def angle(quantity: str, number_deg: float, decimals: int, *, bare: bool = False) -> Value:
    """Return a propeller angle between 0° and 360°, which is what it is after whole turns."""
    return Value(quantity, round(number_deg, decimals) % 360.0, decimals=decimals, bare=bare)


def arc(from_deg: float, to_deg: float, decimals: int, *, bare: bool = True) -> Sentence:
    """Return the angles between which a window is open, ``340–5`` where it runs across 0, with a unit unless `bare`.

    An impulse has one angle.
    """
    if from_deg == to_deg:
        return say("{at}", at=angle("from_deg", from_deg, decimals, bare=bare))
    return say(
        "{start}–{end}",
        start=angle("from_deg", from_deg, decimals, bare=True),
        end=angle("to_deg", to_deg, decimals, bare=bare),
    )
