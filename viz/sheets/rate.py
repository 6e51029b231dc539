"""The sheet of `whirlgate rate`: the widest plateaus, a line each; of a single speed its rate."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, next_steps, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.rate import RateAnswer, RatePoint, RateStep, Staircase
    from viz.sheets.blocks import Block, Cell, Sentence

MOST_LINES = 24
"""Plateaus listed for a reader."""
NEXT = next_steps(say("{run}, strikes and rate of fire of bursts with all scatter", run=Run("burst")))


def sheet(answer: RateAnswer) -> Iterator[Block]:
    """Yield the plateaus behind each powerplant."""
    for staircase in answer.staircases:
        yield from _staircase(staircase)
    yield NEXT


def _staircase(staircase: Staircase) -> Iterator[Block]:
    title = "Locked rates of fire" + (f": {staircase.powerplant}" if staircase.powerplant else "")
    own = say(
        "The unsynchronized gun fires {own} rounds per minute.",
        own=Value("gun_rounds_per_min", staircase.gun_rounds_per_min, plain=True, bare=True),
    )
    if len({row.rpm for row in staircase.rows}) == 1:
        yield Table(title, _at_one_speed(staircase.rows[0]), (own,))
        return
    yield Table(title, _columns(widest(staircase, MOST_LINES)), (own, _covered(staircase)))


def widest(staircase: Staircase, count: int) -> list[RateStep]:
    """Return the widest plateaus in the order of speed."""
    found = sorted(staircase.plateaus, key=lambda step: step.from_rpm - step.to_rpm)[:count]
    return sorted(found, key=lambda step: step.from_rpm)


def _columns(steps: list[RateStep]) -> tuple[Column, ...]:
    def speeds(name: str) -> tuple[Cell, ...]:
        return tuple(Value(name, getattr(step, name), decimals=2, bare=True) for step in steps)

    return (
        Column("Rounds : blade intervals", tuple(map(pattern, steps))),
        Column("From", speeds("from_rpm"), "from_rpm"),
        Column("To", speeds("to_rpm"), "to_rpm"),
        Column("Rounds per minute", tuple(rates(step, 1) for step in steps)),
    )


def pattern(step: RateStep) -> str:
    """Return the pattern of a plateau: rounds to blades."""
    return f"{step.rounds_per_pattern} : {step.intervals_per_pattern}"


def rates(step: RateStep, decimals: int) -> Sentence:
    """Return the rates at both ends of a plateau."""
    ends = {
        slot: Value(f"{slot}_rounds_per_min", getattr(step, f"{slot}_rounds_per_min"), decimals=decimals, bare=True)
        for slot in ("from", "to")
    }
    return say("{from} to {to}", **ends)


def _covered(staircase: Staircase) -> Sentence:
    count = len(staircase.plateaus)
    listed = f" The {MOST_LINES} widest are listed; --json gives all." if count > MOST_LINES else ""
    return say(
        "On a plateau the ratio is constant and the rate proportional to the speed. {count} plateaus of patterns of up "
        "to {longest} rounds cover {share} of the speed range; what remains belongs to longer patterns (--longest)."
        "{listed}",
        count=str(count),
        longest=str(max((step.rounds_per_pattern for step in staircase.plateaus), default=0)),
        listed=listed,
        share=Value("covered_share", staircase.covered_share, decimals=1, percent=True),
    )


def _at_one_speed(row: RatePoint) -> tuple[Column, ...]:
    pattern = f"{row.rounds_per_pattern} : {row.intervals_per_pattern}" if row.rounds_per_pattern else "–"
    return (
        Column("Propeller speed", (Value("rpm", row.rpm, plain=True, bare=True),), "rpm"),
        Column("Rounds : blade intervals", (pattern,)),
        Column("Rounds per minute", (Value("rounds_per_min", row.rounds_per_min, decimals=1, bare=True),)),
    )
