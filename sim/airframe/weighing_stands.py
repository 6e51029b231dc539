"""What may be wrong under the wheels: a support at another station than written, a scale that reads too much."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import TYPE_CHECKING

from sim.airframe.weighing_adjustment import adjusted
from sim.airframe.weighing_causes import GROSS_SHARE
from sim.airframe.weighing_gap import Cause, Effect

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.airframe.weighing_data import Attitude, Support, Weighed, Weighing
    from sim.airframe.weighing_gap import Gap, Vector

SUPPORT_MOVE_M = 0.05
"""Standard deviation of a station of a support beyond its stated error, as of a tape read from another mark: an
estimate of ours."""
STEP = 1e-4
"""Of the differences: metres of a station, kilograms of a reading."""


@dataclass(frozen=True, slots=True)
class Stand:
    """A cause to be tested: supports of one axle elsewhere, or a scale under one of them that misreads."""

    supports: tuple[str, ...]
    misread: bool
    cause: Cause


def stands(found: Gap, weighing: Weighing, weighed: Weighed, height_m: float) -> Iterator[Stand]:
    """Yield supports elsewhere and scales that misread, an axle at a time.

    Parameters
    ----------
    found : Gap
        Between list and scales.
    weighing : Weighing
        Supports and readings.
    weighed : Weighed
        What they give.
    height_m : float
        Of the centre of gravity by the list, for scales that do not determine it. [m]

    Notes
    -----
    What a metre or a kilogram makes of weight and centre of gravity is a difference of two adjustments. Left and right
    scale at about the same station make the same gap and are one cause; a misreading is one of all attitudes alike.
    """
    assumed = (height_m, 0.0) if weighed.cg_waterline_m is None else None
    base = adjusted(weighing.supports, weighing.attitudes, assumed)[0]
    for names in _axles(weighing.supports):
        moved = adjusted(_moved(weighing.supports, names), weighing.attitudes, assumed)[0]
        misread = adjusted(weighing.supports, _misread(weighing.attitudes, names[0]), assumed)[0]
        place = weighing.supports[names[0]].station_m
        off = _along(found, base, moved, -STEP)  # the gap of a support that stands aft of where it is written
        yield Stand(names, misread=False, cause=Cause((Effect(1.0, off, place),), 0.0, SUPPORT_MOVE_M, -inf))
        more = _along(found, base, misread, STEP)
        deviation = GROSS_SHARE * weighed.mass_kg
        yield Stand(names, misread=True, cause=Cause((Effect(1.0, more, place),), 0.0, deviation, -inf))


def _axles(supports: Mapping[str, Support]) -> Iterator[tuple[str, ...]]:
    """Yield the names of supports at about one station: left and right wheel, measured each for itself or not."""
    left = list(supports)
    while left:
        first = supports[left[0]].station_m
        names = tuple(name for name in left if abs(supports[name].station_m - first) <= SUPPORT_MOVE_M)
        yield names
        left = [name for name in left if name not in names]


def _moved(supports: Mapping[str, Support], names: tuple[str, ...]) -> dict[str, Support]:
    return {
        name: replace(support, station_m=support.station_m + STEP) if name in names else support
        for name, support in supports.items()
    }


def _misread(attitudes: tuple[Attitude, ...], name: str) -> tuple[Attitude, ...]:
    return tuple(
        replace(
            attitude,
            readings={
                support: replace(reading, mass_kg=reading.mass_kg + STEP) if support == name else reading
                for support, reading in attitude.readings.items()
            },
        )
        for attitude in attitudes
    )


def _along(found: Gap, base: Weighed, changed: Weighed, step: float) -> Vector:
    """Return what a unit makes of the gap: of mass, and of its moments about the listed centre of gravity."""
    _, *moments = found.values
    levers = [moment / base.mass_kg for moment in moments]
    more = (changed.mass_kg - base.mass_kg) / step
    before, after = ((one.cg_station_m, one.cg_waterline_m or 0.0)[: len(levers)] for one in (base, changed))
    ways = ((new - old) / step for old, new in zip(before, after, strict=True))
    return (more, *(base.mass_kg * way + lever * more for way, lever in zip(ways, levers, strict=True)))
