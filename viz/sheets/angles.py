"""Propeller angles as a reader knows them: 0° to 360°, also where a window runs across 0°."""

from __future__ import annotations

from dataclasses import replace
from math import remainder
from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, say

if TYPE_CHECKING:
    from sim.difference import Difference
    from viz.sheets.blocks import Sentence

PLACES = ("from_deg", "to_deg", "opens_deg", "best_opens_deg")
"""Quantities that are a place of the propeller, the same after whole turns."""


def turned_back(name: str, first_deg: float, second_deg: float) -> tuple[float, float, float]:
    """Return two numbers and the second less the first; places of the propeller from 0° to 360°, the shorter way.

    Places a whole number of turns apart, of a cam that comes round once in several, stay as they are.

    Examples
    --------
    >>> turned_back("to_deg", 75.0, 413.0), turned_back("opens_deg", 5.0, -3.0), turned_back("lead_deg", 5.0, 365.0)
    ((75.0, 53.0, -22.0), (5.0, 357.0, -8.0), (5.0, 365.0, 360.0))
    """
    apart_deg = remainder(second_deg - first_deg, 360.0)
    if name not in PLACES or abs(apart_deg) < ROUNDING_DEG:
        return first_deg, second_deg, second_deg - first_deg
    return first_deg % 360.0, second_deg % 360.0, apart_deg


def in_a_turn(one: Difference) -> Difference:
    """Return a difference of two propeller angles with both from 0° to 360°, as the sheets of both say them."""
    if isinstance(one.first, str | None) or isinstance(one.second, str | None):
        return one
    first, second, difference = turned_back(one.name, one.first, one.second)
    return replace(one, first=first, second=second, difference=difference)


ROUNDING_DEG = 1e-9


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
