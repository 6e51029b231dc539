"""A command run once more about another airplane, and what differs between the two answers."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import click

from sim.errors import Fault, InputError, NoAnswerError
from viz.commands.against import ASKED, DRAWN, FILE, HELD, OTHER, SETTINGS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from sim.answer import Answer
    from sim.scenario.tables import Scenario
    from viz.figures.complete import Other
    from viz.sheets.blocks import Block

PLACES = ("scenario", "drawing")
"""Arguments that name what is asked about."""
OWN: dict[str, Any] = {"settings": (), "bill_from": None, "remove_others": False}
"""Options that change the first scenario, and their values for another file."""


def ask_the_other(command: click.Command, context: click.Context, by_option: Callable[[Fault], Fault]) -> None:
    """Run the command for the other airplane without writing or printing anything, and keep its answer.

    Raises
    ------
    InputError
        With every fault of both airplanes.
    NoAnswerError
        When the question has no answer about the other airplane.
    """
    try:
        context.meta[OTHER] = _answer(command, context, _of_the_other(context))
    except InputError as error:
        own = _faults(lambda: _answer(command, context, {}))
        lead = SETTINGS if context.meta[ASKED][FILE] is None else FILE
        raise InputError(_of_both(own, error.faults, lead, by_option)) from error
    except NoAnswerError as error:
        message = f"Against {_name(context)}: {error}"
        raise NoAnswerError(message) from error


def other_scenario(
    first: str, settings: tuple[str, ...], file: str | None, changes: tuple[str, ...]
) -> Scenario | None:
    """Return the other scenario, or the first with further changes; None where neither is asked for.

    Raises
    ------
    InputError
        With every fault of both scenarios.
    """
    from sim.scenario.reading import load

    if file is None and not changes:
        return None
    try:
        return load(first, (*settings, *changes)) if file is None else load(file, changes)
    except InputError as error:
        own = _faults(lambda: load(first, settings))
        raise InputError(
            _of_both(own, error.faults, SETTINGS if file is None else FILE, lambda fault: fault)
        ) from error


def _faults(work: Callable[[], object]) -> tuple[Fault, ...]:
    """Return the faults that keep a work from being done."""
    try:
        work()
    except InputError as error:
        return error.faults
    except NoAnswerError:
        return ()
    return ()


def _of_both(
    own: Iterable[Fault], others: Iterable[Fault], lead: str, by_option: Callable[[Fault], Fault]
) -> Iterator[Fault]:
    """Yield the faults of the first airplane, then those that the other has besides, under the options of that."""
    known = tuple(own)
    yield from known
    yield from (_told(fault, lead, by_option) for fault in others if fault not in known)


def _answer(command: click.Command, context: click.Context, changed: dict[str, Any]) -> Answer:
    """Return the answer that the command would deliver; no file is written, what a figure would show is kept."""
    files = {
        p.name: None
        for p in command.params
        if isinstance(p, click.Option) and isinstance(p.type, click.Path) and p.name != "figure"
    }
    held: list[Answer] = []
    context.meta[HELD] = held
    try:
        context.invoke(command.callback, **{**context.params, **files, **changed})  # type: ignore[arg-type]
    finally:
        del context.meta[HELD]
    return held[0]


def _of_the_other(context: click.Context) -> dict[str, Any]:
    asked, given = context.meta[ASKED], context.params
    if asked[FILE] is not None:
        own = {name: value for name, value in OWN.items() if name in given}
        return {**own, _place(context): asked[FILE], "settings": asked[SETTINGS]}
    return {"settings": (*given["settings"], *asked[SETTINGS])}


def _place(context: click.Context) -> str:
    return next(name for name in PLACES if name in context.params)


def _name(context: click.Context) -> str:
    from viz.sheets.difference import called

    asked = context.meta[ASKED]
    return called(context.params[_place(context)], asked[FILE], asked[SETTINGS])


def _told(fault: Fault, lead: str, by_option: Callable[[Fault], Fault]) -> Fault:
    """Return a fault of the other airplane under the option that names it."""
    first, space, rest = fault.where.partition(" ")
    if first == "set" and not fault.file:
        return replace(fault, where=f"{SETTINGS}{space}{rest}")
    return Fault(lead, str(by_option(fault)))


def with_differences(answer: Answer) -> tuple[Answer, tuple[Block, ...]]:
    """Return an answer and no blocks, or where another airplane was asked about both answers and their differences."""
    context = click.get_current_context()
    if OTHER not in context.meta:
        return answer, ()
    from sim.difference import differences
    from viz.sheets.difference import sheet

    both = differences(answer, context.meta[OTHER])
    return both, tuple(sheet(both, _name(context)))


def asked_other() -> Other | None:
    """Return what was answered about the other airplane, None where no other was asked about."""
    from viz.figures.complete import Other

    context = click.get_current_context()
    return Other(_name(context), context.meta[OTHER]) if OTHER in context.meta else None


def drawn_other() -> Other | None:
    """Return what a figure shows of the other airplane, None where no other was asked about."""
    from viz.figures.complete import Other

    context = click.get_current_context()
    return Other(_name(context), context.meta[DRAWN]) if DRAWN in context.meta else None
