"""What the ± of a scenario do to an answer: its spread, and which of them it hangs on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import Fault, InputError, NoAnswerError
from sim.scenario.reading import DEMO
from sim.sweeps.grid import Question, SweepRow, question_of
from sim.sweeps.monte_carlo_answer import Spread, SpreadInput, SpreadResult
from sim.sweeps.parameters import by_name, column_of, drawn_tolerances, limits, place, setting
from sim.sweeps.runner import NoStore, PointStore, Progress, evaluate, outcomes, signature, silent
from sim.sweeps.sampling import halves, mixed, truncated
from sim.sweeps.sobol import sobol_shares
from sim.sweeps.workers import Workers

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

    from sim.scenario.tables import Scenario
    from sim.sweeps.outputs import SweepColumn
    from sim.sweeps.runner import Outcome
    from sim.sweeps.sampling import Sampling

LEAST, MOST = 8, 65536
"""Draws."""


def spread_question(
    scenario: Scenario | str, settings: Iterable[str], collect: Iterable[str], *, draws: float, vary: Iterable[str] = ()
) -> Question:
    """Return the question, every part of it checked.

    Raises
    ------
    InputError
        Every fault at once: as `sim.sweeps.grid.question_of`, and a number of draws that is no power of two, a scenario
        without a ±, a result in words.
    """
    faults = list[Fault]()
    if draws not in [2**power for power in range(3, 17)]:
        allowed = f"must be a power of two from {LEAST} to {MOST}, as 64 or 128"
        faults.append(Fault("draws", f'{allowed}, got "{draws:g}"'))
    if tuple(vary):
        faults.append(Fault("draws", "cannot be used with `vary`: it samples every ± of the scenario"))
    try:
        question = question_of(scenario, settings, (), collect, needed=False)
    except InputError as error:
        raise InputError([*faults, *error.faults]) from None
    if not drawn_tolerances(question.scenario):
        faults.append(Fault("draws", 'must have a ± in the scenario to sample, as in "1400 lb ± 15 lb"'))
    words = [column.key for column in question.collected if column.words]
    faults += [Fault(f"collect {key}", "must be a number where every ± is sampled") for key in words]
    if faults:
        raise InputError(faults)
    return question


def spread(
    scenario: Scenario | str = DEMO,
    *,
    collect: Iterable[str],
    draws: int = 64,
    sampling: Sampling = "latin",
    seed: int = 1,
    settings: Iterable[str] = (),
    workers: int = 1,
) -> Spread:
    """Draw every ± of a scenario that matters and say how far the answers spread and what they hang on.

    Parameters
    ----------
    scenario : Scenario or str
        A loaded scenario, a file or a bundled name.
    collect : iterable of str
        Dotted paths to numbers, as for `sim.sweeps.grid.sweep`.
    draws : int
        A power of two.
    sampling : str
        ``latin`` or ``sobol``.
    seed : int
        Same seed, same draws.
    settings : iterable of str
        ``table.key=value`` each, for every draw.
    workers : int
        Processes on this machine.

    Raises
    ------
    InputError
        Every fault at once, before the first draw.
    NoAnswerError
        When no draw has an answer, or nothing drawn matters to what is collected.

    Notes
    -----
    Each ± is one standard deviation of a normal distribution, cut where the key may go no further (an area stays
    above 0), and all are independent; a key that follows from the
    item list is computed anew in each draw. Independent: two readings off one bent
    ruler are not, and then the true spread is wider. What matters is found first: a value whose step by its ±
    changes nothing anywhere in the answers of the studies asked is left as it is. The indices take as many further
    runs as half the draws for each input that matters.

    Examples
    --------
    >>> found = spread(collect=["speeds.powerplants.rotary.stall_m_s"], draws=16)
    >>> drawn = [one.column.key for one in found.inputs if one.matters]
    >>> "item.main gear.mass" in drawn, "airplane.mass" in drawn
    (True, False)
    """
    question = spread_question(scenario, settings, collect, draws=draws)
    return drawn(question, draws=draws, sampling=sampling, seed=seed, workers=Workers(workers))


def drawn(
    question: Question,
    *,
    draws: int,
    sampling: Sampling,
    seed: int,
    workers: Workers,
    journal: PointStore | None = None,
    progress: Progress = silent,
) -> Spread:
    """Return the spread of a question; `journal` and `progress` as for `sim.sweeps.runner.outcomes`."""
    kept = journal or NoStore()
    inputs, job = _inputs(question), replace(question.job, drawn=True)
    steps = [(), *((_put(one, one.nominal + one.tolerance),) for one in inputs)]
    names = outcomes(signature, job, steps, workers=workers, journal=kept, progress=progress)
    inputs = [
        SpreadInput(one.column, one.nominal, one.tolerance, matters=name != names[0])
        for one, name in zip(inputs, names[1:], strict=True)
    ]
    matter = [one for one in inputs if one.matters]
    if not matter:
        message = "no spread: none of the ± in the scenario changes anything in what is collected"
        raise NoAnswerError(message)
    first, second = halves(len(matter), draws // 2, sampling, seed)
    normal = np.concatenate((first, second, *(mixed(first, second, i) for i in range(len(matter)))))
    every = _values(matter, normal, [limits(question.scenario, one.column.key) for one in matter])
    points = [(), *(tuple(map(_put, matter, row)) for row in every.tolist())]
    found = outcomes(evaluate, job, points, workers=workers, journal=kept, progress=progress)
    return _spread(question, inputs, every[:draws], found, sampling=sampling, seed=seed)


def _inputs(question: Question) -> list[SpreadInput]:
    found = []
    for key, tolerance in drawn_tolerances(question.scenario).items():
        there = place(question.scenario, key, key)
        column = column_of(by_name(question.scenario, key), there)
        found.append(SpreadInput(column, float(there.value), tolerance, matters=True))
    return found


def _put(one: SpreadInput, value: float) -> str:
    """Return the setting of one draw; the ± stays, for studies that look at it."""
    return setting(one.column.key, value, one.column.unit, one.tolerance)


def _values(
    inputs: Sequence[SpreadInput], normal: NDArray[np.float64], limited: Sequence[tuple[float, float]]
) -> NDArray[np.float64]:
    nominal, tolerance = (np.array([getattr(one, name) for one in inputs]) for name in ("nominal", "tolerance"))
    least, most = ((limit - nominal) / tolerance for limit in np.array(limited).T)
    values: NDArray[np.float64] = nominal + tolerance * truncated(normal, least, most)
    return values


def _spread(
    question: Question,
    inputs: Sequence[SpreadInput],
    values: NDArray[np.float64],
    found: Sequence[Outcome],
    *,
    sampling: Sampling,
    seed: int,
) -> Spread:
    """Return the answer from the nominal outcome, those of the draws, and those of the mixed halves, in this order."""
    rows = tuple(
        SweepRow(tuple(row), one.values, one.reason) for row, one in zip(values.tolist(), found[1:], strict=False)
    )
    if all(value is None for row in rows for value in row.results):
        message = f"no draw has an answer; the first: {rows[0].reason}"
        raise NoAnswerError(message)
    keys = [one.column.key for one in inputs if one.matters]
    table = np.array([[np.nan if value is None else value for value in one.values] for one in found], dtype=float)
    results = tuple(
        _result(column, table[:, number], keys, draws=len(values), seed=seed)
        for number, column in enumerate(question.collected)
    )
    return Spread(question.scenario.title, sampling, seed, tuple(inputs), results, rows)


def _result(
    column: SweepColumn, found: NDArray[np.float64], keys: Sequence[str], *, draws: int, seed: int
) -> SpreadResult:
    drawn_only = found[1 : draws + 1]
    had = drawn_only[~np.isnan(drawn_only)]
    low, median, high = np.percentile(had, (5.0, 50.0, 95.0)).tolist() if len(had) else (None, None, None)
    whole = bool(keys) and not np.isnan(found[1:]).any()
    return SpreadResult(
        column=column,
        nominal=None if np.isnan(found[0]) else float(found[0]),
        median=median,
        low_5=low,
        high_95=high,
        shares=sobol_shares(found[1:], keys, draws // 2, seed=seed) if whole else (),
    )
