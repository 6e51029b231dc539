"""What may be wrong under the wheels: a support at another station than written, a scale that reads too much."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, inf
from typing import TYPE_CHECKING

from sim.airframe.weighing_adjustment import adjusted
from sim.airframe.weighing_causes import GROSS_SHARE, Candidate
from sim.airframe.weighing_data import LIMIT
from sim.airframe.weighing_gap import Cause, Effect

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.airframe.weighing_data import Attitude, Support, Weighed, Weighing
    from sim.airframe.weighing_gap import Gap, Vector

SUPPORT_MOVE_M = 0.05
"""Standard deviation of a station of a support beyond its stated error, as of a tape read from another mark: an
estimate of ours."""
SLIP_SHARE, SLIP_WIDER = 0.1, 20.0
"""How many of them are slips of the pen, as by a digit, and how much wider these spread: estimates of ours."""
UNLIKE_PRIOR = 5.0
"""How much more probable than another cause it is that one wheel of an axle stands elsewhere, where both are written at
stations farther apart than their errors: an estimate of ours."""
STEP = 1e-4
"""Of the differences: metres of a station, kilograms of a reading."""


def under_the_wheels(found: Gap, weighing: Weighing, weighed: Weighed, height_m: float) -> Iterator[Candidate]:
    """Yield supports elsewhere, an axle at a time, and scales that misread.

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
    scale at about the same station make the same gap, and only the buttline tells them apart; a misreading is one of
    all attitudes alike.
    """
    units = _Units(found, weighing, None if weighed.cg_waterline_m is not None else (height_m, 0.0))
    deviation_kg = GROSS_SHARE * weighed.mass_kg
    for names in _axles(weighing.supports):
        station_m, off = weighing.supports[names[0]].station_m, units.of_station(names)
        effects = (
            Effect(1.0 - SLIP_SHARE, off, station_m),
            Effect(SLIP_SHARE, off, station_m, SLIP_WIDER),
        )
        yield Candidate("support", names, Cause(effects, 0.0, SUPPORT_MOVE_M, -inf))
        for name in names:
            cause = Cause((Effect(1.0, units.of_reading(name), station_m),), 0.0, deviation_kg, -inf)
            right_m = weighing.supports[name].buttline_m
            yield Candidate("scale", (name,), cause, 1.0 / len(names), buttline_m=right_m)
    for name, way_m, error_m in _not_abreast(weighing.supports):
        effect = Effect(1.0, units.of_station((name,)), weighing.supports[name].station_m)
        yield Candidate("support", (name,), Cause((effect,), way_m, error_m, -inf), UNLIKE_PRIOR)


class _Units:
    """What a unit of a cause under the wheels makes of the gap."""

    def __init__(self, found: Gap, weighing: Weighing, assumed: tuple[float, float] | None) -> None:
        self._found, self._weighing, self._assumed = found, weighing, assumed
        self._base = adjusted(weighing.supports, weighing.attitudes, assumed)[0]

    def of_station(self, names: tuple[str, ...]) -> Vector:
        """Return the gap of supports that stand a metre aft of where they are written."""
        moved = adjusted(_moved(self._weighing.supports, names), self._weighing.attitudes, self._assumed)[0]
        return _along(self._found, self._base, moved, -STEP)

    def of_reading(self, name: str) -> Vector:
        """Return the gap of a scale that reads a kilogram too much."""
        misread = adjusted(self._weighing.supports, _misread(self._weighing.attitudes, name), self._assumed)[0]
        return _along(self._found, self._base, misread, STEP)


def _axles(supports: Mapping[str, Support]) -> Iterator[tuple[str, ...]]:
    """Yield the names of supports at about one station: left and right wheel, measured each for itself or not."""
    left = list(supports)
    while left:
        first = supports[left[0]].station_m
        names = tuple(name for name in left if abs(supports[name].station_m - first) <= SUPPORT_MOVE_M)
        yield names
        left = [name for name in left if name not in names]


def _not_abreast(supports: Mapping[str, Support]) -> Iterator[tuple[str, float, float]]:
    """Yield each wheel of an axle whose other wheel is not abreast, the way to it and its standard error [m]."""
    for name, one in supports.items():
        for mirror in supports.values():
            if one.buttline_m * mirror.buttline_m < 0.0 and one.waterline_m == mirror.waterline_m:
                way_m = mirror.station_m - one.station_m
                error_m = hypot(one.station_error_m, mirror.station_error_m)
                if abs(way_m) > LIMIT * error_m > 0.0:
                    yield name, way_m, error_m


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
