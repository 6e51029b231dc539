"""Many settings of one scenario, each computed by itself: on this machine or on a cluster, and never twice.

A point that has no answer is an answer too: its reason. What is found for a point depends on the scenario's text, with
that of the files it names, and the point's settings alone, so neither the order nor the number of workers can change
it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any, Protocol, TypeAlias

from sim import __version__
from sim.errors import InputError, WhirlgateError
from sim.model.model import Model
from sim.scenario.reading import read_text
from sim.sweeps.outputs import Scalar, pairs, value_at
from sim.sweeps.registry import STUDIES
from sim.sweeps.workers import found_by

if TYPE_CHECKING:
    from sim.sweeps.workers import Workers

MOST_POINTS = 1_000_000


@dataclass(frozen=True, slots=True)
class Job:
    """What is asked at every point: a scenario's text, settings that all points share, and what is collected.

    Name and text of the files that the scenario names come along, so that a worker need not find them. What is set at
    each point was asked for, or is `drawn` from the ± of the scenario and goes before no item list.
    """

    text: str
    called: str
    settings: tuple[str, ...]
    collect: tuple[str, ...]
    files: tuple[tuple[str, str], ...] = ()
    drawn: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """What was found at one point, None where there is no value, and the reason then; else an empty reason."""

    values: tuple[Scalar, ...]
    reason: str = ""


class PointStore(Protocol):
    """Where outcomes are kept as they come, so that an interrupted sweep goes on from there."""

    def known(self, key: str) -> Outcome | None:
        """Return what was kept under a key."""

    def keep(self, key: str, outcome: Outcome) -> None:
        """Keep an outcome."""


class NoStore:
    """Keeps nothing."""

    def known(self, key: str) -> Outcome | None:
        """Return nothing."""

    def keep(self, key: str, outcome: Outcome) -> None:
        """Forget it."""


Ask: TypeAlias = Callable[[Job, Sequence[str]], Outcome]
Progress: TypeAlias = Callable[[Iterable[Any], int, str], Iterable[Any]]


def silent(outcomes: Iterable[Any], count: int, label: str) -> Iterable[Any]:  # noqa: ARG001
    """Show no progress."""
    return outcomes


def evaluate(job: Job, settings: Sequence[str]) -> Outcome:
    """Return the values collected at one point; a study without an answer leaves its own empty."""
    try:
        point = _model(job, settings)
    except InputError as error:
        return Outcome((None,) * len(job.collect), _one_line(error))
    answers, values, reasons = dict[str, Any](), list[Scalar](), list[str]()
    for key, (study, path) in zip(job.collect, pairs(job.collect), strict=True):
        if study not in answers:
            answers[study], reason = _computed_by(study, point)
            reasons += [reason] if reason else []
        value: Scalar = None
        if answers[study] is not None:
            try:
                value = value_at(answers[study], path, key)
            except InputError as error:
                reasons.append(_one_line(error))
        values.append(value)
    return Outcome(tuple(values), "; ".join(reasons))


def signature(job: Job, settings: Sequence[str]) -> Outcome:
    """Return a short name of everything that the studies answer, so that a change anywhere in it shows."""
    try:
        point = _model(job, settings)
    except InputError as error:
        return Outcome((_one_line(error),))
    studies = dict.fromkeys(study for study, _ in pairs(job.collect))
    return Outcome((_digest(*(repr(_computed_by(study, point)) for study in studies)),))


def _model(job: Job, settings: Sequence[str]) -> Model:
    """Return the model of one point; every study asked there shares it."""
    asked, drawn = ((), settings) if job.drawn else (settings, ())
    settings = (*job.settings, *asked)
    return Model(
        read_text(job.text, called=job.called, settings=settings, drawn=drawn, files=job.files), remarked=False
    )


def _computed_by(study: str, point: Model) -> tuple[object, str]:
    try:
        return STUDIES[study](point), ""
    except WhirlgateError as error:
        return None, f"{study}: {_one_line(error)}"
    except Exception as error:  # noqa: BLE001 - a mistake of ours at one point must not lose the others
        return None, f"{study}: cannot be computed here ({type(error).__name__}: {_one_line(error)})"


def _one_line(error: Exception) -> str:
    return "; ".join(str(error).splitlines())


def _digest(*parts: str) -> str:
    return hashlib.sha256(json.dumps(parts).encode()).hexdigest()[:32]


def outcomes(
    ask: Ask,
    job: Job,
    points: Sequence[tuple[str, ...]],
    *,
    workers: Workers,
    journal: PointStore,
    progress: Progress,
) -> list[Outcome]:
    """Return the outcome of every point, in their order.

    Parameters
    ----------
    ask : callable
        `evaluate` or `signature`.
    job : Job
        What all points share.
    points : sequence of tuple of str
        Settings of each.
    workers : Workers
        Who does the work.
    journal : PointStore
        Question first, and given each outcome as it comes.
    progress : callable
        Wraps what comes in: (outcomes, how many, label).

    Raises
    ------
    InputError
        When the cluster cannot be reached.
    NoAnswerError
        When it has no workers.
    MachineError
        When the cluster, or a process here, is lost on the way.
    """
    files = (part for file in job.files for part in file)
    how = f"{ask.__name__}{' drawn' * job.drawn}"
    question = _digest(__version__, how, job.text, job.called, *files, "", *job.settings, "", *job.collect)
    keys = [_digest(question, *settings) for settings in points]
    found = {number: outcome for number, key in enumerate(keys) if (outcome := journal.known(key)) is not None}
    left = [(number, settings) for number, settings in enumerate(points) if number not in found]
    label = f"{len(found)} of {len(points)} already there, " if found else ""
    if left:
        for number, outcome in progress(found_by(workers, partial(_numbered, ask, job), left), len(left), label):
            found[number] = outcome
            journal.keep(keys[number], outcome)
    return [found[number] for number in range(len(points))]


def _numbered(ask: Ask, job: Job, point: tuple[int, tuple[str, ...]]) -> tuple[int, Outcome]:
    number, settings = point
    return number, ask(job, settings)
