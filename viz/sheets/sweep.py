"""A sweep or a spread in print: the table in the reader's units, and what did not come out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.sweep.grid import Sweep, SweepRow
    from sim.sweep.monte_carlo_answer import Spread, SpreadResult
    from sim.sweep.outputs import Column, Value
    from viz.sheets.format import Units
    from viz.sheets.table import Block

MOST_ROWS = 60
"""Of a sweep that are printed; a file holds them all."""
MOST_SHARES = 8
TINY = 0.005
"""Shares below this are left out of the sheet."""


def columns(answer: Sweep | Spread) -> list[Column]:
    """Return the columns of the answer's table."""
    from sim.sweep.grid import Sweep

    if isinstance(answer, Sweep):
        return [*answer.varied, *answer.collected]
    return [*(one.column for one in answer.inputs if one.matters), *(one.column for one in answer.results)]


def sheet(answer: Sweep | Spread, units: Units, out: str | None) -> Iterator[Block]:
    """Print the answer; say where the table is, and which points have no answer."""
    from sim.sweep.grid import Sweep

    if isinstance(answer, Sweep):
        yield from _table(answer, units)
    else:
        for result in answer.results:
            yield from _result(answer, result, units)
    yield from _reasons(answer.rows)
    yield f"{f'{len(answer.rows)} rows written to {out}. ' if out else ''}{ESTIMATE}"


def unit_of(column: Column, units: Units) -> str:
    """Return the unit that the reader gets a column in."""
    return "" if column.words else shown.shown(column.name, units)[0] or column.unit


def head(column: Column, units: Units) -> str:
    """Return the head of a column as the reader gets it: its key and the unit."""
    unit = unit_of(column, units)
    return f"{column.key} [{unit}]" if unit else column.key


def in_units(column: Column, value: Value, units: Units) -> float:
    """Return a number of a column in the reader's unit."""
    return float(value or 0.0) * shown.shown(column.name, units)[1]


def _cell(column: Column, value: Value, units: Units) -> str:
    if value is None:
        return "none"
    return str(value) if column.words else shown.significant(in_units(column, value, units), 4)


def _table(answer: Sweep, units: Units) -> Iterator[Block]:
    heads = columns(answer)
    rows = [
        [_cell(column, value, units) for column, value in zip(heads, (*row.settings, *row.results), strict=True)]
        for row in answer.rows[:MOST_ROWS]
    ]
    legend = [f"{chr(65 + number)}: {head(column, units)}" for number, column in enumerate(heads)]
    more = len(answer.rows) - MOST_ROWS
    note = f"The first {MOST_ROWS} of {len(answer.rows)} rows; --out FILE keeps them all." if more > 0 else ""
    yield "\n".join((answer.title, *legend))
    yield table("", [line.partition(":")[0] for line in legend], rows, note)


def _result(answer: Spread, result: SpreadResult, units: Units) -> Iterator[Block]:
    yield f"{result.column.key}: {result.column.meaning}"
    yield f"  {spread_words(result, units)}"
    rows = [
        [share.key, f"{share.total_order:.2f}", f"{share.total_low:.2f} to {share.total_high:.2f}"]
        for share in result.shares[:MOST_SHARES]
        if share.total_order >= TINY
    ]
    idle = sum(not one.matters for one in answer.inputs)
    note = f"{idle} of {len(answer.inputs)} values with a ± change nothing here." if idle else ""
    if rows:
        yield table("", ["What it hangs on", "share of variance", "90 % band"], rows, note)
    elif not result.shares:
        yield "  No ranking: every draw needs an answer for it." if any(r.reason for r in answer.rows) else note


def spread_words(result: SpreadResult, units: Units) -> str:
    """Return the spread of a result in a phrase."""
    unit = unit_of(result.column, units)

    def text(value: float | None) -> str:
        return f"{_cell(result.column, value, units)}{'' if unit == '°' else ' '}{unit}".strip()

    low, high = text(result.low_5), text(result.high_95)
    return f"median {text(result.median)}, nine in ten between {low} and {high}; as given {text(result.nominal)}"


def _reasons(rows: Sequence[SweepRow]) -> Iterator[Block]:
    """Say how many points have no answer, and each reason once."""
    reasons = [row.reason for row in rows if row.reason]
    for reason in list(dict.fromkeys(reasons))[:5]:
        yield f"{reasons.count(reason)} of {len(rows)} without an answer: {reason}"
