"""The gap between item list and scales, mass and moments, and how well one cause explains it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import erfc, exp, inf, log, pi, sqrt
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from sim.airframe.weighing_data import LIMIT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed

FLOOR = 1e-6
"""Least relative error of the readings, so that a list without errors can be compared with exact scales."""
LEAST_SHARE = 1e-300
LEAST_SPAN_M = 1.0

Vector = tuple[float, ...]
"""A mass, its moment about the listed centre of gravity along the airplane, and, where heights count, upward."""
Place = tuple[float, ...]
"""A station, and a waterline where heights count. [m]"""


@dataclass(frozen=True)
class Gap:
    """Scales less list.

    Attributes
    ----------
    values : tuple of float
        Mass, moment about the listed centre of gravity, tail heavy positive, and where heights count the moment of
        waterlines about it, up positive. [kg, kg m, kg m]
    covariance : tuple of tuple of float
        Of these, errors of list and scales together.
    datum : tuple of float
        Station, and waterline where heights count, of the listed centre of gravity. [m]
    """

    values: Vector
    covariance: tuple[Vector, ...]
    datum: Place

    @cached_property
    def inverse(self) -> tuple[Vector, ...]:
        """Inverse of the covariance."""
        return tuple(map(tuple, np.linalg.inv(np.array(self.covariance)).tolist()))

    @property
    def chi_square(self) -> float:
        """Square of the gap in standard errors; as many degrees of freedom as values."""
        return self.product(self.values, self.values)

    @property
    def probability(self) -> float:
        """Probability that the errors alone make a gap at least so large."""
        return chance(self.chi_square, len(self.values))

    @property
    def station_m(self) -> float | None:
        """Station of the mass too many or too few; None where the masses agree [m]."""
        mass_kg, moment_kg_m, *_ = self.values
        return self.datum[0] + moment_kg_m / mass_kg if mass_kg else None

    @cached_property
    def evidence(self) -> float:
        """Logarithm of its probability density when nothing but the errors made it."""
        log_size = float(np.linalg.slogdet(np.array(self.covariance))[1])
        return -0.5 * (self.chi_square + len(self.values) * log(2.0 * pi) + log_size)

    def product(self, one: Vector, other: Vector) -> float:
        """Return the scalar product of two such vectors by the inverse covariance."""
        return sum(
            a * sum(x * b for x, b in zip(row, other, strict=True)) for a, row in zip(one, self.inverse, strict=True)
        )

    def without(self, cause: Vector) -> float:
        """Return the chi-square that is left when what a cause makes is taken away."""
        left = tuple(value - part for value, part in zip(self.values, cause, strict=True))
        return self.product(left, left)

    def of_mass(self, item: Item) -> Vector:
        """Return what a kilogram at the place of an item makes."""
        return (1.0, *(at - datum for at, datum in zip(_place(item, len(self.datum)), self.datum, strict=True)))

    def of_move(self, mass_kg: float) -> Vector:
        """Return what a metre aft makes of the station of a mass."""
        return (0.0, mass_kg, *[0.0] * (len(self.datum) - 1))


def chance(square: float, degrees: int) -> float:
    """Return the probability that chi-square of 1, 2 or 3 degrees of freedom is at least so large."""
    two = exp(-0.5 * square)
    if degrees == len(("mass", "moment")):
        return two
    return erfc(sqrt(0.5 * square)) + (two * sqrt(2.0 * square / pi) if degrees > 1 else 0.0)


def gap(items: Sequence[Item], weighed: Weighed) -> Gap:
    """Return the gap between scales and list with the covariance of both, of the height too where it counts.

    Parameters
    ----------
    items : sequence of Item
        Everything that stood on the scales, as listed, with errors of mass and place, taken as independent.
    weighed : Weighed
        By the scales.

    Notes
    -----
    The height counts where the scales determine it, every item has a waterline, for one at 0 states none, and both
    agree within `LIMIT` standard errors: more is a matter of attitudes, supports or waterlines, not of masses.
    """
    whole = gap_with_height(items, weighed)
    if whole is not None and abs(whole.values[2]) <= LIMIT * sqrt(whole.covariance[2][2]):
        return whole
    return _gap(items, weighed, 1)


def gap_with_height(items: Sequence[Item], weighed: Weighed) -> Gap | None:
    """Return the gap with the height, contradicting or not; None where scales or list do not hold it.

    Parameters
    ----------
    items, weighed
        As `gap` takes them.
    """
    if weighed.cg_waterline_m is None or not all(item.waterline_m != 0.0 for item in items if item.mass_kg > 0.0):
        return None
    return _gap(items, weighed, 2)


def _gap(items: Sequence[Item], weighed: Weighed, axes: int) -> Gap:
    kg, listed_kg = weighed.mass_kg, sum(item.mass_kg for item in items)
    datum = tuple(sum(i.mass_kg * _place(i, axes)[axis] for i in items) / listed_kg for axis in range(axes))
    scales = (weighed.cg_station_m, weighed.cg_waterline_m or 0.0)[:axes]
    levers = tuple(at - own for at, own in zip(scales, datum, strict=True))
    by_scales = np.diag([1.0, *[kg] * axes])
    by_scales[1:, 0] = levers
    covariance = by_scales @ np.array(weighed.covariance)[: 1 + axes, : 1 + axes] @ by_scales.T
    for item in items:
        along = np.array([1.0, *(at - own for at, own in zip(_place(item, axes), datum, strict=True))])
        errors = (item.station_error_m, item.waterline_error_m)[:axes]
        covariance += item.mass_error_kg**2 * np.outer(along, along)
        covariance += np.diag([0.0, *((item.mass_kg * error) ** 2 for error in errors)])
    places = np.array([_place(item, axes) for item in items])
    spans = np.maximum(places.max(axis=0) - places.min(axis=0), LEAST_SPAN_M)
    covariance += np.diag(np.square(FLOOR * kg * np.array([1.0, *spans])))
    values = (kg - listed_kg, *(kg * lever for lever in levers))
    return Gap(values, tuple(map(tuple, covariance.tolist())), datum)


def _place(item: Item, axes: int) -> Place:
    return (item.station_m, item.waterline_m)[:axes]


class Effect(NamedTuple):
    """What a unit of a cause makes of the gap, and where.

    Attributes
    ----------
    probability : float
        That the cause acts so.
    along : tuple of float
        Of a unit of it, as `Gap.values`.
    station_m : float
        Where it sits. [m]
    wider : float
        Its standard deviation over that of the cause, as of a slip of the pen beside one of the tape.
    """

    probability: float
    along: Vector
    station_m: float
    wider: float = 1.0


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that may be wrong: a mass too many or too few at one of some places, or a place.

    Attributes
    ----------
    effects : tuple of Effect
        One for each place where it may sit.
    mean, deviation : float
        Size expected before the scales are read, and its standard deviation: mass, heavier positive, or way, aft
        positive. [kg or m]
    smallest : float
        Least size possible: no item weighs less than nothing. [kg or m]
    """

    effects: tuple[Effect, ...]
    mean: float
    deviation: float
    smallest: float


