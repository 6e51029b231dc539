"""Where the engine must stand, and what does the same in its place: a part of the sheet of a balance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.engine_position import spaced
from viz.sheets.blocks import Run, Value, listed, rows, say
from viz.sheets.stations import given, moved, station

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.balance_answer import BalanceAnswer, BallastPlace
    from sim.studies.standing import Standing
    from viz.sheets.blocks import Cell, Sentence, Table

WRONG_SIDE = "Cannot: ballast there moves the CG away from the target, for it lies on the wrong side of it."
NONE_SERVES = (
    "None serves: no mass there brings every loading within the limits at once; move the engine, or the limits and "
    "loadings are too far apart."
)
NO_MOVE_M = 1e-4
"""Of the engine, where nothing is left to be done."""
MOST_POSITIONS = 25
"""Positions of the engine in the table; where the target is far, the steps are longer."""


def served(first_m: float | None, last_m: float | None, origin: str) -> Sentence:
    """Return in a clause which positions of the engine serve both ends of the envelope."""
    if first_m is None or last_m is None:
        return say("no position of the engine keeps every loading within the limits")
    return say(
        "every loading stays within the limits with the engine from {first} to {last} of {origin}",
        first=moved("serves_from_m", first_m),
        last=moved("serves_to_m", last_m),
        origin=origin,
    )


def serving(answer: BalanceAnswer, *, drawn: bool = False) -> Sentence:
    """Return in a clause what a position at the target does to the loadings, and which positions serve them all.

    Parameters
    ----------
    answer : BalanceAnswer
        The balance.
    drawn : bool
        Whether positions are told from where the engine is drawn, not from where it stands.
    """
    from_m = answer.moved_m if drawn else 0.0
    first_m, last_m = (None if end is None else end + from_m for end in (answer.serves_from_m, answer.serves_to_m))
    clause = served(first_m, last_m, "where it is drawn" if drawn else "its present position")
    if not answer.outside_at_target:
        return clause
    count = len(answer.outside_at_target)
    return say(
        "there 1 of {all} loadings is OUTSIDE the limits ({names}); {clause}"
        if count == 1
        else "there {count} of {all} loadings are OUTSIDE the limits ({names}); {clause}",
        count=str(count),
        all=str(len(answer.envelope)),
        names=listed(answer.outside_at_target),
        clause=clause,
    )


def stands(answer: BalanceAnswer, standing: Standing) -> Sentence:
    """Return in a sentence where an engine stands for a report, and what that does to the centre of gravity.

    Parameters
    ----------
    answer : BalanceAnswer
        With the engine where it stands.
    standing : Standing
        Why it stands there.
    """
    slots: dict[str, Cell] = {
        "name": answer.powerplant,
        "place": _drawn(answer.moved_m),
        "station": station("engine_station_m", answer.engine_station_m),
        "cg": Value("cg_percent_mac", answer.cg_percent_mac, decimals=1),
        "target": f"{answer.target_percent_mac:g}",
        "error": station("engine_move_error_m", answer.engine_move_error_m),
        "serving": serving(answer, drawn=True),
    }
    if standing.by == "target" or abs(answer.engine_move_m) < NO_MOVE_M:
        return say(
            "The {name} stands {place} ± {error}, at station {station}: the loaded centre of gravity is on target, "
            "{target} % of the mean chord; {serving}.",
            **slots,
        )
    return say(
        "The {name} stands {place}, at station {station}, where its key move puts it: the loaded centre of gravity is "
        "at {cg} % of the mean chord. The target, {target} %, needs it {wanted} ± {error}; {serving}.",
        wanted=_drawn(answer.target_move_m),
        **slots,
    )


def _drawn(move_m: float) -> Cell:
    """Return where an engine is from where it is drawn."""
    if abs(move_m) < NO_MOVE_M:
        return "where it is drawn"
    return say("{move} from where it is drawn", move=moved("moved_m", move_m))


def engine_positions(answer: BalanceAnswer) -> Table:
    """Return positions of the engine, and which of them brings the centre of gravity to the target."""
    apart_m, shown = spaced(answer.positions, MOST_POSITIONS)
    lines = [
        (
            moved("engine_move_m", step.engine_move_m),
            station("engine_station_m", answer.engine_station_m + step.engine_move_m),
            station("cg_station_m", step.cg_station_m),
            Value("cg_percent_mac", step.cg_percent_mac, decimals=2),
        )
        for step in shown
    ]
    target = say(
        "Target {target} % of the mean chord, station {station}: {way}. Moving it {step} aft moves the CG aft by "
        "{shift} % of the mean chord{ballast}.",
        target=f"{answer.target_percent_mac:g}",
        station=station("target_station_m", answer.target_station_m),
        way=_way(answer),
        step=given("step_m", answer.step_m),
        shift=Value("cg_per_step_percent_mac", answer.cg_per_step_percent_mac, decimals=2),
        ballast=_ballast_per_step(answer),
    )
    heads = ["Engine moved", "Engine station", "Loaded CG station", "% mean chord"]
    told = "At the target {served}." if answer.outside_at_target else "Whole envelope: {served}."
    both = say(told, served=serving(answer))
    title = say("Engine position, in steps of {apart}", apart=given("step_m", apart_m))
    return rows(title, heads, lines, target, both)


def _way(answer: BalanceAnswer) -> Cell:
    error = station("engine_move_error_m", answer.engine_move_error_m)
    if abs(answer.engine_move_m) < NO_MOVE_M:
        return say("the engine stands there, ± {error}", error=error)
    return say(
        "move the engine {move} ± {error}, with all that moves with it",
        move=moved("engine_move_m", answer.engine_move_m),
        error=error,
    )


def _ballast_per_step(answer: BalanceAnswer) -> Cell:
    if answer.ballast_per_step_kg is None:
        return ""
    mass = Value("ballast_per_step_kg", answer.ballast_per_step_kg, digits=2)
    return say(", as does {mass} of tail ballast", mass=mass)


def in_place_of_the_move(answer: BalanceAnswer) -> Table:
    """Return what does the work of the engine's move: ballast at each place, then a battery or a tank moved."""
    there = abs(answer.engine_move_m) < NO_MOVE_M
    lines: list[tuple[Cell, ...]] = [
        (
            say("ballast, {place}", place=one.place),
            station("station_m", one.station_m),
            "none needed" if there else Value("to_target_kg", one.to_target_kg, digits=2, absent="cannot"),
            _serves(one),
        )
        for one in answer.ballast
    ]
    lines += [
        (
            say("{item} moved {shift}", item=one.item, shift=moved("shift_m", one.shift_m, 1)),
            station("station_m", one.station_m),
            "no ballast",
            "–",
        )
        for one in ([] if there else answer.shifts)
    ]
    heads = ["In place of the engine's move", "Station", "Ballast to target", "Ballast for every loading"]
    title = "Ballast, or another item moved, with the same effect on the loaded CG"
    return rows(title, heads, lines, *_notes(answer))


