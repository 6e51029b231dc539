"""The sheet of `whirlgate windows`: the answer in a sentence, a line for each speed, and what the words mean."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Points, Run, Table, Value, next_steps, say
from viz.sheets.cams import cam_says, other_gun
from viz.sheets.from_sim import remarks
from viz.sheets.pattern import meaning, pattern
from viz.sheets.window_cells import EVEN_DEG, arcs, clearances, in_turns
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.windows_answer import WindowsAnswer, WindowsRow
    from viz.sheets.blocks import Block, Cell, Sentence

WORDS = (
    (
        "Propeller angle: how far blade 1 has turned past the bore line (the line of fire), in the direction of "
        "rotation. It says where the blade stands, not where the bullet goes."
    ),
    "Window: propeller angles between which the cam lets a round go; of windows alike the first.",
    "Lead: how far the propeller turns from the moment the cam lets go until the round passes.",
    (
        "Clear by: angle from the nearest round to blade and margin, at a steady speed and without scatter; "
        '"margin": a round passes within the margin, "strikes": one strikes the blade. Open: duration of one window.'
    ),
)
BLADE = "Angles of the blade, not the bullet; no scatter. More: --all."
TITLES = {
    "": "Firing windows",
    "first": "Firing windows, first gun",
    "second": "Firing windows, second gun",
}
OF_ENGINE = (
    "{engine} at {speed}: the propeller turns {lead} while a round is on its way (the lead); rounds leave that much "
    "earlier, {where}.{meets}"
)
AT_SPEED = (
    "At {speed}: the propeller turns {lead} while a round is on its way (the lead); rounds leave that much earlier, "
    "{where}.{meets}"
)
WHERE = {
    (True, True): "by {count} impulses {turns}",
    (True, False): "by one impulse {turns}",
    (False, True): "in {count} windows of {length} {turns}",
    (False, False): "in one window of {length} {turns}",
}
"""Whether they are impulses, and whether there are several."""
JUST_CLEAR = (
    " Clear by 0: its first and its last rounds pass just beside the margin, and with any scatter some within it."
)
SECOND_MEETS = "at some of its speeds rounds meet a blade or its margin"
SECOND_CLEAR = "its rounds are clear of blade and margin too"
NO_RATE = "Rate of fire and pattern need the rate of the unsynchronized gun, which is not given."
NEXT = next_steps(
    say("{run}, rate of fire by speed", run=Run("rate")),
    say("{run}, safe speeds", run=Run("safe-range")),
)


def sheet(answer: WindowsAnswer, *, every: bool = False) -> Iterator[Block]:
    """Yield what happens at the highest speed of each powerplant, windows at every speed, and words if asked for."""
    rows = answer.rows
    turns = {name: cam.period_turns for name, cam in answer.cams.items()}
    yield from _told(rows, turns, every=every)
    yield from map(say, other_gun(answer.gun, answer.second_gun_meets, SECOND_MEETS, SECOND_CLEAR))
    noted = rows if every else [row for row in rows if not row.windows_deg]
    notes = dict.fromkeys(
        tell("{engine}: {note}", engine=row.powerplant, note=row.note).lstrip(": \u00a0") for row in noted if row.note
    )
    rated = () if any(row.rounds_per_min is not None for row in rows) else (NO_RATE,)
    engines = (Column("Engine", tuple(row.powerplant for row in rows)),) if any(row.powerplant for row in rows) else ()
    columns = (
        *engines,
        Column("Propeller speed", _values(rows, Value("rpm", None, plain=True)), "rpm", "Speed"),
        Column("Lead", _values(rows, Value("lead_deg", None, decimals=1)), "lead_deg"),
        *(_turn(rows, turns) if max(turns.values()) > 1 else ()),
        Column("Window", tuple(arcs(row, turns[row.powerplant], 1) for row in rows), "from_deg"),
        Column(
            "Clear of blade and margin by",
            tuple(clearances(row, turns[row.powerplant], 1) for row in rows),
            "clearance_deg",
            "Clear by",
        ),
        *((Column("Window open for", _values(rows, _two("open_ms")), "open_ms", "Open"),) if every else ()),
        Column("Rounds per minute", _values(rows, Value("rounds_per_min", None, decimals=1)), short="Rounds /min"),
        Column("Pattern", tuple(map(pattern, rows))),
    )
    cam = f"{cam_says(answer.cams, answer.gun)}{worded(JUST_CLEAR) if answer.cam.ideal and _touches(rows) else ''}"
    yield Table(
        TITLES[answer.gun],
        columns,
        (cam if every else f"{cam} {worded(BLADE)}", *notes, *rated),
    )
    if every:
        yield Points((*WORDS, *meaning("Pattern", rows)))
    if answer.remarks:
        yield remarks(answer.remarks)
    yield NEXT


def _told(rows: tuple[WindowsRow, ...], turns: dict[str, int], *, every: bool) -> Iterator[Sentence]:
    """Yield a sentence for the highest speed of each powerplant, with its note where the notes are not listed."""
    for row in _fastest(rows):
        if row.windows_deg:
            yield say(
                OF_ENGINE if row.powerplant else AT_SPEED,
                engine=row.powerplant,
                speed=Value("rpm", row.rpm, plain=True),
                lead=Value("lead_deg", row.lead_deg, decimals=0),
                where=_where(row, turns[row.powerplant]),
                meets=say(" {note}", note=row.note) if row.note and not every else "",
            )


def _noted(row: WindowsRow) -> str:
    """Return the note of a row, its engine in front where it has one."""
    note = row.note or ""
    return tell("{engine}: {note}", engine=row.powerplant, note=note) if row.powerplant else worded(note)


def _fastest(rows: tuple[WindowsRow, ...]) -> list[WindowsRow]:
    """Return the row of the highest speed of each powerplant."""
    fastest: dict[str, WindowsRow] = {}
    for row in rows:
        if row.powerplant not in fastest or row.rpm > fastest[row.powerplant].rpm:
            fastest[row.powerplant] = row
    return list(fastest.values())


def _where(row: WindowsRow, turns: int) -> Sentence:
    """Return in how many windows of what length, and in how many turns."""
    count = len(row.windows_deg)
    impulses = all(each.to_deg == each.from_deg for each in row.windows_deg)
    said = WHERE[impulses, count > 1]
    return say(
        said,
        count=str(count),
        turns="a turn" if turns == 1 else say("in {turns} of its turns", turns=str(turns)),
        **({} if impulses else {"length": _length(row)}),
    )


def _length(row: WindowsRow) -> Cell:
    lengths = [each.to_deg - each.from_deg for each in row.windows_deg]
    ends = [Value("open_deg", end, decimals=0) for end in (min(lengths), max(lengths))]
    return ends[0] if max(lengths) - min(lengths) < EVEN_DEG else say("{least} to {most}", least=ends[0], most=ends[1])


def _turn(rows: tuple[WindowsRow, ...], turns: dict[str, int]) -> Iterator[Column]:
    """Yield the column that says in which turn each window stands."""
    yield Column("Turn", tuple(in_turns(row, turns[row.powerplant]) for row in rows))


def _touches(rows: tuple[WindowsRow, ...]) -> bool:
    """Return whether rounds of a window pass just clear, as those of an ideal cam do that is open as long as can be."""
    return any(each.clearance_deg == 0.0 for row in rows for each in row.windows_deg)


def _two(name: str) -> Value:
    return Value(name, None, decimals=2)


def _values(rows: tuple[WindowsRow, ...], how: Value) -> tuple[Value, ...]:
    """Return a column of numbers, written like `how`."""
    return tuple(replace(how, number=getattr(row, how.quantity), bare=True, absent="–") for row in rows)
