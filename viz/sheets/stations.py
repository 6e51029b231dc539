"""Places and moves along the airplane on a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, say

if TYPE_CHECKING:
    from viz.sheets.blocks import Cell


def station(name: str, number: float | None, decimals: int = 2) -> Value:
    """Return a place along the airplane with fixed decimals: ``47.93 in``."""
    return Value(name, number, decimals=decimals)


def moved(name: str, number: float | None, decimals: int = 2) -> Value:
    """Return a move along the airplane with its direction: ``0.60 in forward``."""
    return Value(name, number, decimals=decimals, signed=True)


def given(name: str, number: float) -> Value:
    """Return a length that was set, not computed, without trailing zeros: ``3.175 mm``."""
    return Value(name, number, digits=4, plain=True)


def within(name: str, number: float, error_name: str, error: float) -> Cell:
    """Return a place with its standard error, or alone where it has none."""
    if not error:
        return station(name, number)
    return say("{place} ± {error}", place=station(name, number), error=station(error_name, error))