def _notes(answer: BalanceAnswer) -> Iterator[str]:
    """Yield what the words of the table mean, and the keys with which it is tried."""
    there = abs(answer.engine_move_m) < NO_MOVE_M
    if not there and any(one.to_target_kg is None for one in answer.ballast):
        yield WRONG_SIDE
    if any(one.least_kg is None for one in answer.ballast):
        yield NONE_SERVES
    if answer.ballast and answer.as_weighed:
        yield "Ballast is an [[item]] with added = true: it was not on the scales."
    elif answer.ballast:
        yield "Ballast is an [[item]]."
    if answer.shifts and not there:
        yield "A moved item has the key move, from its station, as a powerplant has."


def try_a_shift(answer: BalanceAnswer) -> Iterator[Sentence]:
    """Yield the command that moves a battery or a tank in place of the engine, where that brings anything."""
    named = [one for one in answer.shifts if not set(one.item) & set(".'{}")]
    if named and abs(answer.engine_move_m) > NO_MOVE_M:
        shift = min(named, key=lambda one: abs(one.shift_m))
        setting = say(
            "--set 'item.{item}.move={move}'",
            item=shift.item,
            move=Value("shift_m", shift.move_m, digits=4, plain=True),
        )
        yield say("{run}, the {item} moved instead", run=Run("balance", setting), item=shift.item)


def _serves(one: BallastPlace) -> Cell:
    if one.least_kg is None:
        return "none serves"
    least = Value("least_kg", one.least_kg, digits=2)
    if one.most_kg is None:
        return say("from {least}", least=least)
    return say("{least} to {most}", least=least, most=Value("most_kg", one.most_kg, digits=2))
