"""The rotor's effect on handling in sentences: control travel, the speed that doubles it, levels that change."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from viz.sheets.bands import band, has_band, known
from viz.sheets.blocks import Value, listed, say
from viz.sheets.modes import level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.rotor_effect import GradeChange, RotorEffect, RotorShare
    from viz.sheets.blocks import Sentence

WHERE = {-1: "in a 45° left turn", 0: "in straight flight", 1: "in a 45° right turn"}
"""Sign of the bank -> what is flown."""


def sheet(answer: RotorEffect) -> Iterator[Sentence]:
    """Yield the three sentences, and with bands how sure they are."""
    yield control_travel(answer)
    yield from sureness(answer)
    yield doubling(answer)
    yield changed_levels(answer)


def control_travel(answer: RotorEffect) -> Sentence:
    """Return how much of the control travel balances the rotor, with the largest and the smallest angular momentum."""
    first, second = answer.first, answer.second
    told = say(
        "To balance the rotor in a level 45° turn at {speed} the {name} needs {left} in a left turn, {right} in a "
        "right turn",
        speed=Value("speed_m_s", answer.speed_m_s),
        name=first.powerplant,
        left=_travel(first, "left"),
        right=_travel(first, "right"),
    )
    if first.powerplant != second.powerplant:
        told = say(
            "{told}; the {name} needs {left} in a left turn, {right} in a right turn",
            told=told,
            name=second.powerplant,
            left=_travel(second, "left"),
            right=_travel(second, "right"),
        )
    return say(
        "{told} (difference from the same turn without the rotor's angular momentum, in percent of travel).", told=told
    )


def doubling(answer: RotorEffect) -> Sentence:
    """Return the speed at which the largest of these shares is twice as large."""
    found = answer.doubling
    what = say(
        "With the {name} the {control} for the rotor in a {side} turn, {share} of travel,",
        name=answer.first.powerplant,
        control=found.control,
        side=found.side,
        share=Value("share", found.share, decimals=0, percent=True),
    )
    slowest = Value("speed_m_s", found.slowest_m_s)
    if found.speed_m_s is None:
        end = (
            say("{limit} prevents a slower turn", limit=found.limit)
            if found.limit
            else "this is the slowest speed examined"
        )
        return say("{what} has not doubled at {slowest}; {end}.", what=what, slowest=slowest, end=end)
    ended = say("; below {slowest} {limit} prevents the turn", limit=found.limit, slowest=slowest)
    return say(
        "{what} doubles at {speed}{beyond}{ended}.",
        what=what,
        speed=Value("speed_m_s", found.speed_m_s),
        beyond=f" (outside the range of validity: {', '.join(found.beyond)})" if found.beyond else "",
        ended=ended if found.limit else "",
    )


def changed_levels(answer: RotorEffect) -> Sentence:
    """Return the modes whose level of flying qualities differs between the two powerplants."""
    first, second = answer.first.powerplant, answer.second.powerplant
    if first == second:
        return say(
            "The scenario has no other powerplant to compare the MIL-F-8785C levels of the {one} with.", one=first
        )
    if not answer.changes:
        return say(
            "In level flight, straight and in 45° turns, every mode has the same MIL-F-8785C level with the {first} "
            "as with the {second}.",
            first=first,
            second=second,
        )
    told = listed(_change(change, first, second) for change in answer.changes)
    return say("MIL-F-8785C levels that differ in level flight: {told}.", told=told)


def _travel(taken: RotorShare, side: str) -> Sentence:
    rudder, elevator = f"{side}_rudder_share", f"{side}_elevator_share"
    return say(
        "{rudder} rudder{rudder_band} and {elevator}{elevator_band}",
        rudder=known(taken, rudder, decimals=0, percent=True, signed=True),
        rudder_band=_band(taken, rudder),
        elevator=known(taken, elevator, decimals=0, percent=True, signed=True),
        elevator_band=_band(taken, elevator),
    )


def _band(taken: RotorShare, name: str) -> Sentence | str:
    look: dict[str, Any] = {"decimals": 0, "percent": True, "signed": True, "brief": True}
    return say(" ({band})", band=band(taken, name, " to ", **look)) if has_band(taken, name) else ""


def sureness(answer: RotorEffect) -> Iterator[Sentence]:
    """Yield in what share of the airplanes drawn the first powerplant needs more control than the second."""
    if not answer.conclusions:
        return
    told = listed(
        say(
            "{more}{control} more in the {side} turn (so in {sure})",
            more=Value(f"{one.control}_share", one.more_share, decimals=0, percent=True, signed=True),
            control=" rudder" if one.control == "rudder" else "",
            side=one.side,
            sure=Value("probability", one.probability, decimals=0, percent=True),
        )
        for one in answer.conclusions
    )
    yield say(
        "The {first} needs beside the {second} {told} of the airplanes drawn that hold both turns. In brackets above: "
        "the 90 % band.",
        first=answer.first.powerplant,
        second=answer.second.powerplant,
        told=told,
    )


def _change(change: GradeChange, first: str, second: str) -> Sentence:
    return say(
        "{mode} {where}, {old} with the {first}, {new} with the {second}",
        mode=change.mode,
        where=WHERE[(change.bank_deg > 0.0) - (change.bank_deg < 0.0)],
        old=level(change.first_level),
        first=first,
        new=level(change.second_level),
        second=second,
    )
