"""Which ± an answer hangs on, quickly: each value moved by its own standard deviation, one at a time."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.scenario.reading import DEMO
from sim.sweeps.grid import Question, question_of
from sim.sweeps.parameters import by_name, column_of, drawn_tolerances, place, setting
from sim.sweeps.runner import NoStore, Outcome, evaluate, outcomes, silent
from sim.sweeps.workers import Workers

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sim.scenario.tables import Scenario
    from sim.sweeps.outputs import Scalar, SweepColumn


@dataclass(frozen=True, slots=True)
class SensitivityInput:
    """One value of the scenario that was written with a ±.

    Attributes
    ----------
    column : SweepColumn
        Its key and unit.
    nominal, tolerance : float
        As it stands, and one standard deviation. [SI]
    change : float
        By how much the answer goes when the value goes up by that. [SI, unit of the answer]
    """

    column: SweepColumn
    nominal: float
    tolerance: float
    change: float


@dataclass(frozen=True, slots=True)
class Sensitivity:
    """One answer and what it hangs on.

    Attributes
    ----------
    column : SweepColumn
        Its path and unit.
    nominal : float
        With every value as it stands. [SI]
    spread : float
        One standard deviation of it: root of the sum of squares of what the inputs move. [SI]
    inputs : tuple of SensitivityInput
        Those that move it, the strongest first.
    unstated : float
        Root of what the spread holds beyond these: errors that are assumed, for the scenario states none. [SI]
    """

    column: SweepColumn
    nominal: float
    spread: float
    inputs: tuple[SensitivityInput, ...]
    unstated: float = 0.0


def of_error(one: Sensitivity, error: float) -> Sensitivity:
    """Return what an answer hangs on, with the standard error that it states itself.

    Parameters
    ----------
    one : Sensitivity
        By the ± of the scenario.
    error : float
        Of the answer, from these and from errors that it assumes where the scenario states none. [SI]
    """
    whole = max(error, one.spread)
    return replace(one, spread=whole, unstated=math.sqrt(whole**2 - one.spread**2))


def sensitivity(
    scenario: Scenario | str = DEMO, *, collect: Iterable[str], settings: Iterable[str] = (), workers: int = 1
) -> tuple[Sensitivity, ...]:
    """Return what each answer hangs on.

    Parameters
    ----------
    scenario : Scenario or str
        A loaded scenario, a file or a bundled name.
    collect : iterable of str
        Dotted paths to numbers, as for `sim.sweeps.grid.sweep`.
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
    `sim.sweeps.monte_carlo` draws them all together, takes hundreds of runs, and says how far to trust its shares.

    Examples
    --------
    >>> (found,) = sensitivity(collect=["balance.mass_kg"])
    >>> found.inputs[0].column.key
    'weighing.reading.1.scale'
    """
    question = question_of(scenario, settings, (), collect, needed=False)
    toleranced = dict(_inputs(question))
    if not toleranced:
        message = "the scenario has no ± to vary; write some, as in 1400 lb ± 15 lb"
        raise NoAnswerError(message)
    steps = ((setting(key, one.nominal + one.tolerance, one.column.unit),) for key, one in toleranced.items())
    job = replace(question.job, drawn=True)
    found = outcomes(evaluate, job, [(), *steps], workers=Workers(workers), journal=NoStore(), progress=silent)
    if found[0].reason:
        raise NoAnswerError(found[0].reason)
    inputs = tuple(toleranced.values())
    return tuple(_sensitivity(column, inputs, found, number) for number, column in enumerate(question.collected))


def _inputs(question: Question) -> Iterable[tuple[str, SensitivityInput]]:
    for key, tolerance in drawn_tolerances(question.scenario).items():
        found = place(question.scenario, key, key)
        column = column_of(by_name(question.scenario, key), found)
        yield key, SensitivityInput(column, float(found.value), tolerance, 0.0)


def _sensitivity(
    column: SweepColumn, inputs: Sequence[SensitivityInput], found: Sequence[Outcome], number: int
) -> Sensitivity:
    nominal, *varied = (_number(one.values[number]) for one in found)
    changed = [
        replace(one, change=value - nominal)
        for one, value in zip(inputs, varied, strict=True)
        if abs(value - nominal) > 1e-12 * abs(nominal)
    ]
    changed.sort(key=lambda one: -abs(one.change))
    return Sensitivity(column, nominal, math.hypot(*(one.change for one in changed)), tuple(changed))


def _number(value: Scalar) -> float:
    return float(value) if isinstance(value, float | int) else math.nan
