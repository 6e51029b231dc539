"""What a sheet says of results beyond the range of validity: a star behind them, and which bounds they pass."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.flight.validity import BOUNDS
from sim.units.quantities import quantity
from viz.sheets.blocks import Column, Table, Value, listed, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.flight.validity import Bound
    from viz.sheets.blocks import Cell, Sentence

STAR = "*"


def starred(cell: Cell, beyond: tuple[str, ...]) -> Cell:
    """Return a cell with a star behind it where its row passes a bound."""
    return say("{cell} {star}", cell=cell, star=STAR) if beyond else cell


def outside(
    rows: Iterable[tuple[str, ...]], lead: str = "* Outside", *, air_loads: str = "linear"
) -> Iterator[Sentence]:
    """Yield which bounds the rows of a table pass, each once, and what is not computed there; nothing for none.

    Parameters
    ----------
    rows : iterable of tuple of str
        Names of bounds that each row passes.
    lead : str
        Beginning of the sentence: what is outside, or the star of its rows.
    air_loads : str
        ``linear`` or ``strips``: what the results were computed with.
    """
    names = {name for row in rows for name in row}
    told = [_told(one, air_loads) for one in BOUNDS if one.name in names]
    if told:
        by = "; air loads by strips" if air_loads == "strips" else ""
        yield say("{lead} the range of validity, indicative only{by}: {bounds}.", lead=lead, by=by, bounds=listed(told))


def range_of_validity() -> Table:
    """Return the table of bounds with what lies beyond and their sources."""
    columns = (
        Column("Bound", tuple(one.name for one in BOUNDS)),
        Column("Of what", tuple(quantity(one.quantity).meaning for one in BOUNDS)),
        Column("Valid", tuple(_range(one) for one in BOUNDS)),
        Column("Not computed beyond it", tuple(one.missing for one in BOUNDS)),
        Column("by strips", tuple(one.missing_by_strips or "the same" for one in BOUNDS)),
        Column("Source", tuple(one.source.replace("`", "") for one in BOUNDS)),
    )
    return Table("Range of validity", columns)


def _told(bound: Bound, air_loads: str) -> Sentence:
    return say(
        "{name} ({what}, valid {range}; not computed: {missing})",
        name=bound.name,
        what=quantity(bound.quantity).meaning,
        range=_range(bound),
        missing=(bound.missing_by_strips if air_loads == "strips" else "") or bound.missing,
    )


def _range(bound: Bound) -> Sentence:
    most = Value(bound.quantity, bound.most, digits=5, plain=True)
    if bound.least == 0.0:
        return say("up to {most}", most=most)
    if bound.least == -bound.most:
        return say("up to {most} either way", most=most)
    return say("{least} to {most}", least=Value(bound.quantity, bound.least, digits=5, plain=True), most=most)
