"""When the gun may fire: windows, rate, safe speeds of a cam, bursts, and why guns were kept warm."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.sheets import tables, whole
from viz.sheets.blocks import Picture, Value, listed, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.rate_answer import RateStep
    from viz.report.findings import Findings
    from viz.sheets.blocks import Block, Cell

WIDEST = 6


def windows(found: Findings) -> Iterator[Block]:
    """Yield the firing windows and their table."""
    from viz.sheets.windows import sheet

    answer = found.windows
    last = answer.rows[-1]
    alt = say(
        "A clock face for each engine at idle, cruise and full speed. Inner ring: where blade 1 stands while a round "
        "may be released. Outer ring: where it stands as that round passes, and the arcs in which a blade is on the "
        "bore line. The lead joins the two; it grows with speed, to {lead} at {speed} of the {engine}.",
        lead=Value("lead_deg", last.lead_deg, decimals=0),
        speed=Value("rpm", last.rpm, decimals=0),
        engine=last.powerplant,
    )
    yield Picture(found.drawings.begin("windows", answer), "Firing windows: at release, and a lead later", alt)
    yield from whole(sheet(answer, every=True))


def rate(found: Findings) -> Iterator[Block]:
    """Yield the staircase of the rate of fire and its widest plateaus."""
    from viz.sheets.pattern import meaning
    from viz.sheets.rate import PATTERN, least_and_most, plateau_words, widest

    answer = found.rate
    alt = say(
        "Above: rounds per minute against propeller speed, below the {own} of the unsynchronized gun. Below: blades "
        "that pass per round, plateaus labelled rounds : blades.",
        own=Value("gun_rounds_per_min", answer.staircases[0].gun_rounds_per_min, decimals=0, bare=True),
    )
    yield Picture(found.drawings.begin("rate", answer), "Rate of fire against propeller speed", alt)
    for staircase in answer.staircases:
        yield least_and_most(staircase)
    heads = ("Engine", PATTERN, "From", "To", "Rounds per minute")
    steps = [(each.powerplant, step) for each in answer.staircases for step in widest(each, WIDEST)]
    words = (*plateau_words(answer.staircases), *meaning(PATTERN, [step for _, step in steps]))
    yield rows("The widest plateaus", heads, [_plateau(*step) for step in steps], *words)


def _plateau(engine: str, step: RateStep) -> tuple[Cell, ...]:
    from viz.sheets.pattern import pattern
    from viz.sheets.rate import rates

    ends = (Value(name, getattr(step, name), decimals=0) for name in ("from_rpm", "to_rpm"))
    return engine, pattern(step), *ends, rates(step, 0)


def safe_range(found: Findings) -> Iterator[Block]:
    """Yield the safe speeds of one cam."""
    from viz.sheets.safe_range import band, sheet

    answer = found.safe_range
    safe = [
        say("{engine} {band}", engine=one.powerplant, band=band(each))
        for one in answer.propellers
        for each in one.bands
    ]
    alt = say(
        "Where blade 1 stands as rounds pass, against propeller speed; hatched: a blade is on the bore line. Safe "
        "speeds: {safe}.",
        safe=listed(safe) if safe else "none",
    )
    yield Picture(found.drawings.begin("safe_range", answer), "A fixed cam and its safe speeds", alt)
    yield from whole(sheet(answer, every=True))


def burst(found: Findings) -> Iterator[Block]:
    """Yield many bursts with everything that scatters."""
    from viz.sheets.burst import sheet
    from viz.sheets.chance import grouped

    answer = found.burst
    alt = say(
        "The propeller seen from the cockpit, and where {rounds} rounds went through it; {strikes} in a thousand "
        "struck a blade. Beside it the same gun without its gear: {untimed} in a thousand.",
        untimed=Value("untimed_strikes_per_1000", answer.untimed_strikes_per_1000, digits=3, plain=True),
        rounds=grouped(answer.rounds),
        strikes=Value("strikes_per_1000", answer.strikes_per_1000, digits=3, plain=True),
    )
    yield Picture(
        found.drawings.begin("burst", answer), "Where the rounds of many bursts went through the propeller", alt
    )
    yield from tables(sheet(answer, every=True))


def cooling(found: Findings) -> Iterator[Block]:
    """Yield how a gun cools in flight, which is why guns were kept warm."""
    from viz.sheets.cooling import sheet

    alt = say(
        "Temperature of the part that holds the oil over time, bare in the airstream and under a cowling, silent and "
        "firing; below it the heat that the air takes, beside the heat that firing brings."
    )
    yield Picture(found.drawings.begin("cooling", found.cooling), "The gun in the cold airstream", alt)
    yield from whole(sheet(found.cooling))
