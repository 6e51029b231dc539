"""A sweep or a spread in print: the table in the reader's units, and what did not come out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.quantities import any_quantity
from viz.sheets import format as shown
from viz.sheets.blocks import Column, Table, Value, listed, next_steps, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.sweeps.grid import Sweep, SweepRow
    from sim.sweeps.monte_carlo_answer import Spread, SpreadResult
    from sim.sweeps.outputs import Scalar, SweepColumn
    from viz.sheets.blocks import Block, Cell, Sentence
    from viz.sheets.format import Units

MOST_ROWS = 60
"""Of a sweep that are printed; a file holds them all."""
MOST_SHARES = 8
TINY = 0.005
"""Shares below this are left out of the sheet."""
MOST_REASONS = 5
INDEX = (
    f"Total-order index: share of the variance due to an input, alone and with others; those below {TINY} are left "
    "out. "
    "An interval that reaches past 1 calls for more samples."
)


def columns(answer: Sweep | Spread) -> list[SweepColumn]:
    """Return the columns of the answer's table."""
    from sim.sweeps.grid import Sweep

    if isinstance(answer, Sweep):
        return [*answer.varied, *answer.collected]
    return [*(one.column for one in answer.inputs if one.matters), *(one.column for one in answer.results)]


def sheet(answer: Sweep | Spread, out: str | None = None) -> Iterator[Block]:
    """Yield the answer; say where the table is, which points have no answer, and what can still be written."""
    from sim.sweeps.grid import Sweep

    if isinstance(answer, Sweep):
        yield from _table(answer)
    else:
        for result in answer.results:
            yield from _result(answer, result)
    yield from _reasons(answer.rows)
    yield next_steps(
        "a picture, by adding --figure sweep.svg to this command", "the table as a file, by adding --out sweep.csv"
    )
    if out:
        yield say("{count} rows written to {out}.", count=str(len(answer.rows)), out=out)


def unit_of(column: SweepColumn, units: Units) -> str:
    """Return the unit that the reader gets a column in."""
    return "" if column.words else shown.shown(column.name, units)[0] or column.unit


def in_units(column: SweepColumn, value: Scalar, units: Units) -> float:
    """Return a number of a column in the reader's unit."""
    return any_quantity(column.name).number(float(value or 0.0), units)


def cell(column: SweepColumn, value: Scalar, *, bare: bool = False) -> Cell:
    """Return one value of a column."""
    if isinstance(value, str | bool | int):
        return str(value)
    return Value(column.name, value, digits=4, bare=bare, absent="none")


def _table(answer: Sweep) -> Iterator[Block]:
    heads = columns(answer)
    lines = [(*row.settings, *row.results) for row in answer.rows[:MOST_ROWS]]
    table = tuple(
        Column(
            column.key,
            tuple(cell(column, line[place], bare=True) for line in lines),
            quantity="" if column.words else column.name,
            short=chr(ord("A") + place),
        )
        for place, column in enumerate(heads)
    )
    more = len(answer.rows) - MOST_ROWS
    yield say("{title}", title=answer.title)
    yield listed(
        (
            say("{letter}: {head}: {meaning}", letter=column.short, meaning=one.meaning, head=column)
            for column, one in zip(table, heads, strict=True)
        ),
        "\n",
    )
    note = f"The first {MOST_ROWS} of {len(answer.rows)} rows; --out FILE keeps all."
    yield Table("", table, (note,) if more > 0 else ())


def _result(answer: Spread, result: SpreadResult) -> Iterator[Block]:
    lines = [
        (
            share.key,
            Value("total_order", share.total_order, decimals=2),
            say(
                "{low} to {high}",
                low=Value("total_low", share.total_low, decimals=2),
                high=Value("total_high", share.total_high, decimals=2),
            ),
        )
        for share in result.shares[:MOST_SHARES]
        if share.total_order >= TINY
    ]
    idle = sum(not one.matters for one in answer.inputs)
    notes = [f"{idle} of {len(answer.inputs)} values with a ± have no effect here."] if idle else []
    yield say("{key}: {meaning}", key=result.column.key, meaning=result.column.meaning)
    yield spread_words(result)
    if lines:
        yield rows("", ("Input", "Total-order index", "90 % interval"), lines, INDEX, *notes)
    elif not result.shares and any(row.reason for row in answer.rows):
        yield say("No ranking: every sample needs an answer for it.")
    elif notes:
        yield say(notes[0])


def spread_words(result: SpreadResult) -> Sentence:
    """Return the spread of a result in a sentence."""
    return say(
        "median {median}, 90 % of the samples between {low} and {high}, nominal value {nominal}",
        median=cell(result.column, result.median),
        low=cell(result.column, result.low_5),
        high=cell(result.column, result.high_95),
        nominal=cell(result.column, result.nominal),
    )


def _reasons(answer_rows: Sequence[SweepRow]) -> Iterator[Block]:
    """Yield how many points have no answer, and each reason once."""
    reasons = [row.reason for row in answer_rows if row.reason]
    for reason in list(dict.fromkeys(reasons))[:MOST_REASONS]:
        count = f"{reasons.count(reason)} of {len(answer_rows)}"
        yield say("{count} without an answer: {reason}", count=count, reason=reason)
