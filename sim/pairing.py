"""Rows of two lists paired by what names them: powerplant, name, side, bank angle."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any, TypeAlias

Place: TypeAlias = tuple[tuple[str, Any], ...]
"""What a value belongs to: each name with the field that says it, empty for a key or a number."""

SINGLE = ("bolt", "tube")
"""Fields of which one alone names a row: what else the row says of case and powerplant is its answer."""
NAMING = (
    "powerplant",
    "name",
    "side",
    "bank_deg",
    "input",
    "item",
    "place",
    "window",
    "dimension",
    "view",
    "axis",
    "suited_diameter_m",
)
"""Fields that name a row together."""
PATTERN = ("rounds_per_pattern", "intervals_per_pattern")
"""Fields that name a plateau, where the row is at no speed."""
ABSCISSAS = ("rpm", "engine_move_m")
"""Speed or position at which a row stands."""


@dataclass(frozen=True, slots=True)
class Pair:
    """An item of two lists.

    Attributes
    ----------
    step : str
        Its step of a path: its name where no other has it, else its number from 1.
    first, second : int or None
        Index in each list; None where it is not there.
    place : tuple of (str, value)
        What the item is: the fields that name it, and among several of one name, or without one, the speed or the
        position at which all of it stands, else its number.
    """

    step: str
    first: int | None
    second: int | None
    place: Place


def identity(row: Any) -> Place:  # noqa: ANN401
    """Return the fields that name a row, each with its value; none where nothing does."""
    if not isinstance(row, dict):
        return ()
    single = tuple((name, row[name]) for name in SINGLE if isinstance(row.get(name), str))
    named = [(name, row[name]) for name in NAMING if row.get(name) not in (None, "")]
    several = tuple((name, value) for at, (name, value) in enumerate(named) if value not in [v for _, v in named[:at]])
    pattern = tuple((name, row[name]) for name in PATTERN if row.get(name) is not None and "rpm" not in row)
    return single[:1] or several or pattern


def identified(rows: list[Any]) -> bool:
    """Return whether every row of a list has a name."""
    return all(identity(row) for row in rows)


def grouped(value: Any) -> bool:  # noqa: ANN401
    """Return whether a value is a table of tables by name, or a list of rows with names."""
    if isinstance(value, dict):
        return bool(value) and all(isinstance(item, dict) for item in value.values())
    return isinstance(value, list) and bool(value) and identified(value)


def paired(first: list[Any], second: list[Any]) -> list[Pair] | None:
    """Return the items of two lists in pairs, those of the first in order, then what the second alone has.

    Rows of one name are paired in their order. Items without names are paired by place; None where there are not as
    many in both.
    """
    if not (identified(first) and identified(second)):
        if len(first) != len(second):
            return None
        numbers = range(len(first))
        return [Pair(str(at + 1), at, at, (_abscissa(first[at], second[at], at + 1),)) for at in numbers]
    ours, others = _numbered(first), _numbered(second)
    names = _steps(first), _steps(second)
    repeated = {own for found in (ours, others) for own, before in found if before}
    pairs: list[tuple[str, int | None, int | None, Place, int]] = []
    pairs += [(names[0][at], at, others.get((own, before)), own, before) for (own, before), at in ours.items()]
    pairs += [
        (names[1][at], None, at, own, before) for (own, before), at in others.items() if (own, before) not in ours
    ]
    return [
        Pair(step, one, two, (*own, _abscissa(_at(first, one), _at(second, two), before + 1)))
        if own in repeated
        else Pair(step, one, two, own)
        for step, one, two, own, before in pairs
    ]


def by_place(first: list[Any], second: list[Any]) -> list[Pair]:
    """Return the items of two lists in pairs by their number, then what the longer one alone has."""
    numbers = range(max(len(first), len(second)))
    return [
        Pair(str(at + 1), at if at < len(first) else None, at if at < len(second) else None, (("", at + 1),))
        for at in numbers
    ]


def _at(rows: list[Any], index: int | None) -> Any:  # noqa: ANN401
    return None if index is None else rows[index]


def _abscissa(first: Any, second: Any, number: int) -> tuple[str, Any]:  # noqa: ANN401
    """Return the speed or position at which rows of both lists stand, or that of one list, else their number."""
    rows = [row for row in (first, second) if isinstance(row, dict)]
    for name in ABSCISSAS:
        values = {row.get(name) for row in rows}
        if len(values) == 1 and None not in values:
            return name, values.pop()
    return "", number


def _numbered(rows: list[Any]) -> dict[tuple[Place, int], int]:
    """Return the index of each row by its name and how many of that name stand before it."""
    seen = Counter[Place]()
    found = {}
    for index, row in enumerate(rows):
        own = identity(row)
        found[own, seen[own]] = index
        seen[own] += 1
    return found


def _steps(rows: list[Any]) -> list[str]:
    """Return how a path names each row."""
    names = [row.get("name") if isinstance(row, dict) else None for row in rows]
    times = Counter(name for name in names if isinstance(name, str))
    plain = [name if isinstance(name, str) and times[name] == 1 and "." not in name else "" for name in names]
    return [name or str(number) for number, name in enumerate(plain, 1)]
