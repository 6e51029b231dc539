"""What one error would explain a gap between item list and scales: a group, its engine's place, somebody aboard."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, hypot
from typing import TYPE_CHECKING

from sim.airframe.weighing_causes import engine_elsewhere, groups, pilot_and_fuel, total_kg
from sim.airframe.weighing_gap import chance, explained, gap
from sim.atmosphere import GRAVITY_M_S2

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_causes import Candidate
    from sim.airframe.weighing_data import Weighed
    from sim.airframe.weighing_gap import Cause, Explained, Gap

SIGNIFICANT = 0.04
"""A suspect is named where the stated errors alone make so large a gap with less than this probability, a little below
1 in 20: 3.9 % of 16,000 simulated airplanes without an error name one with the height, 3.7 % without."""


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
        Of the gap that this correction leaves; one degree of freedom, two where the height counts.
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
    station_m : float
        Their listed station. [m]
    probability : float
        Of this cause, of all that were tested.
    """

    group: str
    items: tuple[str, ...]
    whole: bool
    left_out: bool
    mass_kg: float
    station_m: float
    probability: float

    @property
    def named(self) -> str:
        """Who, and which of the two: ``pilot aboard``, ``fuel left out``."""
        return f"{self.group if self.whole else self.items[0]} {'left out' if self.left_out else 'aboard'}"


@dataclass(frozen=True, slots=True)
class EngineElsewhere:
    """The engine, with all that moves with it, at another station than written.

    Attributes
    ----------
    move_m, move_error_m : float
        From there to where it explains the gap best, aft positive, and the standard error. [m]
    probability : float
        Of this cause, of all that were tested.
    """

    move_m: float
    move_error_m: float
    probability: float


