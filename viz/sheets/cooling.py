"""The sheet of `whirlgate cooling`: what warms and cools it, a line for each case, and when the oil stiffens."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, next_steps, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.cooling import CoolingAnswer, CoolingCase
    from viz.sheets.blocks import Block, Cell, Sentence

NOTES = (
    "Temperatures of the part that holds the oil. In brackets: with a heat transfer coefficient 20 % higher or lower.",
    "Clearance of a steel part in brass across warmth.fit_width: change since the start, - less, + more.",
    "For education only.",
)
NEXT = next_steps(say("{run}, this and every other answer in one document", run=Run("report", "--out report.html")))


def sheet(answer: CoolingAnswer) -> Iterator[Block]:
    """Yield what warms and cools it, and the four cases."""
    cases = answer.cases
    yield _heating(answer)
    columns = (
        Column("Receiver", tuple(case.name for case in cases)),
        Column(
            "Temperature at the end",
            tuple(_degrees("temperature_k", c.temperature_k[-1]) for c in cases),
            short="At the end",
        ),
        Column("Steady temperature", tuple(_degrees("settled_k", case.settled_k) for case in cases), short="Steady"),
        Column("Oil stiff", tuple(_oil(case, answer) for case in cases)),
        Column("Clearance", tuple(map(_clearance, cases))),
    )
    yield Table(_title(answer), columns, NOTES)
    yield NEXT


def _title(answer: CoolingAnswer) -> Sentence:
    return say(
        "Cooling for {time} from {start}, at {altitude} and {speed}; air {air}; oil is stiff, and no longer flows, "
        "below {stiff}",
        time=minutes(answer.time_s[-1]),
        altitude=Value("altitude_m", answer.altitude_m),
        speed=Value("speed_m_s", answer.speed_m_s),
        start=_degrees("start_k", answer.start_k),
        air=_degrees("air_k", answer.air_k),
        stiff=_degrees("oil_stiff_k", answer.oil_stiff_k),
    )


def _heating(answer: CoolingAnswer) -> Sentence:
    """Return what firing brings and in what air the gun stands."""
    bare, cowled = (next(case for case in answer.cases if case.cowled == cowl) for cowl in (False, True))
    firing = next(case for case in answer.cases if case.firing)
    return say(
        "Firing warms it: {rate} rounds per minute on average, {each} a round, {heat} in all. The air cools it: {bare} "
        "at {fast} past the bare gun, film coefficient (heat transfer for each area and degree) {open} at the "
        "start; {warm} at {slow} under the cowling, {closed}.",
        rate=Value("mean_rounds_per_min", answer.mean_rounds_per_min, plain=True, bare=True),
        each=Value("heat_per_round_j", answer.heat_per_round_j, plain=True, digits=3),
        heat=Value("heat_w", firing.heat_w, decimals=0),
        bare=_degrees("flow_k", bare.flow_k),
        open=Value("film_w_m2_k", bare.film_w_m2_k, digits=2),
        closed=Value("film_w_m2_k", cowled.film_w_m2_k, digits=2),
        fast=Value("flow_m_s", bare.flow_m_s),
        warm=_degrees("flow_k", cowled.flow_k),
        slow=Value("flow_m_s", cowled.flow_m_s),
    )


def _degrees(name: str, temperature_k: float) -> Value:
    return Value(name, temperature_k, decimals=0)


def minutes(time_s: float) -> Value:
    """Return a time in minutes."""
    return Value("duration_s", time_s, decimals=0)


def _clearance(case: CoolingCase) -> Value:
    """Return the change of the clearance, + where there is more."""
    return Value("clearance_lost_m", -case.clearance_lost_m, digits=2, change=True)


def _oil(case: CoolingCase, answer: CoolingAnswer) -> Cell:
    """Return when the oil stiffens, or, where it is stiff at the start, when it flows."""
    if answer.start_k < answer.oil_stiff_k:
        if case.fluid_earliest_s is None:
            return "from start to end"
        flows = _times("fluid", (case.fluid_after_s, case.fluid_earliest_s, case.fluid_latest_s))
        return say("at start; fluid after {flows}", flows=flows)
    if case.stays_fluid:
        return "never"
    if case.stiff_earliest_s is None:
        return say("not within {duration}", duration=minutes(answer.time_s[-1]))
    stiffens = _times("stiff", (case.stiff_after_s, case.stiff_earliest_s, case.stiff_latest_s))
    return say("after {stiffens}", stiffens=stiffens)


def _times(state: str, times_s: tuple[float | None, float | None, float | None]) -> Sentence:
    """Return a time and the band of the correlation, which may reach past the flight."""
    after_s, earliest_s, latest_s = times_s
    first = Value(f"{state}_earliest_s", earliest_s, decimals=0, bare=after_s is not None)
    if after_s is None:
        return say("{first} or more", first=first)
    likely = Value(f"{state}_after_s", after_s, decimals=0)
    if latest_s is None:
        return say("{likely} ({first} or more)", likely=likely, first=first)
    last = Value(f"{state}_latest_s", latest_s, decimals=0, bare=True)
    return say("{likely} ({first}–{last})", likely=likely, first=first, last=last)
