"""Words for what an answer hangs on: values and changes in the reader's units, shares in per cent."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.format import amount, shown, significant

if TYPE_CHECKING:
    from sim.sweep.local_sensitivity import Lever, Levered
    from sim.sweep.outputs import Column
    from viz.sheets.format import Units

MOST_LEVERS, LEAST_PART = 6, 0.005
"""Levers named at most, and their least part of the variance."""
NO_BREAK = "\u00a0"
SHORT_M = 0.3
"""Tolerances below this are told in the shop's unit."""
WAYS = {"engine_move_m": (" aft", " forward")}


def scale(column: Column, units: Units) -> tuple[str, float]:
    """Return the unit an answer is printed in and the factor to it from SI."""
    return ("%", 100.0) if column.name.endswith("_share") else shown(column.name, units)


def said(column: Column, value: float, units: Units, digits: int = 3) -> str:
    """Return an answer, or a change of it, with its unit; a move along the airplane with its way."""
    unit, factor = scale(column, units)
    if column.name in WAYS:
        return f"{significant(factor * abs(value), digits)} {unit}{WAYS[column.name][value < 0.0] if value else ''}"
    return f"{significant(factor * value, digits)} {unit}".rstrip()


def strongest(one: Levered) -> tuple[Lever, ...]:
    """Return the levers worth naming."""
    return tuple(lever for lever in one.levers[:MOST_LEVERS] if part(one, lever) >= LEAST_PART)


def moved_by(lever: Lever, units: Units) -> str:
    """Return a lever as it is moved: ``wing.span + 0.5 in``."""
    short = lever.column.unit == "m" and lever.tolerance < SHORT_M
    size = amount("depth_m" if short else lever.column.name, lever.tolerance, units, 2)
    return f"{lever.column.key} {f'+ {size}'.replace(' ', NO_BREAK)}"


def spread_of(one: Levered, units: Units) -> str:
    """Return an answer with its one standard deviation: ``17.1 % ± 0.30 %``."""
    unit, factor = scale(one.column, units)
    return f"{said(one.column, one.nominal, units)} ± {significant(factor * one.spread, 2)} {unit}".rstrip()


def part(one: Levered, lever: Lever) -> float:
    """Return the lever's part of the variance."""
    return (lever.moves / one.spread) ** 2 if one.spread else 0.0
