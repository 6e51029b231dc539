"""What differs between two answers of one kind: the same question asked of two airplanes."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import isclose
from typing import TYPE_CHECKING, Any, ClassVar, TypeAlias

from sim.answer import ASIDE, Answer, plain
from sim.curve_difference import RELATIVE, CurveDifference, axis_of, axis_of_rows, column, curve_difference, numeric
from sim.engine_pairing import engine_pairs, renamed
from sim.errors import refuse
from sim.pairing import Place, by_place, grouped, identified, paired
from sim.units.quantities import known

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.curve_difference import Axis

Scalar: TypeAlias = float | int | str | bool | None
COMPONENTS, ROWS = 3, 12
"""Most numbers of a list, and most rows without names, that are no curve."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One value that differs.

    Attributes
    ----------
    path : str
        Names of fields and rows with dots between, an item of a list by its name or its number from 1 (in the first
        answer, where it stands there).
    name : str
        The quantity that it is.
    first, second : float, int, str, bool or None
        Values, in the unit of the name.
    difference : float or None
        Second less first, in the unit of the name; None where either is no number.
    place : tuple of (str, value)
        What the value belongs to: names of tables and rows, each with the field that says it, empty for a key.
    curve : bool
        Whether it is one point of many: a time history, a curve, a row without a name in a long table.
    """

    path: str
    name: str
    first: Scalar
    second: Scalar
    difference: float | None
    place: Place = field(default=(), metadata=ASIDE)
    curve: bool = field(default=False, metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class Alone:
    """What stands in one answer only.

    Attributes
    ----------
    path : str
        As for `Difference`.
    in_first : bool
        Whether the first answer has it.
    place : tuple of (str, value)
        As for `Difference`, with what it is itself.
    """

    path: str
    in_first: bool
    place: Place


Found: TypeAlias = Difference | CurveDifference | Alone
"""What a walk through two answers comes across."""


@dataclass(frozen=True, slots=True)
class Differences(Answer):
    """Two answers of one kind, and what differs.

    Attributes
    ----------
    answer, against : Answer
        About the first airplane and about the other.
    differences : tuple of Difference
        Every value that differs, in the order of the answer.
    curves : tuple of CurveDifference
        Where each curve differs most; its points stand in `differences` too where both have as many.
    engines : dict of str to str
        Engine of the other airplane by its name there -> the engine of the first that it is compared with under another
        name, see `sim.engine_pairing`.
    only_in_answer, only_in_against : tuple of str
        Paths of what one of them alone has: powerplants, rows, tables, items of the longer of two lists of a
        quantity, other lists of unequal length that are no curves.
    alone : tuple of Alone
        The same, with what each belongs to.
    """

    main: ClassVar[str] = "differences"

    answer: Answer
    against: Answer
    differences: tuple[Difference, ...]
    curves: tuple[CurveDifference, ...]
    engines: dict[str, str]
    only_in_answer: tuple[str, ...]
    only_in_against: tuple[str, ...]
    alone: tuple[Alone, ...] = field(default=(), metadata=ASIDE)


def differences(first: Answer, second: Answer) -> Differences:
    """Return two answers of one kind and every value in which they differ.

    Parameters
    ----------
    first, second : Answer
        Of the same function of `sim`, about two scenarios.

    Returns
    -------
    Differences
        Second less first, in SI.

    Raises
    ------
    InputError
        When the answers are not of one kind.

    Notes
    -----
    Powerplants and rows with names are paired by name, a single powerplant left over on either side too, other rows in
    their order where there are as many. Numbers that agree to 1e-9 of the larger one are equal.

    Examples
    --------
    >>> import sim
    >>> longer = sim.load("tollgate", set=["wing.span=30 ft"])
    >>> found = differences(sim.speeds("tollgate"), sim.speeds(longer))
    >>> next(one.difference < 0.0 for one in found.differences if one.name == "stall_m_s")
    True
    """
    if type(first) is not type(second):
        kinds = (type(first).__name__, type(second).__name__)
        refuse("second", f"must be an answer of the same kind as the first, {kinds[0]}, got {kinds[1]}")
    own, other = plain(first), plain(second)
    engines = engine_pairs(own, other)
    found = list(_between(own, renamed(other, engines), _Stand()))
    alone = tuple(one for one in found if isinstance(one, Alone))
    return Differences(
        answer=first,
        against=second,
        differences=tuple(one for one in found if isinstance(one, Difference)),
        curves=tuple(one for one in found if isinstance(one, CurveDifference)),
        engines=engines,
        only_in_answer=tuple(one.path for one in alone if one.in_first),
        only_in_against=tuple(one.path for one in alone if not one.in_first),
        alone=alone,
    )


@dataclass(frozen=True, slots=True)
class _Stand:
    """Where the walk stands: its path, what that belongs to, the last key and the one above it, the row, the axes."""

    path: tuple[str, ...] = ()
    place: Place = ()
    key: str = ""
    above: str = ""
    quantity: str = ""
    curve: bool = False
    axes: tuple[Axis, ...] = ()


def _between(first: Any, second: Any, at: _Stand) -> Iterator[Found]:  # noqa: ANN401
    """Yield what differs between two plain values."""
    if isinstance(first, dict) and isinstance(second, dict):
        at = replace(at, axes=(*axis_of(first, second), *at.axes))
        for key in dict.fromkeys([*first, *second]):
            stand = _below(at, key, first.get(key, second.get(key)), first)
            yield from _either(_entry(first, key), _entry(second, key), stand)
    elif isinstance(first, list) and isinstance(second, list):
        yield from _lists(first, second, at)
    elif isinstance(first, dict | list) or isinstance(second, dict | list):
        yield from _alone(first, at, in_first=True)
        yield from _alone(second, at, in_first=False)
    elif not _equal(first, second):
        yield _difference(first, second, at)


def _lists(first: list[Any], second: list[Any], at: _Stand) -> Iterator[Found]:
    pairs = paired(first, second)
    curves = list(_curves(first, second, at)) if pairs is None or len(pairs) > COMPONENTS else []
    yield from curves
    if pairs is None and curves:
        return
    if pairs is None and first and second and _unit(at.key) and all(map(_number, (*first, *second))):
        pairs = by_place(first, second)
    if pairs is None:
        yield from _alone(first, at, in_first=True)
        yield from _alone(second, at, in_first=False)
        return
    short = ROWS if _has_rows(first) else COMPONENTS
    curve = at.curve or _nested(first) or (len(pairs) > short and not identified(first))
    for one in pairs:
        row = first[one.first] if one.first is not None else second[one.second or 0]
        stand = replace(at, path=(*at.path, one.step), place=(*at.place, *one.place), curve=curve)
        if isinstance(row, dict):
            stand = replace(stand, key="", above="", quantity=str(row.get("quantity") or ""))
        yield from _either(_entry(first, one.first), _entry(second, one.second), stand)


def _curves(first: list[Any], second: list[Any], at: _Stand) -> Iterator[CurveDifference]:
    """Yield the largest difference of two lists of numbers, or of each column of two long lists of rows on an axis."""
    if numeric(first) and numeric(second):
        axis = next((one for one in at.axes if (len(one[1]), len(one[2])) == (len(first), len(second))), None)
        if (axis and axis[0] != at.key) or (axis is None and len(first) == len(second)):
            yield from curve_difference(first, second, axis, path=".".join(at.path), name=_name(at), place=at.place)
    elif (axis := axis_of_rows(first, second)) and not identified(first) and max(len(first), len(second)) > ROWS:
        place = tuple(part for part in at.place if part != ("", at.key))
        for name in dict.fromkeys(key for row in first for key in row if key != axis[0]):
            path = ".".join((*at.path, name))
            columns = column(first, name), column(second, name)
            yield from curve_difference(*columns, axis, path=path, name=name, place=place)


def _either(own: list[Any], other: list[Any], at: _Stand) -> Iterator[Found]:
    """Yield what differs between an entry of each, or the entry that one of them alone has."""
    if own and other:
        yield from _between(own[0], other[0], at)
    else:
        yield Alone(".".join(at.path), bool(own), _itself(at))


def _entry(holder: Any, key: Any) -> list[Any]:  # noqa: ANN401
    """Return an entry of a table or a list in a list of its own, an empty one where there is none."""
    there = key in holder if isinstance(holder, dict) else key is not None
    return [holder[key]] if there else []


def _below(at: _Stand, key: str, value: Any, holder: dict[str, Any]) -> _Stand:  # noqa: ANN401
    """Return where an entry of a table stands; a table of tables, or of named rows, is no place of its own."""
    own = isinstance(value, dict | list) and not grouped(value) and not _unit(key)
    entry = not isinstance(value, dict | list) and _unit(at.key) and not _unit(key)
    place = (*at.place, ("", key)) if own or entry or (grouped(holder) and at.path) else at.place
    return replace(at, path=(*at.path, key), place=place, key=key, above=at.key)


def _difference(first: Scalar, second: Scalar, at: _Stand) -> Difference:
    numbers = _number(first) and _number(second)
    change = second - first if numbers else None  # type: ignore[operator]
    return Difference(".".join(at.path), _name(at), first, second, change, at.place, at.curve)


def _name(at: _Stand) -> str:
    """Return the quantity of a value: its key, or the key above of which it is one component or one powerplant's."""
    if at.key in ("value", "limit") and at.quantity:
        return at.quantity
    if (at.key == "value" and known(at.above)) or (_unit(at.above) and not _unit(at.key)):
        return at.above
    if at.above in ("errors", "per_lift_errors") and not known(at.key):  # by its source
        return at.above
    return at.key


def _unit(key: str) -> str:
    found = known(key)
    return found.unit if found else ""


def _equal(first: Scalar, second: Scalar) -> bool:
    if _number(first) and _number(second):
        return isclose(first, second, rel_tol=RELATIVE)  # type: ignore[arg-type]
    texts = isinstance(first, str) and isinstance(second, str)  # of a sentence the one may still have its template
    return first == second and (texts or type(first) is type(second))


def _number(value: Scalar) -> bool:
    return isinstance(value, float | int) and not isinstance(value, bool)


def _alone(value: Any, at: _Stand, *, in_first: bool) -> Iterator[Alone]:  # noqa: ANN401
    if value not in (None, [], {}):
        yield Alone(".".join(at.path), in_first, _itself(at))


def _itself(at: _Stand) -> Place:
    """Return a place with the last key of its path in it."""
    last = at.path[-1] if at.path else ""
    return at.place if not at.key or ("", at.key) in at.place or last.isdigit() else (*at.place, ("", at.key))


def _has_rows(items: list[Any]) -> bool:
    return any(isinstance(item, dict) for item in items)


def _nested(items: list[Any]) -> bool:
    return any(isinstance(item, list) for item in items)
