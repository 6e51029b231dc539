"""Misreadings among repeats: every reading's own repeats against their error, or against the scatter of all others."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing import scatter_m
from sim.airframe.drawing_snooping import LIMIT, Residual

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from sim.airframe.drawing import Readings

FEWEST = 4
"""Degrees of freedom below which the scatter of the other repeats is too uncertain for a test."""


def repeats_apart(readings: Sequence[Readings], stated_m: float | None) -> Iterator[Residual]:
    """Yield the readings whose own repeats differ by more than their error, or the scatter of all others, allows.

    The worst comes first and judges no other. The scatter of few repeats is itself uncertain, and the farthest of many
    lies farther: the ratio is carried to the normal one of the same probability.
    """
    left = dict(enumerate(readings))
    while True:
        found = [each for place in left if (each := _apart(left, place, stated_m))]
        if not found:
            return
        worst = max(found, key=lambda each: each.normalised_residual)
        yield worst
        del left[worst.place]


def _apart(left: Mapping[int, Readings], place: int, stated_m: float | None) -> Residual | None:
    from scipy.special import ndtr, ndtri, stdtr

    reading = left[place]
    if not _judged(left.values(), reading, stated_m):
        return None
    count, (single_m, spare) = len(reading.values_m), _judge(left.values(), reading, stated_m)
    far_m, others_m = farthest(reading.values_m)
    ratio = abs(far_m - others_m) * (1.0 - 1.0 / count) ** 0.5 / single_m  # its distance from the mean of all, 1 - 1/n
    chance = float(stdtr(spare, -ratio)) if spare < np.inf else float(ndtr(-ratio))
    normalised = -float(ndtri(min(0.5, chance * (count if count > 2 else 1)) or np.finfo(float).tiny))
    return Residual(place, float(np.log(far_m / others_m)), normalised) if normalised > LIMIT else None


def farthest(values_m: Sequence[float]) -> tuple[float, float]:
    """Return the repeat that lies farthest from the mean of all, and the mean of the others [m]."""
    middle_m = sum(values_m) / len(values_m)
    far_m = max(values_m, key=lambda value_m: abs(value_m - middle_m))
    return far_m, (sum(values_m) - far_m) / (len(values_m) - 1)


def repeats_tested(readings: Sequence[Readings], stated_m: float | None) -> int:
    """Return how many readings are tested by their own repeats."""
    return sum(_judged(readings, reading, stated_m) for reading in readings)


def _judged(readings: Iterable[Readings], reading: Readings, stated_m: float | None) -> bool:
    single_m, spare = _judge(readings, reading, stated_m)
    return len(reading.values_m) > 1 and spare >= FEWEST and single_m > 0.0


def _judge(readings: Iterable[Readings], reading: Readings, stated_m: float | None) -> tuple[float, float]:
    """Return the standard error that a reading's repeats are judged by, and its degrees of freedom [m]."""
    single_m = reading.error_m or stated_m
    if single_m is not None:
        return single_m, np.inf
    return scatter_m([other for other in readings if other is not reading])
