"""The sheet of `whirlgate burst`: the chance of a strike first, then what was counted beside what is exact."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.sheets.angles import angle
from viz.sheets.blocks import Column, Points, Run, Table, Value, next_steps, rows, say
from viz.sheets.cams import capital, of_gun
from viz.sheets.chance import SELDOM, chance_words, grouped

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.burst_answer import BurstAnswer
    from viz.sheets.blocks import Block, Cell, Sentence

NEXT = next_steps(say("{run}, safe speed range of a fixed cam", run=Run("safe-range")))


SEEN = 1e-4
"""Bound on the error of the exact strikes, over their number, above which it is printed: it reaches the last digit."""
WORDS = (
    "Exact: calculated without simulation. 95 % confidence interval: holds the true number in 19 of 20 simulations.",
    "Angle of passage: turn of the last blade past the bore line (the line of fire); mean ± standard deviation.",
)
WAITS = ("Trigger to first release at {speed}, mean", "Trigger to first release at {speed}, longest")
TITLE = "{rounds} rounds, {speed}, random seed {seed}"
RIPPLES = {
    1: "Speed within a turn: ± {depth}, once a turn, fastest at propeller angle {peak}.",
    2: "Speed within a turn: ± {depth}, twice a turn, fastest at propeller angle {peak}.",
}
RIPPLES_OFTEN = "Speed within a turn: ± {depth}, {number} times a turn, fastest at propeller angle {peak}."
EXACTLY = "Strikes on the blades, exact: {words}. Without the gear: {without} in 1000 rounds."
AS_SIMULATED = "Strikes on the blades, simulated: {words}. Without the gear: {without} in 1000 rounds."
MORE = "--all adds time between rounds, angle of passage and what the words mean."


def sheet(answer: BurstAnswer, *, every: bool = False) -> Iterator[Block]:
    """Yield the chance of a strike with the gear and without it, and statistics: the main or every one."""
    lines: list[tuple[Cell, ...]] = [
        (
            "Strikes per 1000 rounds",
            *map(_seldom, _both(answer, Value("strikes_per_1000", None, digits=4, plain=True))),
        ),
        ("95 % confidence interval", _interval(answer.interval_95_per_1000), ""),
        ("Rounds per minute, all guns", *_both(answer, Value("rounds_per_min", None, decimals=2, bare=True))),
        (
            "Rounds clear of blade and margin",
            *_both(answer, Value("margin_kept_share", None, decimals=3, percent=True)),
        ),
        *(_intervals_and_angles(answer) if every else ()),
        *(() if answer.untimed else _first_round(answer)),
    ]
    yield _chance(answer)
    yield rows(
        _title(answer),
        ("Quantity", "Simulated", "Exact"),
        lines,
        _cam(answer),
        *_ripple(answer),
        *_exactness(answer),
        *(() if every else (MORE,)),
    )
    if answer.each_gun:
        yield _guns(answer)
    if every:
        yield Points(WORDS)
    yield NEXT


def _first_round(answer: BurstAnswer) -> Iterator[tuple[Cell, ...]]:
    """Yield the lines about the wait for the cam, exact at the speed itself, from which that of a burst may scatter."""
    waits = answer.first_round_ms
    for said, found in zip(WAITS, (waits.mean, waits.max), strict=True):
        name = say(said, speed=Value("rpm", answer.rpm, plain=True))
        yield name, "", Value("mean_ms", found, decimals=2)


def _seldom(strikes: Value) -> Cell:
    """Return strikes in a thousand; below what is told as a chance no digits."""
    least, number = 1e3 * SELDOM, strikes.number
    return say("under {least}", least=replace(strikes, number=least)) if number and number < least else strikes


def _intervals_and_angles(answer: BurstAnswer) -> Iterator[tuple[Cell, ...]]:
    """Yield the lines about the time between rounds and about where they pass."""
    interval, angle = answer.interval_ms, answer.pass_angle_deg
    yield "Time between rounds of one gun, mean", Value("mean_ms", interval.mean, decimals=2), ""
    yield "Time between rounds of one gun, range", _times(interval.min, interval.max), ""
    yield "Angle of passage, after the last blade", _angle(angle.mean, angle.sd), ""


def _guns(answer: BurstAnswer) -> Table:
    """Return the figures of each gun, and how often the two meet in one gap."""
    guns, shared = answer.each_gun, answer.shared_gaps

    def column(head: str, name: str, how: Value) -> Column:
        return Column(head, tuple(replace(how, number=getattr(each, name)) for each in guns))

    def seldom(head: str, name: str) -> Column:
        return Column(head, tuple(_seldom(replace(strikes, number=getattr(each, name))) for each in guns))

    strikes = Value("strikes_per_1000", None, digits=4, plain=True)
    told = say(
        "{share} of the rounds pass through a gap between two blades through which one of the other gun passes too, "
        "both triggers pulled at one instant.",
        share=Value("shared_share", shared.shared_share if shared else None, decimals=0, absent="No known part"),
    )
    opens = tuple(replace(angle("opens_deg", each.opens_deg, 1), bare=True) for each in guns)
    return Table(
        "Each gun",
        (
            Column("Gun", tuple(each.gun for each in guns)),
            column("Bore line, turn from upright", "bore_turn_deg", Value("bore_turn_deg", None, decimals=1)),
            *(() if answer.untimed else (Column("Cam opens", opens, "opens_deg"),)),
            seldom("Strikes per 1000, simulated", "strikes_per_1000"),
            seldom("Strikes per 1000, exact", "exact_strikes_per_1000"),
            column("Rounds per minute", "rounds_per_min", Value("rounds_per_min", None, decimals=1, bare=True)),
        ),
        (told,),
    )


def _both(answer: BurstAnswer, how: Value) -> tuple[Value, Value]:
    """Return a number as counted and as it is exactly, written like `how`."""
    counted, exact = (getattr(each, how.quantity, None) for each in (answer, answer.exact))
    return replace(how, number=counted), replace(how, number=exact)


def _title(answer: BurstAnswer) -> Sentence:
    named = answer.powerplant
    return say(
        "{rounds} rounds, {engine} at {speed}, random seed {seed}" if named else TITLE,
        rounds=grouped(answer.rounds),
        engine=named,
        speed=Value("rpm", answer.rpm, decimals=0),
        seed=str(answer.seed),
    )


def _cam(answer: BurstAnswer) -> str:
    """Return which cam the bursts were fired with."""
    if answer.untimed:
        return "No gear: the gun fires whenever it is ready."
    unlike = len({each.opens_deg for each in answer.each_gun}) > 1
    return of_gun(answer.cam.says, "first") if unlike else answer.cam.says


def _ripple(answer: BurstAnswer) -> Iterator[Sentence]:
    """Yield how the speed ripples, where it does."""
    if answer.ripple.depth > 0.0:
        yield say(
            RIPPLES.get(answer.ripple.per_rev, RIPPLES_OFTEN),
            depth=Value("depth", answer.ripple.depth, decimals=1, percent=True),
            number=str(answer.ripple.per_rev),
            peak=Value("peak_deg", answer.ripple.peak_deg, decimals=0),
        )


def _chance(answer: BurstAnswer) -> Sentence:
    """Return how often a blade is struck, and how often without the gear."""
    without = Value("untimed_strikes_per_1000", answer.untimed_strikes_per_1000, digits=3, plain=True)
    if answer.untimed:
        return say("Strikes on the blades without the gear: {without} in 1000 rounds.", without=without)
    return say(
        EXACTLY if answer.exact else AS_SIMULATED,
        words=chance_words(answer.chance),
        without=without,
    )


def _exactness(answer: BurstAnswer) -> Iterator[Sentence]:
    """Yield how good the exact values are, or why there are none."""
    if answer.exact and answer.exact.error_per_1000 > SEEN * answer.exact.strikes_per_1000:
        bound = Value("error_per_1000", answer.exact.error_per_1000, digits=1, plain=True)
        yield say("Exact strikes per 1000 rounds are right to within {bound} in 1000.", bound=bound)
    if answer.exact_note:
        yield say("{note}.", note=capital(answer.exact_note))


def _interval(ends: tuple[float, float]) -> Sentence:
    low, high = (Value("interval_95_per_1000", end, digits=4, plain=True) for end in ends)
    return say("{low} to {high}", low=low, high=high)


def _times(least_ms: float, most_ms: float) -> Sentence:
    low = Value("mean_ms", least_ms, decimals=1, bare=True)
    return say("{low} to {high}", low=low, high=Value("mean_ms", most_ms, decimals=1))


def _angle(mean_deg: float, sd_deg: float) -> Sentence:
    return say("{mean} ± {sd}", mean=Value("mean_deg", mean_deg, decimals=1), sd=Value("sd_deg", sd_deg, decimals=1))
