"""Every cause of a gap between item list and scales, tested: how it explains the gap, how probable it is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp, log
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.loading import PILOT, USEFUL
from sim.airframe.weighing_causes import SURE_PRIOR, in_list, pilot_and_fuel, total_kg
from sim.airframe.weighing_gap import chance, explained
from sim.airframe.weighing_sides import side
from sim.airframe.weighing_stands import under_the_wheels
from sim.airframe.weighing_suspected import Doubts

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_causes import Candidate
    from sim.airframe.weighing_data import Weighed, Weighing
    from sim.airframe.weighing_gap import Explained, Gap

SIGNIFICANT = 0.04
"""A suspect is named where the stated errors alone make so large a gap with less than this probability, a little below
1 in 20: 3.9 % of 16,000 simulated airplanes without an error name one with the height, 3.7 % without."""


@dataclass(frozen=True, slots=True)
class Tested:
    """A cause, how it explains the gap, and its probability of all that were tested."""

    candidate: Candidate
    test: Explained
    probability: float


def tested(
    found: Gap,
    there: Sequence[Item],
    absent: Sequence[Item],
    useful: Sequence[str],
    *,
    weighed: Weighed,
    readings: Weighing | None,
) -> list[Tested]:
    """Return every cause with its probability, the most probable first; what is left to 1 is that of errors alone."""
    span = span_of((*there, *absent))
    candidates = [
        *in_list(found, there, weighed.mass_kg),
        *(() if readings is None else under_the_wheels(found, readings, weighed, height_m(there))),
        *pilot_and_fuel(found, absent, useful, left_out=False),
        *pilot_and_fuel(found, there, useful, left_out=True),
    ]
    weighed_pilot = readings is not None and readings.pilot_kg is not None
    if weighed_pilot:  # by himself: his mass is seldom what is wrong
        candidates = [
            replace(one, prior=SURE_PRIOR) if (one.kind, one.names) == ("group", (PILOT,)) else one
            for one in candidates
        ]
    pairs = [(one, explained(found, one.cause)) for one in candidates]
    pairs = [(one, test) for one, test in pairs if _possible(found, one, test, span)]
    across = side(there, weighed)
    weights = [found.evidence + across.evidence(0.0, 0.0, (0.0, 0.0))]
    for one, test in pairs:
        size = (test.size, test.size_error) if one.kind in MASSES else (0.0, 0.0)
        weights.append(log(one.prior) + test.evidence + across.evidence(*size, (one.buttline_m, one.spread_m)))
    _, *odds = _probabilities(weights)
    rows = [Tested(one, test, share) for (one, test), share in zip(pairs, odds, strict=True)]
    return sorted(rows, key=lambda row: -row.probability)


MASSES = ("group", "load", "unit", "scale")
"""Kinds of cause whose size is a mass."""


def _possible(found: Gap, one: Candidate, test: Explained, span: tuple[float, float]) -> bool:
    """Return whether a cause contradicts nothing: a load not the gap, an item not the ends of the airplane."""
    if one.kind == "load":
        return _fits(found, one, test, span)
    if one.kind == "station":
        return span[0] <= one.items[0].station_m + test.size <= span[1]
    return True


def within(station_m: float | None, span: tuple[float, float]) -> float | None:
    """Return a station where it lies among those of the items, else None: nothing of an airplane sits outside it."""
    return station_m if station_m is not None and span[0] <= station_m <= span[1] else None


def _probabilities(evidences: Sequence[float]) -> list[float]:
    """Return the probabilities of causes by the logarithms of evidence and prior."""
    top = max(evidences)
    weights = [exp(evidence - top) for evidence in evidences]
    return [weight / sum(weights) for weight in weights]


def span_of(items: Sequence[Item]) -> tuple[float, float]:
    """Return the stations of the foremost and the aftmost of some items [m]."""
    stations = [item.station_m for item in items]
    return min(stations), max(stations)


def _fits(found: Gap, load: Candidate, test: Explained, span: tuple[float, float]) -> bool:
    """Return whether a load aboard or left out does not contradict the gap: its mass and station are those of the gap.

    They are not where what it leaves is significant, its own mass counted with the error that it may have, nor where
    the gap would sit outside the airplane.
    """
    if within(found.station_m, span) is None:
        return False
    left = test.chi_square + ((test.size - load.cause.mean) / load.cause.deviation) ** 2
    return chance(left, len(found.values)) > SIGNIFICANT


def height_m(items: Sequence[Item]) -> float:
    """Return the waterline of the centre of gravity of some items [m]."""
    return sum(item.mass_kg * item.waterline_m for item in items) / total_kg(items)


NOT_THE_LIST = ("load", "support", "scale")
"""Kinds of cause that make what the scales say of the empty airplane wrong, as the mass of a load does; the others are
errors of the list."""


def doubts(found: Gap, causes: Iterable[Tested], weighed: Weighed) -> Doubts:
    """Return what causes add to the errors of scales and list: mass, station and height.

    Parameters
    ----------
    found : Gap
        Between list and scales.
    causes : iterable of Tested
        With their probabilities.
    weighed : Weighed
        By the scales.

    Notes
    -----
    The mean square of what either would be wrong by, over the causes that it is wrong by, by their probabilities.
    """
    scales, listed = np.zeros((3, 3)), np.zeros((3, 3))
    for one in causes:
        square = one.probability * (one.test.size**2 + one.test.size_error**2)
        along = max(one.candidate.cause.effects, key=lambda effect: effect.probability).along
        off = np.zeros(3)
        off[0] = along[0]
        at = (weighed.cg_station_m, weighed.cg_waterline_m or 0.0)
        for axis, (moment, datum) in enumerate(zip(along[1:], found.datum, strict=True)):
            off[1 + axis] = (moment - along[0] * (at[axis] - datum)) / weighed.mass_kg
        load = one.candidate.kind in ("group", "unit") and one.candidate.items[0].group in USEFUL
        (scales if load or one.candidate.kind in NOT_THE_LIST else listed)[...] += square * np.outer(off, off)
    return Doubts(*(tuple(map(tuple, each.tolist())) for each in (scales, listed)))
