"""The sheet of `whirlgate windows`: a line for each speed, and the reason where there is no window."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, listed, next_steps, remarks, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.windows import WindowsAnswer, WindowsRow
    from viz.sheets.blocks import Block, Cell

LEGEND = (
    "Windows: propeller angle at release, 0 with blade 1 on the bore line; past 360° it closes in the next turn. Blade "
    "time: from one blade to the next. "
    "Open: time for which a window is open, for a cam fitted to each speed. Lead: rotation of the propeller from "
    "release to passage through the disc. Pattern 5 : 11: 5 rounds in every 11 blade intervals."
)
NO_RATE = "Rate of fire and pattern need the rate of the unsynchronized gun, which is not given."
NEXT = next_steps(
    say("{run}, rate of fire at every speed", run=Run("rate")),
    say("{run}, safe speed range of a fixed cam", run=Run("safe-range")),
)


def sheet(answer: WindowsAnswer) -> Iterator[Block]:
    """Yield the windows of every speed."""
    rows = answer.rows
    notes = dict.fromkeys(row.note for row in rows if row.note)
    rated = () if any(row.rounds_per_min is not None for row in rows) else (NO_RATE,)
    engines = (Column("Engine", tuple(row.powerplant for row in rows)),) if any(row.powerplant for row in rows) else ()
    columns = (
        *engines,
        Column("Propeller speed", _values(rows, Value("rpm", None, plain=True)), "rpm", "Speed"),
        Column("Blade interval", _values(rows, _two("blade_interval_ms")), "blade_interval_ms", "Blade time"),
        Column("Lead", _values(rows, Value("lead_deg", None, decimals=1)), "lead_deg"),
        Column("Windows", tuple(map(_windows, rows)), "from_deg"),
        Column("Window open for", _values(rows, _two("open_ms")), "open_ms", "Open"),
        Column("Rounds per minute", _values(rows, Value("rounds_per_min", None, decimals=1)), short="Rounds /min"),
        Column("Pattern", tuple(map(pattern, rows))),
    )
    yield Table("Firing windows", columns, (*notes, *rated, LEGEND))
    if answer.remarks:
        yield remarks(answer.remarks)
    yield NEXT


def _two(name: str) -> Value:
    return Value(name, None, decimals=2)


def _values(rows: tuple[WindowsRow, ...], how: Value) -> tuple[Value, ...]:
    """Return a column of numbers, written like `how`."""
    return tuple(replace(how, number=getattr(row, how.quantity), bare=True, absent="–") for row in rows)


def _windows(row: WindowsRow) -> Cell:
    ends = ("from_deg", "to_deg")
    arcs = (
        say("{from_deg}–{to_deg}", **{name: Value(name, getattr(arc, name), decimals=1, bare=True) for name in ends})
        for arc in row.windows_deg
    )
    return listed(arcs, "\n") if row.windows_deg else "none"


def pattern(row: WindowsRow) -> Cell:
    """Return the pattern of one speed: rounds to blades."""
    return f"{row.rounds_per_pattern} : {row.intervals_per_pattern}" if row.rounds_per_pattern else "–"