@dataclass(frozen=True, slots=True)
class Explained:
    """A gap explained by one cause.

    Attributes
    ----------
    evidence : float
        Logarithm of the probability density of the gap under the cause.
    size, size_error : float
        Of the cause, and its standard error. [kg or m]
    station_m : float
        Where it most probably sits. [m]
    chi_square : float
        Of what is left of the gap; one degree of freedom fewer than the gap has.
    """

    evidence: float
    size: float
    size_error: float
    station_m: float
    chi_square: float


def explained(gap: Gap, cause: Cause) -> Explained:
    """Return how well a cause explains a gap.

    Notes
    -----
    For each place the size is an unknown with a normal prior, cut off at the least possible: evidence and size follow
    in closed form (Bayesian linear model with one parameter), and are summed over the places by their probabilities.

    References
    ----------
    Bishop, Pattern Recognition and Machine Learning, sections 3.3 and 3.4 (from memory); the truncated normal as in
    Johnson, Kotz and Balakrishnan, Continuous Univariate Distributions 1, chapter 13 (from memory).
    """
    parts = [(effect.probability, _at(gap, cause, effect)) for effect in cause.effects]
    top = max(part.evidence for _, part in parts)
    weights = [share * exp(part.evidence - top) for share, part in parts]
    whole = sum(weights)
    pairs = [(weight / whole, part) for weight, (_, part) in zip(weights, parts, strict=True)]
    mean = sum(weight * part.size for weight, part in pairs)
    square = sum(weight * (part.size_error**2 + (part.size - mean) ** 2) for weight, part in pairs)
    best = max(pairs, key=lambda pair: pair[0])[1]
    return Explained(
        evidence=top + log(whole),
        size=mean,
        size_error=sqrt(square),
        station_m=best.station_m,
        chi_square=min(part.chi_square for _, part in pairs),
    )


def _at(gap: Gap, cause: Cause, effect: Effect) -> Explained:
    along, deviation = effect.along, cause.deviation * effect.wider
    prior = deviation**-2
    error = (prior + gap.product(along, along)) ** -0.5
    mean = (prior * cause.mean + gap.product(along, gap.values)) * error**2
    least, before = (mean - cause.smallest) / error, (cause.mean - cause.smallest) / deviation
    evidence = gap.evidence - log(deviation / error) + 0.5 * (mean / error) ** 2
    evidence += log(max(_share_above(least), LEAST_SHARE) / _share_above(before)) - 0.5 * prior * cause.mean**2
    size, spread = _cut_off(mean, error, cause.smallest)
    left = gap.without(tuple(size * part for part in along))
    return Explained(evidence, size, spread, effect.station_m, left)


def _share_above(deviations: float) -> float:
    """Return the share of a normal distribution above so many standard deviations below its mean."""
    return 0.5 * erfc(-deviations / sqrt(2.0))


def _cut_off(mean: float, deviation: float, least: float) -> tuple[float, float]:
    """Return mean and standard deviation of a normal distribution that is cut off below `least`."""
    if least == -inf:
        return mean, deviation
    below = (least - mean) / deviation
    share = _share_above(-below)
    if share < LEAST_SHARE:
        return least, 0.0
    hazard = exp(-0.5 * below**2) / sqrt(2.0 * pi) / share
    return mean + deviation * hazard, deviation * sqrt(max(1.0 + below * hazard - hazard**2, 0.0))
