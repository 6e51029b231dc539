"""The gap between item list and scales, mass and moment, and how well one cause explains it."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, exp, log, pi, sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed

FLOOR = 1e-6
"""Least relative error of the readings, so that a list without errors can be compared with exact scales."""
LEAST_SHARE = 1e-300

Square = tuple[float, float, float]
"""A symmetric matrix of two rows: first diagonal, off-diagonal, second diagonal."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Scales less list.

    Attributes
    ----------
    mass_kg, moment_kg_m : float
        Mass, and moment about the listed centre of gravity, tail heavy positive. [kg, kg m]
    covariance : tuple
        Of the two, errors of list and scales together. [kg², kg² m, kg² m²]
    datum_m : float
        Station of the listed centre of gravity. [m]
    """

    mass_kg: float
    moment_kg_m: float
    covariance: Square
    datum_m: float

    @property
    def inverse(self) -> Square:
        """Inverse of the covariance."""
        a, b, c = self.covariance
        size = a * c - b * b
        return c / size, -b / size, a / size

    @property
    def chi_square(self) -> float:
        """Square of the gap in standard errors, two degrees of freedom."""
        return self.without(0.0, 0.0)

    @property
    def probability(self) -> float:
        """Probability that the errors alone make a gap at least so large."""
        return exp(-0.5 * self.chi_square)

    @property
    def station_m(self) -> float | None:
        """Station of the mass too many or too few; None where the masses agree [m]."""
        return self.datum_m + self.moment_kg_m / self.mass_kg if self.mass_kg else None

    def without(self, mass_kg: float, station_m: float) -> float:
        """Return the chi-square that is left when a mass at a station is taken away."""
        a, b, c = self.inverse
        mass, moment = self.mass_kg - mass_kg, self.moment_kg_m - mass_kg * (station_m - self.datum_m)
        return a * mass**2 + 2.0 * b * mass * moment + c * moment**2

    @property
    def evidence(self) -> float:
        """Logarithm of its probability density when nothing but the errors made it."""
        a, b, c = self.covariance
        return -0.5 * self.chi_square - log(2.0 * pi) - 0.5 * log(a * c - b * b)


def gap(items: Sequence[Item], weighed: Weighed) -> Gap:
    """Return the gap between scales and list with the covariance of both.

    Parameters
    ----------
    items : sequence of Item
        Everything that stood on the scales, as listed, with errors of mass and station, taken as independent.
    weighed : Weighed
        By the scales.
    """
    listed_kg = sum(item.mass_kg for item in items)
    datum_m = sum(item.mass_kg * item.station_m for item in items) / listed_kg
    lever_m, kg = weighed.cg_station_m - datum_m, weighed.mass_kg
    (mm, mx), (_, xx) = weighed.covariance[0][:2], weighed.covariance[1][:2]
    parts = [(mm, lever_m * mm + kg * mx, lever_m**2 * mm + 2.0 * lever_m * kg * mx + kg**2 * xx)]
    for item in items:
        arm_m, variance = item.station_m - datum_m, item.mass_error_kg**2
        parts.append((variance, variance * arm_m, variance * arm_m**2 + (item.mass_kg * item.station_error_m) ** 2))
    span_m = max(item.station_m for item in items) - min(item.station_m for item in items)
    parts.append(((FLOOR * kg) ** 2, 0.0, (FLOOR * kg * max(span_m, 1.0)) ** 2))
    a, b, c = (sum(column) for column in zip(*parts, strict=True))
    return Gap(kg - listed_kg, kg * lever_m, (a, b, c), datum_m)


@dataclass(frozen=True, slots=True)
class Cause:
    """One thing that may be wrong: a mass too many or too few, at one of some stations.

    Attributes
    ----------
    places : tuple
        (probability, station) of where it sits. [m]
    mean_kg, deviation_kg : float
        Mass expected before the scales are read, heavier positive, and its standard deviation. [kg]
    smallest_kg : float
        Least mass possible: no item weighs less than nothing. [kg]
    """

    places: tuple[tuple[float, float], ...]
    mean_kg: float
    deviation_kg: float
    smallest_kg: float


@dataclass(frozen=True, slots=True)
class Explained:
    """A gap explained by one cause.

    Attributes
    ----------
    evidence : float
        Logarithm of the probability density of the gap under the cause.
    mass_kg, error_kg : float
        The mass too many or too few, heavier positive, and its standard error. [kg]
    station_m : float
        Where it most probably sits. [m]
    chi_square : float
        Of what is left of the gap; one degree of freedom.
    """

    evidence: float
    mass_kg: float
    error_kg: float
    station_m: float
    chi_square: float


def explained(gap: Gap, cause: Cause) -> Explained:
    """Return how well a cause explains a gap.

    Notes
    -----
    For each place the mass is an unknown with a normal prior, cut off at the least possible: evidence and mass follow
    in closed form (Bayesian linear model with one parameter), and are summed over the places by their probabilities.

    References
    ----------
    Bishop, Pattern Recognition and Machine Learning, sections 3.3 and 3.4 (from memory); the truncated normal as in
    Johnson, Kotz and Balakrishnan, Continuous Univariate Distributions 1, chapter 13 (from memory).
    """
    parts = [(share, _at(gap, cause, station_m)) for share, station_m in cause.places]
    top = max(part.evidence for _, part in parts)
    weights = [share * exp(part.evidence - top) for share, part in parts]
    whole = sum(weights)
    pairs = [(weight / whole, part) for weight, (_, part) in zip(weights, parts, strict=True)]
    mean_kg = sum(weight * part.mass_kg for weight, part in pairs)
    square = sum(weight * (part.error_kg**2 + (part.mass_kg - mean_kg) ** 2) for weight, part in pairs)
    best = max(pairs, key=lambda pair: pair[0])[1]
    return Explained(
        evidence=top + log(whole),
        mass_kg=mean_kg,
        error_kg=sqrt(square),
        station_m=best.station_m,
        chi_square=min(part.chi_square for _, part in pairs),
    )


def _at(gap: Gap, cause: Cause, station_m: float) -> Explained:
    arm_m, (a, b, c) = station_m - gap.datum_m, gap.inverse
    prior = cause.deviation_kg**-2
    error_kg = (prior + a + 2.0 * b * arm_m + c * arm_m**2) ** -0.5
    pulled = gap.mass_kg * (a + b * arm_m) + gap.moment_kg_m * (b + c * arm_m)
    mean_kg = (prior * cause.mean_kg + pulled) * error_kg**2
    least, before = (mean_kg - cause.smallest_kg) / error_kg, (cause.mean_kg - cause.smallest_kg) / cause.deviation_kg
    evidence = gap.evidence - log(cause.deviation_kg / error_kg) + 0.5 * ((mean_kg / error_kg) ** 2)
    evidence += log(max(_share_above(least), LEAST_SHARE) / _share_above(before)) - 0.5 * prior * cause.mean_kg**2
    mass_kg, spread_kg = _cut_off(mean_kg, error_kg, cause.smallest_kg)
    return Explained(evidence, mass_kg, spread_kg, station_m, gap.without(mass_kg, station_m))


def _share_above(deviations: float) -> float:
    """Return the share of a normal distribution above so many standard deviations below its mean."""
    return 0.5 * erfc(-deviations / sqrt(2.0))


def _cut_off(mean: float, deviation: float, least: float) -> tuple[float, float]:
    """Return mean and standard deviation of a normal distribution that is cut off below `least`."""
    below = (least - mean) / deviation
    share = _share_above(-below)
    if share < LEAST_SHARE:
        return least, 0.0
    hazard = exp(-0.5 * below**2) / sqrt(2.0 * pi) / share
    return mean + deviation * hazard, deviation * sqrt(max(1.0 + below * hazard - hazard**2, 0.0))
