"""Which further reading or document would check a reading or a document that nothing checks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing_network import conditions
from sim.airframe.drawing_snooping import STRUCTURAL

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.drawing import Direction, Known, Readings
    from sim.airframe.drawing_network import Network


def advice(whole: Network, readings: Sequence[Readings], known: Mapping[str, Known], place: int) -> str:
    """Return what would check one observation: its dimension in a view that shows others with it, another document.

    Parameters
    ----------
    whole : Network
        Of these readings and documents.
    readings : sequence of Readings
        In the order of its observations.
    known : mapping of Known
        Documented dimensions.
    place : int
        Which observation: a reading, or behind them a document.

    Notes
    -----
    A view is proposed only where it shows in that direction another dimension that the reading's own view shows there
    too, so that both may look the same way; and nothing is proposed that would leave the reading unchecked.
    """
    if place >= len(readings):
        name = whole.observations[place].dimension
        first = next(k for k, each in enumerate(readings) if each.dimension == name)
        return _second_size(whole, readings, known, place, scale_of=first)
    reading = readings[place]
    name = reading.dimension
    found = []
    for view, axis in _alike(readings, reading):
        if _checks(whole, place, name, _column(whole, readings, (view, axis))):
            found.append(f"read it {axis} in view {view} too")
            break
    if name not in known and _checks(whole, place, name):
        found.append("give it from a document")
    return ", or ".join(found) or _second_size(whole, readings, known, place, scale_of=place)


def _second_size(
    whole: Network, readings: Sequence[Readings], known: Mapping[str, Known], place: int, *, scale_of: int
) -> str:
    """Return what to do where nothing but a document gives a scale, for it or for its only reading."""
    reading, direction = readings[scale_of], whole.observations[scale_of].direction
    others = (each.dimension for each in whole.observations if each.direction == direction)
    where = f"{reading.axis} in view {reading.view}"
    if any(_checks(whole, place, name) for name in others if name not in known):
        return f"give another dimension that is read {where} from a document"
    return f"read another known dimension {where}"


def _alike(readings: Sequence[Readings], reading: Readings) -> Iterator[Direction]:
    """Yield the directions of other views that share dimensions with a reading's own, the most first."""
    own = _dimensions(readings, (reading.view, reading.axis))
    places = dict.fromkeys((each.view, each.axis) for each in readings if each.view != reading.view)
    shared = {place: len(own & _dimensions(readings, place)) for place in places}
    for place in sorted(places, key=lambda each: -shared[each]):
        if shared[place] and reading.dimension not in _dimensions(readings, place):
            yield place


def _dimensions(readings: Iterable[Readings], direction: Direction) -> set[str]:
    return {each.dimension for each in readings if (each.view, each.axis) == direction}


def _column(whole: Network, readings: Sequence[Readings], direction: Direction) -> int:
    """Return the unknown that is the scale of a direction, as it was read: views of one scale have one."""
    place = next(k for k, each in enumerate(readings) if (each.view, each.axis) == direction)
    own = whole.observations[place].direction
    return len(whole.names) + next(k for k, each in enumerate(whole.directions) if each == own)


def _checks(whole: Network, place: int, name: str, scale: int | None = None) -> bool:
    """Whether one more observation of a dimension, a document or a reading of that scale, would check a reading."""
    row: NDArray[np.float64] = np.zeros(whole.design.shape[1])
    row[whole.names.index(name)] = 1.0
    if scale is not None:
        row[scale] = -1.0
    return bool((conditions(np.vstack([whole.design, row]))[place] ** 2).sum() > STRUCTURAL)
