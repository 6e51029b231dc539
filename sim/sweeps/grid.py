"""Vary any keys of a scenario, collect any values of the studies: a row for every combination."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.model.model import Model
from sim.scenario.reading import DEMO, load, read_text
from sim.scenario.tables import Scenario
from sim.sweeps.outputs import Scalar, SweepColumn, collected
from sim.sweeps.parameters import Varied, varied
from sim.sweeps.runner import MOST_POINTS, Job, NoStore, PointStore, Progress, evaluate, outcomes, silent
from sim.sweeps.workers import Workers

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class SweepRow:
    """One combination: what was put into the scenario, what came out, and why where nothing came out."""

    settings: tuple[Scalar, ...]
    results: tuple[Scalar, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class Sweep(Answer):
    """The answer of `whirlgate sweep`.

    Attributes
    ----------
    title : str
        Of the scenario.
    varied, collected : tuple of SweepColumn
        What the values of each row are; SI, angles of results in degrees.
    rows : tuple of SweepRow
        The last key varied changes fastest.
    """

    title: str
    varied: tuple[SweepColumn, ...]
    collected: tuple[SweepColumn, ...]
    rows: tuple[SweepRow, ...]

    def records(self) -> list[dict[str, Scalar]]:
        """Return a row for each combination, under the keys varied and collected."""
        keys = [column.key for column in (*self.varied, *self.collected)]
        return [
            {**dict(zip(keys, (*row.settings, *row.results), strict=True)), "reason": row.reason} for row in self.rows
        ]


@dataclass(frozen=True, slots=True)
class Question:
    """A question to a scenario that was found right: nothing is left to go wrong but single points."""

    scenario: Scenario
    job: Job
    varied: tuple[Varied, ...]
    collected: tuple[SweepColumn, ...]


def question_of(
    scenario: Scenario | str,
    settings: Iterable[str],
    vary: Iterable[str],
    collect: Iterable[str],
    *,
    needed: bool = True,
) -> Question:
    """Return the question, every part of it checked.

    Raises
    ------
    InputError
        Every fault of scenario, keys, values and paths at once.
    """
    settings = tuple(settings)
    given = scenario if isinstance(scenario, Scenario) else load(scenario)
    source = replace(given.source, settings=(*given.source.settings, *settings))
    if settings:
        scenario = read_text(source.text, called=source.called, settings=source.settings, files=source.files)
    else:
        scenario = given
    faults, keys = list[Fault](), list[Varied]()
    for text in vary:
        try:
            keys.append(varied(scenario, text))
        except InputError as error:
            faults += error.faults
    names = [one.column.key for one in keys]
    faults += [Fault(f"vary {name}", "is given twice") for name in dict.fromkeys(names) if names.count(name) > 1]
    if needed and not names and not faults:
        faults.append(Fault("vary", "is missing: at least one key of the scenario, as in wing.span=26ft:30ft:9"))
    points = math.prod(len(one.values) for one in keys)
    if points > MOST_POINTS:
        faults.append(Fault("vary", f'must come to at most {MOST_POINTS} combinations, got "{points}"'))
    columns = collected(Model(scenario), collect, faults)
    if faults:
        raise InputError(faults)
    job = Job(source.text, source.called, source.settings, tuple(column.key for column in columns), source.files)
    return Question(scenario, job, tuple(keys), columns)


def sweep(
    scenario: Scenario | str = DEMO,
    *,
    vary: Iterable[str],
    collect: Iterable[str],
    settings: Iterable[str] = (),
    workers: int = 1,
    cluster: str | None = None,
) -> Sweep:
    """Vary keys of a scenario and collect values of any study.

    Parameters
    ----------
    scenario : Scenario or str
        A loaded scenario, a file or a bundled name.
    vary : iterable of str
        ``KEY=FROM:TO:COUNT`` or ``KEY=A,B,C``; of several every combination is asked.
    collect : iterable of str
        Dotted paths that begin with a study; an item of a list goes by its number from 1 or by its name.
    settings : iterable of str
        ``table.key=value`` each, for every point.
    workers : int
        Processes on this machine.
    cluster : str or None
        Address of a Dask scheduler instead.

    Raises
    ------
    InputError
        Every fault at once, before the first point.

    Notes
    -----
    Each row is what a single run with the same settings gives, to the last digit, whoever computed it.

    Examples
    --------
    >>> found = sweep(vary=["flight.speed=70mph,90mph"], collect=["handling.powerplants.rotary.steepest_left_deg"])
    >>> len(found.rows), found.collected[0].unit
    (2, '°')
    """
    return swept(question_of(scenario, settings, vary, collect), workers=Workers(workers, cluster))


def swept(
    question: Question,
    *,
    workers: Workers,
    journal: PointStore | None = None,
    progress: Progress = silent,
) -> Sweep:
    """Return the table of a question; `journal` and `progress` as for `sim.sweeps.runner.outcomes`."""
    points = list(product(*(one.settings for one in question.varied)))
    found = outcomes(evaluate, question.job, points, workers=workers, journal=journal or NoStore(), progress=progress)
    values = product(*(one.values for one in question.varied))
    return Sweep(
        title=question.scenario.title,
        varied=tuple(one.column for one in question.varied),
        collected=question.collected,
        rows=tuple(SweepRow(row, one.values, one.reason) for row, one in zip(values, found, strict=True)),
    )
