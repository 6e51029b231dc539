"""The sheet of `whirlgate rate`: least and most rate first, then the widest plateaus; of a single speed its rate."""

from __future__ import annotations

from operator import itemgetter
from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Points, Run, Table, Value, listed, next_steps, say
from viz.sheets.cams import cam_says
from viz.sheets.pattern import meaning, pattern

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.rate_answer import RateAnswer, RatePoint, RateStep, Staircase
    from viz.sheets.blocks import Block, Cell, Sentence

MOST_LINES = 6
"""Plateaus listed of each powerplant unless all are asked for."""
PLATEAU = "Plateau: speeds over which rounds and blades keep one ratio, so that the rate of fire grows with the speed."
FIRES = (
    "{engine}, {low} to {high}{steps}: the gun fires {least} (at {at}) to {most} rounds per minute, {own} "
    "unsynchronized.{mean}"
)
FIRES_AT = (
    "Propeller at {low} to {high}{steps}: the gun fires {least} (at {at}) to {most} rounds per minute, {own} "
    "unsynchronized.{mean}"
)
PLATEAUS = {
    (True, True): "Plateaus: {engine}",
    (True, False): "Plateaus",
    (False, True): "Widest plateaus: {engine}",
    (False, False): "Widest plateaus",
}
"""Whether every one is listed, and whether the engine has a name."""
OF_UP_TO = " of up to {rounds} (--longest)"
COVER = "{count} plateaus{patterns}, which cover {share}."
ONE_COVERS = "{count} plateau{patterns}, which covers {share}."
MORE_COVER = "{listed} of {count} plateaus{patterns}, which cover {share}. --all lists them."
LONGER = "Between the plateaus listed lie longer patterns, which lose less."
PATTERN = "Rounds : blades"
WHOLE = 1.0 - 1e-9
"""Share of the speed range from which on it is covered whole."""
NEXT = next_steps(say("{run}, strikes and rate of fire of bursts with all scatter", run=Run("burst")))


def sheet(answer: RateAnswer, *, every: bool = False) -> Iterator[Block]:
    """Yield least and most rate behind each powerplant, and its plateaus: the widest, or every one."""
    swept = [each for each in answer.staircases if len({row.rpm for row in each.rows}) > 1]
    for staircase in swept:
        yield least_and_most(staircase)
    stepped = [each for each in answer.staircases if each.plateaus]
    together = len(stepped) > 1 and not every
    if together:
        yield _together(stepped, cam_says(answer.cams, answer.gun))
    for staircase in answer.staircases:
        if not (together and staircase.plateaus):
            yield _table(staircase, every=every)
    if not together:
        yield say("{cam}", cam=cam_says(answer.cams, answer.gun))
    if every and any(each.plateaus for each in swept):
        yield Points(plateau_words(swept))
    yield NEXT


def plateau_words(staircases: Sequence[Staircase]) -> tuple[str, ...]:
    """Return what a plateau is, and what lies between those listed, where anything does."""
    longer = any(each.plateaus and each.covered_share < WHOLE for each in staircases)
    return (PLATEAU, LONGER) if longer else (PLATEAU,)


def least_and_most(staircase: Staircase) -> Sentence:
    """Return between which rates the gun fires over the speeds of a staircase, beside its own rate."""
    speeds = [row.rpm for row in staircase.rows]
    (least, at_rpm), (most, _) = ends(staircase)
    scattered = [row.scattered_rounds_per_min for row in staircase.rows if row.scattered_rounds_per_min is not None]
    return say(
        FIRES if staircase.powerplant else FIRES_AT,
        engine=staircase.powerplant,
        low=Value("rpm", min(speeds), decimals=0, bare=True),
        high=Value("rpm", max(speeds), decimals=0),
        steps="" if staircase.plateaus else say(" ({count} speeds computed)", count=str(len(speeds))),
        least=_rate(least),
        at=Value("rpm", at_rpm, decimals=0),
        most=_rate(most),
        own=Value("gun_rounds_per_min", staircase.gun_rounds_per_min, plain=True, bare=True),
        mean=_mean(staircase, scattered) if scattered else "",
    )


