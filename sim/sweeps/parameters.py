"""A key of the scenario that a sweep varies: ``wing.span=26ft:30ft:9`` or ``flight.speed=70mph,80mph,90mph``."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Any, cast

from pydantic import TypeAdapter, ValidationError

from sim.errors import did_you_mean, refuse
from sim.model.model import Model
from sim.scenario.fields import Count, Given, Key, ScenarioTable, ShortText, entry_of, key_of
from sim.sweeps.outputs import Scalar, SweepColumn
from sim.units.parsing import Allowed, quoted, read
from sim.units.quantities import kinds

if TYPE_CHECKING:
    from pydantic.fields import FieldInfo

    from sim.scenario.tables import Scenario

MOST_STEPS = 100_000
_RANGE = re.compile(r"([^:]*):([^:]*):([^:]*)")


@dataclass(frozen=True, slots=True)
class Varied:
    """A key and what is put there, one after the other.

    Attributes
    ----------
    column : SweepColumn
        Key, quantity and SI unit.
    values : tuple
        In SI, or words.
    settings : tuple of str
        ``table.key=value`` for each, as `sim.load` takes them.
    """

    column: SweepColumn
    values: tuple[Scalar, ...]
    settings: tuple[str, ...]


def varied(scenario: Scenario, text: str) -> Varied:
    """Return what ``KEY=FROM:TO:COUNT`` or ``KEY=A,B,C`` asks for.

    Raises
    ------
    InputError
        When the scenario has no such key, or a value may not stand there.

    Examples
    --------
    >>> from sim.scenario.reading import load
    >>> varied(load("tollgate"), "wing.span=26ft:30ft:3").settings
    ('wing.span=7.9248 m', 'wing.span=8.5344 m', 'wing.span=9.144 m')
    """
    key, equals, said = (part.strip() for part in text.partition("="))
    where = f"vary {key}"
    if not equals or not key or not said:
        refuse("vary", f"must be KEY=FROM:TO:COUNT or KEY=A,B,C, got {quoted(text)}")
    found = place(scenario, key, where)
    declared = found.declared
    ranged = _RANGE.fullmatch(said)
    if ":" in said and not ranged and isinstance(declared, Given | Count):
        refuse(where, f"must be FROM:TO:COUNT, as in 26ft:30ft:9, or A,B,C, got {quoted(said)}")
    if ranged:
        values = _range(declared, [part.strip() for part in ranged.groups()], where)
    else:
        values = tuple(value_of(declared, part.strip(), where) for part in said.split(","))
    column = column_of(key, found)
    return Varied(column, values, tuple(setting(key, value, column.unit) for value in values))


@dataclass(frozen=True, slots=True)
class Place:
    """A single value of a scenario: the name of its quantity, what it holds, what it may hold."""

    attribute: str
    value: Any
    declared: Key | None


def column_of(key: str, found: Place) -> SweepColumn:
    """Return the column of a scenario's key."""
    attribute, declared = found.attribute, found.declared
    words = not isinstance(declared, Given | Count)
    unit = declared.unit if isinstance(declared, Given) and declared.unit != "1" else ""
    return SweepColumn(key, attribute, unit, declared.meaning if declared else key_of(attribute), words)


def drawn_tolerances(scenario: Scenario) -> dict[str, float]:
    """Return every ± of a scenario that is drawn, by its key, one standard deviation in SI.

    A key in whose place the item list serves is none of them: it follows from the items, drawn one by one, so that what
    hangs together (weight, centre of gravity, arms, inertia) stays together in every draw.
    """
    derived = Model(scenario).derived_keys
    return {key: tolerance for key, tolerance in scenario.tolerances.items() if key not in derived}


def limits(scenario: Scenario, key: str) -> tuple[float, float]:
    """Return the least and the most that a key may hold, infinite where nothing limits it [SI]."""
    declared = place(scenario, key, key).declared
    if not isinstance(declared, Given):
        return -math.inf, math.inf
    low = max(limit for limit in (declared.above, declared.least, -math.inf) if limit is not None)
    return low, min(limit for limit in (declared.below, declared.most, math.inf) if limit is not None)


def setting(key: str, value: Scalar, unit: str = "", tolerance: float | None = None) -> str:
    """Return ``table.key=value`` with the value, and its tolerance if any, in SI to the last digit."""
    unit = f" {unit}" if unit else ""
    spread = f" ± {tolerance!r}{unit}" if tolerance is not None else ""
    return f"{key}={value if isinstance(value, str) else repr(value)}{unit}{spread}"


