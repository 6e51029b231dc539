"""Sensitivity in print: each tolerance, how far it changes an answer, and its part of the variance."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.sheets.blocks import Sentence, Value, rows, say

if TYPE_CHECKING:
    from sim.sweeps.local_sensitivity import Sensitivity, SensitivityInput
    from sim.sweeps.outputs import SweepColumn
    from viz.sheets.blocks import Cell, Table

MOST_INPUTS, LEAST_PART = 6, 0.005
"""Inputs named at most, and their least part of the variance."""
UNSTATED = "items and scales without ±, as assumed"
SHORT_M = 0.3
"""Tolerances below this are shown in the shop's unit."""
SIGNED = ("engine_move_m", "target_move_m")
"""Answers whose sign is said in words."""


def table(name: str, one: Sensitivity) -> Table:
    """Return the strongest inputs of one answer."""
    lines: list[tuple[Cell, ...]] = [
        (
            step(one_input),
            amount(one.column, one_input.change),
            Value("variance_share", part(one, one_input), percent=True, decimals=0),
        )
        for one_input in strongest(one)
    ]
    share = (one.unstated / one.spread) ** 2 if one.spread else 0.0
    if share >= LEAST_PART:
        assumed = Value("variance_share", share, percent=True, decimals=0)
        lines.append((UNSTATED, replace(amount(one.column, one.unstated), signed=False), assumed))
    title = say("{name}: {spread}", name=name, spread=spread(one))
    return rows(title, ("Input", "changes it by", "part of the variance"), lines)


def amount(column: SweepColumn, number: float, error: float | None = None) -> Value:
    """Return an answer, or a change of it."""
    return Value(
        column.name,
        number,
        digits=3,
        signed=column.name in SIGNED,
        percent=column.name.endswith("_share"),
        error=error,
    )


def spread(one: Sensitivity) -> Value:
    """Return an answer with its one standard deviation: ``17.1 % ± 0.30 %``."""
    return amount(one.column, one.nominal, one.spread)


def strongest(one: Sensitivity) -> tuple[SensitivityInput, ...]:
    """Return the inputs worth naming."""
    return tuple(one_input for one_input in one.inputs[:MOST_INPUTS] if part(one, one_input) >= LEAST_PART)


def first(one: Sensitivity) -> str:
    """Return what an answer depends on most: the key of an input, or what the scenario does not state."""
    named = strongest(one)
    return named[0].column.key if named else UNSTATED if one.unstated else "none of the ±"


def step(one_input: SensitivityInput) -> Sentence:
    """Return an input with the step by which it is varied: ``wing.span + 0.5 in``."""
    short = one_input.column.unit == "m" and one_input.tolerance < SHORT_M
    size = Value("depth_m" if short else one_input.column.name, one_input.tolerance, digits=2)
    return say("{key} + {size}", key=one_input.column.key, size=size)


def part(one: Sensitivity, one_input: SensitivityInput) -> float:
    """Return the input's part of the variance."""
    return (one_input.change / one.spread) ** 2 if one.spread else 0.0
