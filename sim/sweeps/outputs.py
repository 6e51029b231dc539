"""What a sweep collects: single values out of the studies' answers, by dotted path."""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from sim.answer import fields_of
from sim.errors import Fault, InputError, NoAnswerError, did_you_mean, refuse
from sim.sweeps.registry import STUDIES, split
from sim.units.parsing import quoted
from sim.units.quantities import known

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.model.model import Model

Scalar: TypeAlias = float | int | str | bool | None
MOST_NAMED = 20
"""Of the names that stand at a place, in an error."""


@dataclass(frozen=True, slots=True)
class SweepColumn:
    """One column of a table of results.

    Attributes
    ----------
    key : str
        Dotted key of the scenario, or path into an answer: ``handling.powerplants.rotary.steepest_left_deg``.
    name : str
        The quantity, as the vocabulary or the scenario's tables call it: ``steepest_left_deg``.
    unit : str
        SI unit as printed, degrees for angles of results; empty for counts, ratios and words.
    meaning : str
        A phrase for a label.
    words : bool
        Whether it holds words instead of numbers.
    """

    key: str
    name: str
    unit: str
    meaning: str
    words: bool = False

    @property
    def head(self) -> str:
        """The head of the column in a file: ``wing.span [m]``, ``[1]`` for a plain number."""
        return self.key if self.words else f"{self.key} [{self.unit or '1'}]"


def value_at(answer: object, path: str, where: str) -> Scalar:
    """Return the single value that a dotted path leads to.

    Parameters
    ----------
    answer : object
        A study's frozen answer.
    path : str
        Names of fields and of entries; an item of a list by its number from 1 or by its name.
    where : str
        What to call the path in an error.

    Raises
    ------
    InputError
        When there is no such place, or a table or list stands there.
    """
    found, passed = answer, list[str]()
    for step in path.split(".") if path else ():
        found = _step(found, step, where, ".".join(passed))
        passed.append(step)
    found = found.item() if hasattr(found, "item") and not isinstance(found, list | tuple | dict) else found
    if isinstance(found, float) and not math.isfinite(found):
        return None
    if found is not None and not isinstance(found, float | int | str | bool):
        refuse(where, f"must lead to a single value, got {_within(passed)}, which holds {_some(_names(found))}")
    return found


def _within(passed: list[str]) -> str:
    return quoted(".".join(passed)) if passed else "a whole answer"


def _step(found: Any, step: str, where: str, passed: str) -> Any:  # noqa: ANN401
    entries, names = _entries(found), _names(found)
    if not names:
        refuse(where, f"must end at {quoted(passed)}, which holds nothing further, got {quoted(step)} after it")
    if step not in entries:
        place = quoted(passed) if passed else "the answer"
        near = did_you_mean(step, names)
        refuse(where, f"must name something in {place}, which holds {_some(names)}, got {quoted(step)}{near}")
    return entries[step]


def _entries(found: Any) -> dict[str, Any]:  # noqa: ANN401
    if isinstance(found, dict):
        return {str(key): item for key, item in found.items()}
    if dataclasses.is_dataclass(found):
        return fields_of(found)
    items = found.tolist() if hasattr(found, "tolist") else found
    if not isinstance(items, list | tuple):
        return {}
    named = {item.name: item for item in reversed(items) if isinstance(getattr(item, "name", None), str)}
    return {str(number): item for number, item in enumerate(items, start=1)} | named


def _names(found: Any) -> list[str]:  # noqa: ANN401
    """Return what may follow, items of a list by name where each has its own."""
    names = list(_entries(found))
    if isinstance(found, list | tuple):
        words = [name for name in names if not name.isdigit()]
        return words or names
    return names


def _some(names: list[str]) -> str:
    shown = ", ".join(names[:MOST_NAMED])
    return f"{shown} and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else shown or "nothing"


def collected(model: Model, keys: Iterable[str], faults: list[Fault]) -> tuple[SweepColumn, ...]:
    """Return a column for each key, tried on the model as it stands; add what is wrong to `faults`.

    A study without an answer about the model as it stands may have one further on: its keys are not tried.
    """
    answers = dict[str, Any]()
    columns, seen = list[SweepColumn](), set[str]()
    for key in keys:
        where = f"collect {key}"
        try:
            if key in seen:
                refuse(where, "is given twice")
            seen.add(key)
            columns.append(_column(key, _tried(model, key, answers)))
        except InputError as error:
            faults += [fault for fault in error.faults if fault not in faults]
    if not seen:
        shown = "handling.powerplants.rotary.steepest_left_deg"
        faults.append(Fault("collect", f"is missing: at least one value of a study, as in {shown}"))
    return tuple(columns)


def _tried(model: Model, key: str, answers: dict[str, Any]) -> Scalar:
    where = f"collect {key}"
    study, path = split(key, where)
    if study not in answers:
        answers[study] = answer_or_none(model, study)
    return value_at(answers[study], path, where) if answers[study] is not None else None


def answer_or_none(model: Model, study: str) -> object:
    """Return a study's answer, None where the question has none."""
    try:
        return STUDIES[study](model)
    except NoAnswerError:
        return None


def _column(key: str, value: Scalar) -> SweepColumn:
    named = [step for step in key.split(".") if not step.isdigit()]
    found = known(named[-1])
    words = isinstance(value, str | bool)
    if found is None or words:
        return SweepColumn(key, named[-1], "", named[-1].replace("_", " "), words)
    return SweepColumn(key, named[-1], found.unit, found.meaning)


def pairs(keys: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Yield study and path of each key that was found right."""
    yield from (split(key, key) for key in keys)