def place(scenario: Scenario, key: str, where: str) -> Place:
    """Return what stands at a dotted key.

    Raises
    ------
    InputError
        When there is no such key, or a table stands there.
    """
    steps = [step.strip() for step in key.split(".")]
    found: Any = scenario
    way: list[Any] = []
    for number, step in enumerate(steps):
        way.append(found)
        entries = _entries(found)
        if step not in entries:
            passed = ".".join(steps[:number])
            at = f" in {passed}" if passed else ""
            known = [name for name in entries if not name.isdigit()]
            refuse(where, f"must be a key of the scenario: there is no {quoted(step)}{at}{did_you_mean(step, known)}")
        found = entries[step]
        if found is None and number < len(steps) - 1:
            refuse(where, f"must be a key of the scenario: it has no table {'.'.join(steps[: number + 1])}")
    there = None if isinstance(found, ScenarioTable | dict | list | tuple) else _place(way, steps, found)
    if there is None:
        refuse(where, f"must lead to a single value, got {quoted(key)}, which holds {', '.join(_entries(found))}")
    return there


def _place(way: list[Any], steps: list[str], value: object) -> Place | None:
    """Return a value with its declaration: that of its table, or that of the entries of a table of quantities."""
    if isinstance(way[-1], ScenarioTable):
        name, field = _field(way[-1], steps[-1])
        marks = (mark for mark in field.metadata if isinstance(mark, Given | Count | ShortText))
        return Place(name, value, next(marks, None))
    if isinstance(way[-1], dict) and isinstance(way[-2], ScenarioTable):
        name, field = _field(way[-2], steps[-2])
        entry = entry_of(field)
        return Place(f"{name}_{kinds()[entry.unit].suffix}", value, entry) if entry else None
    return None


def _field(table: ScenarioTable, key: str) -> tuple[str, FieldInfo]:
    return next(item for item in type(table).model_fields.items() if key_of(item[0]) == key)


def by_name(scenario: Scenario, key: str) -> str:
    """Return a key with items of a list by their name instead of their number, where they have one without a dot."""
    steps, found = list[str](), cast("Any", scenario)
    for step in key.split("."):
        entries = _entries(found)
        found = entries[step]
        names = [name for name, entry in entries.items() if entry is found and name != step]
        steps.append(names[0] if step.isdigit() and names and "." not in names[0] else step)
    return ".".join(steps)


def _entries(found: Any) -> dict[str, Any]:  # noqa: ANN401
    if isinstance(found, ScenarioTable):
        return {key_of(name): getattr(found, name) for name in type(found).model_fields}
    if isinstance(found, dict):
        return dict(found)
    if not isinstance(found, list | tuple):
        return {}
    named = {item.name: item for item in found if isinstance(getattr(item, "name", None), str)}
    return {str(number): item for number, item in enumerate(found, start=1)} | named


def value_of(declared: Key | None, text: str, where: str) -> Scalar:
    """Return one value, in SI where it is a quantity, read as the scenario's own reader does.

    Raises
    ------
    InputError
        When it may not stand there.
    """
    if isinstance(declared, Given):
        return read(text, declared.allowed, key=where).value
    if declared is None:
        return text
    kind: Any = Annotated[int if isinstance(declared, Count) else str, declared]
    try:
        value: Scalar = TypeAdapter(kind).validate_python(text)
    except ValidationError as error:
        refuse(where, error.errors()[0]["ctx"]["faults"][0][1])
    return value


def _range(declared: Key | None, parts: list[str], where: str) -> tuple[Scalar, ...]:
    if not isinstance(declared, Given | Count):
        refuse(where, f"must be a list of words, as in A,B,C, got {quoted(':'.join(parts))}")
    first, last = (value_of(declared, part, where) for part in parts[:2])
    steps = read(parts[2], Allowed("1", least=2.0, most=MOST_STEPS), key=f"{where}: COUNT").value
    if steps % 1.0:
        refuse(f"{where}: COUNT", f"must be a whole number, got {quoted(parts[2])}")
    start, end = (Fraction(repr(value)) for value in (first, last))
    exact = [start + (end - start) * number / (int(steps) - 1) for number in range(int(steps))]
    if isinstance(declared, Given):
        return tuple(map(float, exact))
    if any(value.denominator != 1 for value in exact):
        refuse(where, f"must come out in whole numbers, got {quoted(':'.join(parts))}")
    return tuple(map(int, exact))
