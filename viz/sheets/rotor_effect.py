"""The rotor's effect on handling in sentences: control travel, the speed that doubles it, levels that change."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.units.quantities import quantity
from viz.sheets.bands import band, has_band, known, with_band
from viz.sheets.blocks import Run, Value, listed, say
from viz.sheets.modes import level_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.rotor_effect import Conclusion, Doubling, GradeChange, RotorEffect, RotorShare
    from viz.sheets.blocks import Sentence

BEYOND = " (outside the range of validity: {bounds})"
WHERE = {-1: "in a level 45° left turn", 0: "in straight flight", 1: "in a level 45° right turn"}
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
    slowest = with_band(found, "slowest_m_s")
    if found.speed_m_s is None:
        end = (
            say("{limit} prevents a slower turn", limit=found.limit)
            if found.limit
            else "this is the slowest speed examined"
        )
        return say(
            "{what} has not doubled at {slowest}; {end}{drawn}.",
            what=what,
            slowest=slowest,
            end=end,
            drawn=_doubles(found),
        )
    ended = say("; below {slowest} {limit} prevents the turn", limit=found.limit, slowest=slowest)
    return say(
        "{what} doubles at {speed}{beyond}{ended}{drawn}.",
        what=what,
        speed=with_band(found, "speed_m_s"),
        beyond=say(" (outside the range of validity: {bounds})", bounds=listed(found.beyond, ", "))
        if found.beyond
        else "",
        ended=ended if found.limit else "",
        drawn=_doubles(found),
    )


def _doubles(found: Doubling) -> Sentence | str:
    """Return in what share of the airplanes drawn it doubles before a limit is met; nothing without bands."""
    if found.doubles_probability is None:
        return ""
    share = Value("doubles_probability", found.doubles_probability, decimals=0, percent=True)
    return say("; it doubles before a limit is met in {share} of the airplanes drawn", share=share)


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
    return say("Modes whose MIL-F-8785C level differs: {told}.", told=told)


def modes_of_a_turn(answer: RotorEffect | None, *, bank_is_given: bool) -> Sentence:
    """Return the command that shows the modes of a turn: of one whose level differs, where there is one.

    Parameters
    ----------
    answer : RotorEffect or None
        None where there is none.
    bank_is_given : bool
        Whether the user gave banks, which the command takes over.
    """
    banks = [change.bank_deg for change in answer.changes if change.bank_deg] if answer else []
    if banks:
        bank = Value("bank_deg", banks[0], plain=True)
        return say("the modes of that turn, with {run}", run=Run("modes", say("--bank '{bank}'", bank=bank)))
    return say("the modes in a turn, with {run}", run=Run("modes", "" if bank_is_given else "--bank '45 deg'"))


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
    sides = list(dict.fromkeys(one.side for one in answer.conclusions))
    yield say(
        "In the same turns the {first} needs, compared with the {second} and in percent of travel, {told}. In "
        "brackets: in what share of the airplanes drawn that hold both turns this is so; in the sentence before: the "
        "90 % band.",
        first=answer.first.powerplant,
        second=answer.second.powerplant,
        told=listed(
            say(
                "in the {side} turn {told}",
                side=side,
                told=listed((_more(one) for one in answer.conclusions if one.side == side), " and "),
            )
            for side in sides
        ),
    )


def _more(one: Conclusion) -> Sentence:
    """Return how much more of a control is needed: ``17 % more left rudder (98 %)``."""
    name = f"{one.control}_share"
    signs = quantity(name).signs or ("", "")
    rudder = one.control == "rudder"
    return say(
        "{size} more {way} rudder ({sure})" if rudder else "{size} more {way} ({sure})",
        size=Value(name, abs(one.more_share), decimals=0, percent=True),
        way=signs[one.more_share < 0.0],
        sure=Value("probability", one.probability, decimals=0, percent=True),
    )


def _change(change: GradeChange, first: str, second: str) -> Sentence:
    return say(
        "{mode} {where}, {old} with the {first}, {new} with the {second}",
        mode=change.mode,
        where=WHERE[(change.bank_deg > 0.0) - (change.bank_deg < 0.0)],
        old=level_words(change.first_level),
        first=first,
        new=level_words(change.second_level),
        second=second,
    )
