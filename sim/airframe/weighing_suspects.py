"""What one error would explain a gap between item list and scales: a group, or somebody aboard or left out."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, exp, hypot, sqrt
from typing import TYPE_CHECKING

from sim.airframe.weighing_gap import Cause, explained, gap
from sim.atmosphere import GRAVITY_M_S2

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed
    from sim.airframe.weighing_gap import Explained

SIGNIFICANT = 0.04
"""A suspect is named where the stated errors alone make so large a gap with less than this probability. A little below
1 in 20, for the gap is not quite linear in the errors: 4.3 % of 32,000 simulated airplanes without an error name
one."""
GROSS_SHARE = 0.05
"""Standard deviation of an error beyond the stated ones, over the mass of the airplane: an estimate of ours."""
ABOARD_SHARE = 0.1
"""Standard deviation of pilot or fuel on the day over the listed mass: an estimate of ours."""


@dataclass(frozen=True, slots=True)
class Suspicion:
    """One group of the item list, if it alone is wrong.

    Attributes
    ----------
    group : str
        Name of the group.
    estimate_kg, estimate_error_kg : float
        Its mass by the item list, and the standard error of that. [kg]
    correction_kg, correction_error_kg : float
        Change of its mass that explains the gap best, heavier positive, and its standard error. [kg]
    correction_moment_n_m : float
        Change of its moment about the datum with it, tail heavy positive. [N m]
    probability : float
        That it is the one in error, of all causes that were tested.
    chi_square : float
        Of the gap that this correction leaves; one degree of freedom.
    """

    group: str
    estimate_kg: float
    estimate_error_kg: float
    correction_kg: float
    correction_error_kg: float
    correction_moment_n_m: float
    probability: float
    chi_square: float


@dataclass(frozen=True, slots=True)
class AboardGuess:
    """Pilot or fuel that was on the scales and not in the list, or the reverse.

    Attributes
    ----------
    group : str
        Its group.
    items : tuple of str
        Names of the items of it that are meant.
    whole : bool
        Whether these are all items of the group.
    left_out : bool
        Whether the list has them aboard and the scales do not; False for the reverse.
    mass_kg : float
        Their listed mass. [kg]
    probability : float
        Of this cause, of all that were tested.
    """

    group: str
    items: tuple[str, ...]
    whole: bool
    left_out: bool
    mass_kg: float
    probability: float


@dataclass(frozen=True, slots=True)
class Suspects:
    """What may be wrong.

    Attributes
    ----------
    gap_station_m : float or None
        Where the mass too many or too few would sit; None where the masses agree. [m]
    chi_square : float
        Gap of mass and moment in standard errors, squared; two degrees of freedom.
    gap_probability : float
        That the stated errors alone make a gap at least so large.
    errors_alone_probability : float
        That nothing but the stated errors made it, of all causes that were tested.
    one_group_explains : bool
        Whether a group leaves a gap that is not significant.
    suspicions : tuple of Suspicion
        Groups, the most probable first; empty where the gap is not significant.
    aboard : AboardGuess or None
        Where it is significant, and that is more probable than any group.
    """

    gap_station_m: float | None
    chi_square: float
    gap_probability: float
    errors_alone_probability: float
    one_group_explains: bool
    suspicions: tuple[Suspicion, ...]
    aboard: AboardGuess | None


def suspects(there: Sequence[Item], absent: Sequence[Item], useful: Sequence[str], weighed: Weighed) -> Suspects:
    """Return what one error would explain the gap between list and scales.

    Parameters
    ----------
    there : sequence of Item
        What stood on the scales by the list, with errors of mass and station.
    absent : sequence of Item
        Pilot and fuel that by the list did not.
    useful : sequence of str
        Groups of pilot and fuel.
    weighed : Weighed
        By the scales.

    Notes
    -----
    Each cause stands for itself, all else right within its errors, and all have the same probability before the
    scales are read: no error but the stated ones; each group, wrong by an unknown mass (normal, 5 % of the airplane's
    mass, no item below 0), sitting with one half at the group's centre and with the other at one of its items, by
    their masses; each pilot, passenger or tank, and each such group as a whole, aboard or left out (its listed mass
    within 10 %). Two readings, mass and moment, tell where a mass sits, not whose it is: groups at about the same
    station share the probability. In simulated biplanes of twenty items in eight groups, with 20 kg wrong in one group,
    stations known to 1/2 in and masses to 2 %, the right group is first in 76 % and among the first three in 99 %
    where groups keep apart, in 65 % and 96 % where wings, cockpit and fuselage overlap; with masses known to 4 %, in
    51 % and 80 %. The stated probability of the first is 3 to 6 % lower than it turns out right.

    References
    ----------
    Jeffreys, Theory of Probability, chapter 5 (comparison of hypotheses; from memory).
    """
    found = gap(there, weighed)
    candidates = [
        *_groups(there, weighed.mass_kg),
        *_pilot_and_fuel(absent, useful, left_out=False),
        *_pilot_and_fuel(there, useful, left_out=True),
    ]
    tests = [explained(found, candidate.cause) for candidate in candidates]
    alone, *odds = _probabilities([found.evidence, *(test.evidence for test in tests)])
    ranked = sorted(zip(odds, candidates, tests, strict=True), key=lambda row: -row[0])
    significant = found.probability < SIGNIFICANT
    first = ranked[0][1]
    return Suspects(
        gap_station_m=found.station_m,
        chi_square=found.chi_square,
        gap_probability=found.probability,
        errors_alone_probability=alone,
        one_group_explains=_explained_by_one(t.chi_square for _, c, t in ranked if c.left_out is None),
        suspicions=tuple(_suspicion(*row) for row in ranked if significant and row[1].left_out is None),
        aboard=_guess(first, ranked[0][0]) if significant and first.left_out is not None else None,
    )


@dataclass(frozen=True, slots=True)
class _Candidate:
    """A cause to be tested: items of one group, all of it or not; `left_out` is None for an error of the list."""

    group: str
    items: tuple[Item, ...]
    whole: bool
    left_out: bool | None
    cause: Cause


def _groups(items: Sequence[Item], mass_kg: float) -> Iterator[_Candidate]:
    for group, own in _by_group(items):
        yield _Candidate(group, own, whole=True, left_out=None, cause=_group_cause(own, mass_kg))


def _by_group(items: Sequence[Item]) -> Iterator[tuple[str, tuple[Item, ...]]]:
    for group in dict.fromkeys(item.group for item in items):
        yield group, tuple(item for item in items if item.group == group)


def _group_cause(own: Sequence[Item], mass_kg: float) -> Cause:
    whole_kg, shares = _kg(own), _shares(own)
    places = [(0.5 * share, item.station_m) for share, item in zip(shares, own, strict=True) if share > 0.0]
    return Cause(((0.5, _centre_m(own)), *places), 0.0, GROSS_SHARE * mass_kg, -whole_kg)


def _pilot_and_fuel(items: Sequence[Item], useful: Sequence[str], *, left_out: bool) -> Iterator[_Candidate]:
    """Yield each group of pilot and fuel, and each item where the group has several."""
    for group, own in _by_group([item for item in items if item.group in useful and item.mass_kg > 0.0]):
        for some in (own, *((item,) for item in own if len(own) > 1)):
            yield _Candidate(
                group, some, whole=some == own, left_out=left_out, cause=_aboard_cause(some, left_out=left_out)
            )


def _aboard_cause(items: Sequence[Item], *, left_out: bool) -> Cause:
    mass_kg = _kg(items)
    smallest_kg = -mass_kg if left_out else 0.0
    return Cause(((1.0, _centre_m(items)),), -mass_kg if left_out else mass_kg, ABOARD_SHARE * mass_kg, smallest_kg)


def _kg(items: Sequence[Item]) -> float:
    return sum(item.mass_kg for item in items)


def _shares(items: Sequence[Item]) -> list[float]:
    whole_kg = _kg(items)
    return [item.mass_kg / whole_kg if whole_kg else 1.0 / len(items) for item in items]


def _centre_m(items: Sequence[Item]) -> float:
    return sum(share * item.station_m for share, item in zip(_shares(items), items, strict=True))


def _probabilities(evidences: Sequence[float]) -> list[float]:
    """Return the probabilities of causes that were equally probable before."""
    top = max(evidences)
    weights = [exp(evidence - top) for evidence in evidences]
    return [weight / sum(weights) for weight in weights]


def _explained_by_one(left: Iterable[float]) -> bool:
    """Return whether the least chi-square left, one degree of freedom, is not significant."""
    return erfc(sqrt(0.5 * min(left))) > SIGNIFICANT


def _suspicion(probability: float, candidate: _Candidate, test: Explained) -> Suspicion:
    return Suspicion(
        group=candidate.group,
        estimate_kg=_kg(candidate.items),
        estimate_error_kg=hypot(*(item.mass_error_kg for item in candidate.items)),
        correction_kg=test.mass_kg,
        correction_error_kg=test.error_kg,
        correction_moment_n_m=test.mass_kg * test.station_m * GRAVITY_M_S2,
        probability=probability,
        chi_square=test.chi_square,
    )


def _guess(candidate: _Candidate, probability: float) -> AboardGuess:
    return AboardGuess(
        group=candidate.group,
        items=tuple(item.name for item in candidate.items),
        whole=candidate.whole,
        left_out=bool(candidate.left_out),
        mass_kg=_kg(candidate.items),
        probability=probability,
    )
