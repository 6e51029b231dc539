"""Where two curves differ most: lists of numbers over one axis, in two answers of one kind."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field
from itertools import pairwise
from math import isclose
from typing import TYPE_CHECKING, Any, TypeAlias, TypeGuard

from sim.answer import ASIDE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.pairing import Place

RELATIVE = 1e-9
"""Numbers closer than this share of the larger one are equal."""
AXES = (
    "time_s",
    "speed_m_s",
    "advance_ratio",
    "rpm",
    "engine_move_m",
    "buttlines_m",
    "curve_distances_m",
    "wind_speeds_m_s",
)
"""Fields that other lists, or other fields of the rows, run over; the first that is there serves."""

Numbers: TypeAlias = "Sequence[float | None]"
Axis: TypeAlias = tuple[str, Numbers, Numbers]
"""Its name, and its numbers in each answer."""


@dataclass(frozen=True, slots=True)
class CurveDifference:
    """The largest difference of two curves.

    Attributes
    ----------
    path : str
        As of `sim.difference.Difference`, without the number of the point.
    name : str
        The quantity that it is.
    axis : str
        The quantity that it runs over; empty where it is a list without one.
    at : float
        Where on that axis, a point of the first curve, in the unit of its name; without an axis its number from 1.
    first, second : float
        Values there, in the unit of the name; the second between its two nearest points.
    difference : float
        Second less first.
    place : tuple of (str, value)
        What it belongs to, and where.
    """

    path: str
    name: str
    axis: str
    at: float
    first: float
    second: float
    difference: float
    place: Place = field(default=(), metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class Point:
    """A point of the first curve and what the second has there."""

    at: float
    first: float
    second: float

    @property
    def apart(self) -> float:
        """Size of the difference."""
        return abs(self.second - self.first)


def axis_of(first: dict[str, Any], second: dict[str, Any]) -> tuple[Axis, ...]:
    """Return the axis among the lists of two tables, none where there is none."""
    for name in AXES:
        one, two = first.get(name), second.get(name)
        if rising(one) and rising(two):
            return ((name, one, two),)
    return ()


def axis_of_rows(first: list[Any], second: list[Any]) -> Axis | None:
    """Return the axis that rows of two lists stand on, None where there is none."""
    for name in AXES:
        one, two = column(first, name), column(second, name)
        if rising(one) and rising(two):
            return name, one, two
    return None


def column(rows: list[Any], name: str) -> list[float | None]:
    """Return a field of every row, None where it is no number."""
    values = (row.get(name) if isinstance(row, dict) else None for row in rows)
    return [value if isinstance(value, float) else None for value in values]


def rising(values: object) -> TypeGuard[Numbers]:
    """Whether a value is a list of two numbers or more, none below the one before it and the last above the first."""
    if not isinstance(values, list) or len(values) < 2 or not all(isinstance(one, float) for one in values):
        return False
    return all(one <= after for one, after in pairwise(values)) and values[0] < values[-1]


def numeric(values: list[Any]) -> bool:
    """Whether a list holds numbers alone, and gaps."""
    return all(value is None or isinstance(value, float) for value in values)


def curve_difference(
    first: Numbers, second: Numbers, axis: Axis | None, *, path: str, name: str, place: Place
) -> Iterator[CurveDifference]:
    """Yield the largest difference of two curves, nothing where they are equal; parameters as of `farthest`."""
    found = farthest(first, second, axis)
    if found and not isclose(found.first, found.second, rel_tol=RELATIVE):
        where = (axis[0], found.at) if axis else ("", f"{found.at:.0f} of {len(first)}")
        yield CurveDifference(
            path=path,
            name=name,
            axis=axis[0] if axis else "",
            at=found.at,
            first=found.first,
            second=found.second,
            difference=found.second - found.first,
            place=(*place, where),
        )


def farthest(first: Numbers, second: Numbers, axis: Axis | None) -> Point | None:
    """Return the point of the first curve at which the second differs most from it.

    Parameters
    ----------
    first, second : sequence of float or None
        The curves; None where they have no value.
    axis : tuple or None
        What they run over, as long as they are; None for lists of one length without an axis.

    Returns
    -------
    Point or None
        None where they have no point in common, or nowhere differ.

    Notes
    -----
    The second is interpolated linearly between its points, and not beyond them. Two points at one place are a step: of
    the first curve each is compared with the side of the second that it is on.
    """
    places = [float(number) for number, _ in enumerate(first, 1)]
    _, ours, others = axis or ("", places, places)
    found = [
        Point(at, own, there)
        for at, after, own in zip(ours, [*ours[1:], None], first, strict=True)
        if at is not None and own is not None and (there := _at(at, others, second, before=at == after)) is not None
    ]
    most = max(found, key=lambda point: point.apart, default=None)
    return most if most and most.apart > 0.0 else None


def _at(at: float, places: Numbers, values: Numbers, *, before: bool) -> float | None:
    """Return a curve's value at a place, at a step before or behind it; None outside or next to a gap."""
    find = bisect_left if before else bisect_right
    after = max(1, min(find(places, at), len(places) - 1))  # type: ignore[type-var]
    left, right = places[after - 1], places[after]
    low, high = values[after - 1], values[after]
    if left is None or right is None or not left <= at <= right:
        return None
    if at in (left, right):
        return low if at == left else high
    return None if low is None or high is None else low + (high - low) * (at - left) / (right - left)
