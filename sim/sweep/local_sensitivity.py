"""Which ± an answer hangs on, quickly: each value moved by its own standard deviation, one at a time."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.scenario.reading import DEMO
from sim.sweep.grid import Asked, asked
from sim.sweep.parameters import by_name, column_of, declared_at, place, setting
from sim.sweep.runner import NoJournal, Outcome, collect, outcomes, silent
from sim.sweep.workers import Crew

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sim.sweep.outputs import Column, Value


@dataclass(frozen=True, slots=True)
class Lever:
    """One value of the scenario that was written with a ±.

    Attributes
    ----------
    column : Column
        Its key and unit.
    nominal, tolerance : float
        As it stands, and one standard deviation. [SI]
    moves : float
        By how much the answer goes when the value goes up by that. [SI, unit of the answer]
    """

    column: Column
    nominal: float
    tolerance: float
    moves: float


@dataclass(frozen=True, slots=True)
class Levered:
    """One answer and what it hangs on.

    Attributes
    ----------
    column : Column
        Its path and unit.
    nominal : float
        With every value as it stands. [SI]
    spread : float
        One standard deviation of it: root of the sum of squares of what the levers move. [SI]
    levers : tuple of Lever
        Those that move it, the strongest first.
    """

    column: Column
    nominal: float
    spread: float
    levers: tuple[Lever, ...]


def leverage(
    scenario: str = DEMO, *, collected: Iterable[str], settings: Iterable[str] = (), workers: int = 1
) -> tuple[Levered, ...]:
    """Return what each answer hangs on.

    Parameters
    ----------
    scenario : str
        File or bundled name.
    collected : iterable of str
        Dotted paths to numbers, as for `sim.sweep.grid.sweep`.
    settings : iterable of str
        ``table.key=value`` each.
    workers : int
        Processes on this machine.

    Raises
    ------
    InputError
        Every fault at once.
    NoAnswerError
        When the scenario has no ±, or one of the answers cannot be had.

    Notes
    -----
    Right as far as an answer is a straight line over each ±, and the values stray independently of each other;
    `sim.sweep.monte_carlo` draws them all together, takes hundreds of runs, and says how far to trust its shares.

    Examples
    --------
    >>> (found,) = leverage(collected=["balance.mass_kg"])
    >>> found.levers[0].column.key
    'item.fuselage frame.mass'
    """
    question = asked(scenario, settings, (), collected, needed=False)
    levers = list(_levers(question))
    if not levers:
        message = "the scenario has no ± to move; write some, as in 1400 lb ± 15 lb"
        raise NoAnswerError(message)
    points = [(), *((setting(key, one.nominal + one.tolerance, one.column.unit),) for key, one in levers)]
    found = outcomes(collect, question.job, points, crew=Crew(workers), journal=NoJournal(), progress=silent)
    first = found[0]
    if first.reason:
        raise NoAnswerError(first.reason)
    inputs = [one for _, one in levers]
    return tuple(_levered(column, inputs, found, number) for number, column in enumerate(question.collected))


def _levers(question: Asked) -> Iterable[tuple[str, Lever]]:
    for key, tolerance in question.scenario.tolerances.items():
        table, attribute = place(question.scenario, key, key)
        column = column_of(by_name(question.scenario, key), attribute, declared_at(table, attribute))
        yield key, Lever(column, float(getattr(table, attribute)), tolerance, 0.0)


def _levered(column: Column, inputs: Sequence[Lever], found: Sequence[Outcome], number: int) -> Levered:
    nominal, *moved = (_number(one.values[number]) for one in found)
    levers = [
        Lever(one.column, one.nominal, one.tolerance, value - nominal)
        for one, value in zip(inputs, moved, strict=True)
        if abs(value - nominal) > 1e-12 * abs(nominal)
    ]
    levers.sort(key=lambda lever: -abs(lever.moves))
    return Levered(column, nominal, math.hypot(*(lever.moves for lever in levers)), tuple(levers))


def _number(value: Value) -> float:
    return float(value) if isinstance(value, float | int) else math.nan
