"""The sheet of `whirlgate link`: which link keeps its lead, then each kind at each speed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Points, Run, Table, Value, listed, next_steps, say
from viz.sheets.from_sim import remarks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.link import LinkAnswer, LinkRow
    from viz.sheets.blocks import Block, Cell, Sentence

SPEEDS = ("idle", "cruise", "full")
NAMES = {"rod": "a rod", "shaft": "a shaft", "oil": "an oil column"}
WORDS = (
    (
        "Part of the lead: how far the propeller turns from the moment the cam lets go until the link frees the lock; "
        "±: one standard deviation from round to round. The whole lead, of windows and safe-range, ends as the round "
        "passes the propeller."
    ),
    (
        "An angle (rise of the follower, play, windup) takes the same turn at every speed, a time more the faster the "
        "propeller turns. A cam that is cut once fits one lead."
    ),
)
ALIKE_DEG = 0.05
"""Difference that is not seen in the digits printed."""
LEAKS = (
    "Leak: the oil that runs off while the column is under pressure; the slower the propeller, the further the cam "
    "turns for it. It is in the parts at each speed, beside angle and time."
)
LEFT_OUT = (
    "Left out: damping in the oil, its leak where link.leak_speed does not give it, and vibrations that outlast a lift."
)
NEXT = next_steps(say("{run}, the speeds that one cam serves with this lead", run=Run("safe-range")))


def sheet(answer: LinkAnswer, *, every: bool = False) -> Iterator[Block]:
    """Yield the answer in a sentence, each kind of link at each speed, and what is behind it if asked for."""
    yield _told(answer)
    yield _links(answer)
    if _leaks(answer):
        yield _leak(answer)
    yield _rest(answer)
    if every:
        yield _stages(answer)
        yield _oil(answer)
    leaks = (LEAKS,) if _leaks(answer) else ()
    yield Points(
        (*WORDS, *leaks, LEFT_OUT, *(() if every else ("--all gives the stages, and the oil column with more air.",)))
    )
    if answer.remarks:
        yield remarks(answer.remarks)
    yield NEXT


def _told(answer: LinkAnswer) -> Sentence:
    best, fitted = answer.steadiest, answer.fitted
    if _alike(answer):
        return _all_alike(answer)
    last = max(answer.links, key=lambda one: one.lead_change_deg)
    own = "" if fitted in (best, last) else f"; {NAMES[fitted.kind]}, which is fitted, {{own}}"
    low, high = (best.leads[place].rpm for place in (0, -1))
    moves = "changes" if _leaks(answer) else "grows"
    return say(
        f"{{engine}}: of the three {NAMES[best.kind]}{_fitted(best)} keeps its part of the lead best. From "
        f"{{low}} to {{high}} it {moves} by {{least}}; that of {NAMES[last.kind]}{_fitted(last)} by {{most}}{own}.",
        engine=answer.powerplant,
        low=Value("rpm", low, plain=True, bare=True),
        high=Value("rpm", high, plain=True),
        least=_change(best),
        most=_change(last),
        **({"own": _change(fitted)} if own else {}),
    )


def _leaks(answer: LinkAnswer) -> bool:
    """Return whether a leak of the oil is part of the answer."""
    return any(one.leak.counts for one in answer.links)


def _leak(answer: LinkAnswer) -> Sentence:
    """Return what the leak takes at the lowest and the highest speed, and where it takes all."""
    (one,) = (one for one in answer.links if one.leak.counts)
    first, last = one.leads[0], one.leads[-1]
    return say(
        "Of the part of the oil column its leak takes {most} at {low} and {least} at {high}. At {stall} and below all "
        "that the cam delivers leaks off, and the gun never trips.",
        most=Value("leak_deg", first.leak_deg, decimals=1),
        low=Value("rpm", first.rpm, plain=True),
        least=Value("leak_deg", last.leak_deg, decimals=1),
        high=Value("rpm", last.rpm, plain=True),
        stall=Value("leak_speed_rad_s", one.leak.leak_speed_rad_s, plain=True),
    )


def _alike(answer: LinkAnswer) -> bool:
    """Return whether all links keep their part alike, as those without length."""
    changes = [one.lead_change_deg for one in answer.links]
    return max(changes) - min(changes) < ALIKE_DEG


def _all_alike(answer: LinkAnswer) -> Sentence:
    low, high = (answer.fitted.leads[place].rpm for place in (0, -1))
    return say(
        "{engine}: all three links keep their part of the lead alike. From {low} to {high} it grows by {change}.",
        engine=answer.powerplant,
        low=Value("rpm", low, plain=True, bare=True),
        high=Value("rpm", high, plain=True),
        change=_change(answer.fitted),
    )


def _fitted(one: LinkRow) -> str:
    return ", which is fitted," if one.fitted else ""


def _change(one: LinkRow) -> Value:
    return Value("lead_change_deg", one.lead_change_deg, decimals=1)


def _links(answer: LinkAnswer) -> Table:
    columns = [
        Column("Link", tuple(f"{one.kind}{', fitted' if one.fitted else ''}" for one in answer.links)),
        Column("Wave", tuple(Value("wave_m_s", one.wave_m_s, decimals=0) for one in answer.links)),
        Column("Time", tuple(Value("time_part_ms", one.time_part_ms, decimals=2) for one in answer.links)),
        Column("Angle", tuple(Value("angle_part_deg", one.angle_part_deg, decimals=1) for one in answer.links)),
    ]
    for place, name in enumerate(SPEEDS):
        columns.append(Column(f"Part at {name}", tuple(_lead(one, place) for one in answer.links)))
    columns.append(Column("Changes by" if _leaks(answer) else "Grows by", tuple(map(_change, answer.links))))
    speeds = listed((Value("rpm", lead.rpm, plain=True) for lead in answer.fitted.leads), ", ")
    title = say(
        "Part of the lead that links of {length} take, at idle, cruise and full speed: {speeds}",
        length=Value("length_m", answer.length_m),
        speeds=speeds,
    )
    return Table(title, tuple(columns))


def _lead(one: LinkRow, place: int) -> Cell:
    lead = one.leads[place]
    return Value("lead_deg", lead.lead_deg, decimals=1, error=lead.lead_sd_deg)


def _rest(answer: LinkAnswer) -> Sentence:
    measured = ""
    if answer.measured_ms is not None:
        gun = " (first gun)" if answer.of_first_gun else ""
        measured = f" By the table link {{computed}} from cam to lock at cruise; measured: {{measured}}{gun}."
    return say(
        "Behind every link lock, barrel and flight take {rest} more, and let the whole lead grow by {more} more."
        + measured,
        rest=Value("rest_ms", answer.rest_ms, decimals=2),
        more=Value("rest_change_deg", answer.rest_change_deg, decimals=1),
        computed=Value("computed_ms", answer.computed_ms, decimals=2),
        measured=Value("measured_ms", answer.measured_ms, decimals=2),
    )


def _stages(answer: LinkAnswer) -> Table:
    stages = answer.stages
    return Table(
        say("Stages of the {kind} fitted", kind=answer.fitted.kind),
        (
            Column("Stage", tuple(one.name for one in stages)),
            Column(
                "Time", tuple(Value("time_part_ms", one.time_part_ms or None, decimals=2, absent="") for one in stages)
            ),
            Column(
                "Angle",
                tuple(Value("angle_part_deg", one.angle_part_deg or None, decimals=1, absent="") for one in stages),
            ),
        ),
    )


def _oil(answer: LinkAnswer) -> Table:
    rows = answer.oil
    return Table(
        "The oil column with air in it",
        (
            Column("Air", tuple(Value("air", one.air, percent=True, decimals=1) for one in rows)),
            Column("Wave", tuple(Value("wave_m_s", one.wave_m_s, decimals=0) for one in rows)),
            Column("Time", tuple(Value("time_part_ms", one.time_part_ms, decimals=2) for one in rows)),
            Column(
                "Lead changes by" if _leaks(answer) else "Lead grows by",
                tuple(Value("lead_change_deg", one.lead_change_deg, decimals=1) for one in rows),
            ),
        ),
        ("Air: bubbles at atmospheric pressure, over the oil; they shrink under link.oil_pressure, where given.",),
    )
