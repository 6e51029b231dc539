"""The sheet of `whirlgate cooling`: a line for each case, with the time at which the oil stiffens."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, next_steps, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.cooling import CoolingAnswer, CoolingCase
    from viz.sheets.blocks import Block, Cell, Sentence

NOTES = (
    "Temperatures of the part that holds the oil. In brackets: with a heat transfer coefficient 20 % higher or lower.",
    "Clearance lost since the start by a steel part in brass, across warmth.fit_width; negative: gained.",
    "For education only.",
)
NEXT = next_steps(say("{run}, this and every other answer in one document", run=Run("report", "--out report.html")))


def sheet(answer: CoolingAnswer) -> Iterator[Block]:
    """Yield the four cases."""
    cases = answer.cases
    columns = (
        Column("Receiver", tuple(case.name for case in cases)),
        Column(
            "Temperature at the end",
            tuple(_degrees("temperature_k", c.temperature_k[-1]) for c in cases),
            short="At the end",
        ),
        Column("Steady temperature", tuple(_degrees("settled_k", case.settled_k) for case in cases), short="Steady"),
        Column("Oil stiff after", tuple(map(_stiff, cases))),
        Column("Clearance lost", tuple(map(_clearance, cases))),
    )
    yield Table(_title(answer), columns, NOTES)
    yield NEXT


def _title(answer: CoolingAnswer) -> Sentence:
    return say(
        "Cooling for {time} from {start}, at {altitude} and {speed}; air {air}, oil stiff below {stiff}",
        time=minutes(answer.time_s[-1]),
        altitude=Value("altitude_m", answer.altitude_m),
        speed=Value("speed_m_s", answer.speed_m_s),
        start=_degrees("start_k", answer.start_k),
        air=_degrees("air_k", answer.air_k),
        stiff=_degrees("oil_stiff_k", answer.oil_stiff_k),
    )


def _degrees(name: str, temperature_k: float) -> Value:
    return Value(name, temperature_k, decimals=0)


def minutes(time_s: float) -> Value:
    """Return a time in minutes."""
    return Value("duration_s", time_s, decimals=0)


def _clearance(case: CoolingCase) -> Value:
    return Value("clearance_lost_m", case.clearance_lost_m, digits=2)


def _stiff(case: CoolingCase) -> Cell:
    """Return when the oil stiffens, with the band of the correlation."""
    if case.stiff_earliest_s is None:
        return "stays fluid"
    first = Value("stiff_earliest_s", case.stiff_earliest_s, decimals=0, bare=case.stiff_after_s is not None)
    if case.stiff_after_s is None:
        return say("{first} or more", first=first)
    return say(
        "{likely} ({first}{last})",
        likely=Value("stiff_after_s", case.stiff_after_s, decimals=0),
        first=first,
        last=_latest(case.stiff_latest_s),
    )


def _latest(time_s: float | None) -> Cell:
    """Return the end of the band, or that it lies past the flight."""
    if time_s is None:
        return " or more"
    return say("–{last}", last=Value("stiff_latest_s", time_s, decimals=0, bare=True))