def ends(staircase: Staircase) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the least and the most rate over the speeds [1/min], each with its speed [rpm].

    The least stands at the lower end of a plateau: patterns too long to be listed lose less than their neighbours. Of a
    cam without plateaus it is the least of the speeds computed.
    """
    found = [(row.rounds_per_min, row.rpm) for row in staircase.rows]
    found += [(step.from_rounds_per_min, step.from_rpm) for step in staircase.plateaus]
    found += [(step.to_rounds_per_min, step.to_rpm) for step in staircase.plateaus]
    return min(found, key=itemgetter(0)), max(found, key=itemgetter(0))


def _mean(staircase: Staircase, scattered: list[float]) -> Sentence:
    return say(
        " With a cycle scatter of {scatter}: {least} to {most} on average.",
        scatter=Value("cycle_scatter_ms", staircase.cycle_scatter_ms, plain=True, digits=3),
        least=_rate(min(scattered)),
        most=_rate(max(scattered)),
    )


def _rate(rounds_per_min: float) -> Value:
    return Value("rounds_per_min", rounds_per_min, decimals=0, bare=True)


def _table(staircase: Staircase, *, every: bool) -> Table:
    named, engine = bool(staircase.powerplant), staircase.powerplant
    if staircase.plateaus:
        steps = widest(staircase, len(staircase.plateaus) if every else MOST_LINES)
        notes: tuple[Cell, ...] = (_covered(staircase, len(steps)), *meaning(PATTERN, steps))
        return Table(say(PLATEAUS[every, named], engine=engine), _columns(steps), notes)
    single = len({row.rpm for row in staircase.rows}) == 1
    rows = _some(staircase.rows, 1 if single else len(staircase.rows) if every else MOST_LINES)
    none: tuple[Cell, ...] = () if single else _none(staircase)
    said = "Rate of fire through the propeller: {engine}" if named else "Rate of fire through the propeller"
    heading = say(said, engine=engine)
    return Table(heading, _at_speeds(staircase, rows), (*none, *meaning(PATTERN, rows)))


def _together(staircases: Sequence[Staircase], cam: str) -> Table:
    """Return the widest plateaus of several powerplants in one table, to whole speeds, with the cam below."""
    steps = [(each.powerplant, step) for each in staircases for step in widest(each, MOST_LINES // len(staircases))]
    found = [step for _, step in steps]
    numbers = listed((str(len(each.plateaus)) for each in staircases), " and ")
    columns = (
        Column("Engine", tuple(engine for engine, _ in steps)),
        Column(PATTERN, tuple(map(pattern, found))),
        Column("From", tuple(Value("from_rpm", step.from_rpm, decimals=0) for step in found)),
        Column("To", tuple(Value("to_rpm", step.to_rpm, decimals=0) for step in found)),
        Column("Rounds per minute", tuple(rates(step, 0) for step in found)),
    )
    notes: tuple[Cell, ...] = (
        say("--all lists all {numbers} plateaus.", numbers=numbers),
        *meaning(PATTERN, found),
        cam,
    )
    return Table("Widest plateaus", columns, notes)


def widest(staircase: Staircase, count: int) -> list[RateStep]:
    """Return the widest plateaus in the order of speed."""
    found = sorted(staircase.plateaus, key=lambda step: step.from_rpm - step.to_rpm)[:count]
    return sorted(found, key=lambda step: step.from_rpm)


def _columns(steps: list[RateStep]) -> tuple[Column, ...]:
    def speeds(name: str) -> tuple[Cell, ...]:
        return tuple(Value(name, getattr(step, name), decimals=2, bare=True) for step in steps)

    return (
        Column(PATTERN, tuple(map(pattern, steps))),
        Column("Propeller speed from", speeds("from_rpm"), "from_rpm", "From"),
        Column("Propeller speed to", speeds("to_rpm"), "to_rpm", "To"),
        Column("Rounds per minute", tuple(rates(step, 1) for step in steps)),
    )


def rates(step: RateStep, decimals: int) -> Sentence:
    """Return the rates at both ends of a plateau."""
    ends = {
        slot: Value(f"{slot}_rounds_per_min", getattr(step, f"{slot}_rounds_per_min"), decimals=decimals, bare=True)
        for slot in ("from", "to")
    }
    return say("{from} to {to}", **ends)


def _covered(staircase: Staircase, listed: int) -> Sentence:
    count = len(staircase.plateaus)
    whole = staircase.covered_share >= WHOLE
    more = count > listed
    patterns = "" if whole or staircase.longest is None else say(OF_UP_TO, rounds=_rounds(staircase.longest))
    return say(
        MORE_COVER if more else ONE_COVERS if count == 1 else COVER,
        listed=str(listed),
        count=str(count),
        patterns=patterns,
        share="the whole speed range"
        if whole
        else say(
            "{share} of the speed range",
            share=Value("covered_share", staircase.covered_share, decimals=1, percent=True),
        ),
    )


def _none(staircase: Staircase) -> tuple[Cell, ...]:
    """Return why no plateau is listed."""
    if staircase.longest is not None:
        said = "No plateau of up to {rounds} (--longest) lies between these speeds."
        return (say(said, rounds=_rounds(staircase.longest)),)
    return ()


def _rounds(count: int) -> Cell:
    return "1 round" if count == 1 else say("{count} rounds", count=str(count))


def _some(rows: Sequence[RatePoint], count: int) -> list[RatePoint]:
    """Return so many of the speeds, evenly spaced, the first and the last among them."""
    last = len(rows) - 1
    return [rows[place] for place in sorted({round(place * last / max(count - 1, 1)) for place in range(count)})]


def _at_speeds(staircase: Staircase, rows: list[RatePoint]) -> tuple[Column, ...]:
    own = Value("gun_rounds_per_min", staircase.gun_rounds_per_min, plain=True, bare=True)
    rates = tuple(Value("rounds_per_min", row.rounds_per_min, decimals=1, bare=True) for row in rows)
    return (
        Column("Propeller speed", tuple(Value("rpm", row.rpm, plain=True, bare=True) for row in rows), "rpm"),
        Column(PATTERN, tuple(map(pattern, rows))),
        Column("Rounds per minute", rates),
        Column("Unsynchronized", (own,) * len(rows)),
    )