@dataclass(frozen=True, slots=True)
class Suspects:
    """What may be wrong.

    Attributes
    ----------
    gap_station_m : float or None
        Where the mass too many or too few would sit; None where the masses agree. [m]
    chi_square : float
        Gap of mass, moment and, where it counts, height in standard errors, squared; as many degrees of freedom.
    gap_probability : float
        That the stated errors alone make a gap at least so large.
    errors_alone_probability : float
        That nothing but the stated errors made it, of all causes that were tested.
    one_group_explains : bool
        Whether a group, or the engine elsewhere, leaves a gap that is not significant.
    suspicions : tuple of Suspicion
        Groups, the most probable first; empty where the gap is not significant.
    aboard : AboardGuess or None
        Where it is significant, and that is more probable than any other cause.
    engine : EngineElsewhere or None
        Where it is significant and something moves with the engine.
    with_height : bool
        Whether the height counts.
    """

    gap_station_m: float | None
    chi_square: float
    gap_probability: float
    errors_alone_probability: float
    one_group_explains: bool
    suspicions: tuple[Suspicion, ...]
    aboard: AboardGuess | None
    engine: EngineElsewhere | None
    with_height: bool


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
    their masses; the engine, with all that moves with it, at another station (normal, 0.1 m); each pilot, passenger or
    tank, and each such group as a whole, aboard or left out (its listed mass within 10 %), where that does not
    contradict mass and station of the gap. The readings, mass, moment and height, tell where a mass sits, not whose it
    is: groups at about the same place share the probability.

    In simulated biplanes of twenty items in eight groups, stations known to 1/2 in, waterlines to 1 in and masses to
    2 %, with 20 kg wrong in one group, the right group is first in 80 % and among the first three in 99 % where groups
    keep apart (76 and 99 % without the height), in 67 and 96 % where wings, cockpit and fuselage overlap (64 and 94 %);
    with masses known to 4 %, in 53 and 82 % (48 and 80 %). An engine 4 in off its place comes first in 87 %, one 2 in
    off in 38 %, for the rest is within the errors.

    References
    ----------
    Jeffreys, Theory of Probability, chapter 5 (comparison of hypotheses; from memory).
    """
    found = gap(there, weighed)
    moving = engine_elsewhere(found, there)
    candidates = [
        *groups(found, there, weighed.mass_kg),
        *pilot_and_fuel(found, absent, useful, left_out=False),
        *pilot_and_fuel(found, there, useful, left_out=True),
    ]
    span = _span((*there, *absent))
    candidates = [one for one in candidates if one.left_out is None or _fits(found, one.cause, span)]
    tests = [explained(found, cause) for cause in (*moving, *(candidate.cause for candidate in candidates))]
    alone, *odds = _probabilities([found.evidence, *(test.evidence for test in tests)])
    count, significant = len(moving), found.probability < SIGNIFICANT
    ranked = sorted(zip(odds[count:], candidates, tests[count:], strict=True), key=lambda row: -row[0])
    odds_of, first, best = ranked[0]
    aboard = significant and first.left_out is not None and odds_of == max(odds)
    engine = [EngineElsewhere(test.size, test.size_error, odds[0]) for test in tests[:count] if significant]
    return Suspects(
        gap_station_m=found.station_m,
        chi_square=found.chi_square,
        gap_probability=found.probability,
        errors_alone_probability=alone,
        one_group_explains=_one_explains(found, _left(tests[:count], ranked)),
        suspicions=tuple(_suspicion(*row) for row in ranked if significant and row[1].left_out is None),
        aboard=_guess(first, best, odds_of) if aboard else None,
        engine=engine[0] if engine else None,
        with_height=len(found.datum) > 1,
    )


def _probabilities(evidences: Sequence[float]) -> list[float]:
    """Return the probabilities of causes that were equally probable before."""
    top = max(evidences)
    weights = [exp(evidence - top) for evidence in evidences]
    return [weight / sum(weights) for weight in weights]


def _left(moved: Sequence[Explained], ranked: Sequence[tuple[float, Candidate, Explained]]) -> list[float]:
    """Return the chi-square that the engine elsewhere and each group leave."""
    return [test.chi_square for test in (*moved, *(test for _, one, test in ranked if one.left_out is None))]


def _one_explains(found: Gap, left: Sequence[float]) -> bool:
    """Return whether the least chi-square left, one degree of freedom fewer, is not significant."""
    return chance(min(left), len(found.datum)) > SIGNIFICANT


def _span(items: Sequence[Item]) -> tuple[float, float]:
    stations = [item.station_m for item in items]
    return min(stations), max(stations)


def _fits(found: Gap, load: Cause, span: tuple[float, float]) -> bool:
    """Return whether a load aboard or left out does not contradict the gap: its mass and station are those of the gap.

    They are not where what it leaves is significant, its own mass counted with the error that it may have, nor where
    the gap would sit outside the airplane.
    """
    if found.station_m is None or not span[0] <= found.station_m <= span[1]:
        return False
    test = explained(found, load)
    left = test.chi_square + ((test.size - load.mean) / load.deviation) ** 2
    return chance(left, len(found.values)) > SIGNIFICANT


def _suspicion(probability: float, candidate: Candidate, test: Explained) -> Suspicion:
    return Suspicion(
        group=candidate.group,
        estimate_kg=total_kg(candidate.items),
        estimate_error_kg=hypot(*(item.mass_error_kg for item in candidate.items)),
        correction_kg=test.size,
        correction_error_kg=test.size_error,
        correction_moment_n_m=test.size * test.station_m * GRAVITY_M_S2,
        probability=probability,
        chi_square=test.chi_square,
    )


def _guess(candidate: Candidate, test: Explained, probability: float) -> AboardGuess:
    return AboardGuess(
        group=candidate.group,
        items=tuple(item.name for item in candidate.items),
        whole=candidate.whole,
        left_out=bool(candidate.left_out),
        mass_kg=total_kg(candidate.items),
        station_m=test.station_m,
        probability=probability,
    )
