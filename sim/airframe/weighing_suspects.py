"""What one error would explain a gap between item list and scales: a group, a place, a scale, somebody aboard."""

from __future__ import annotations

from math import exp, hypot
from typing import TYPE_CHECKING

from sim.airframe.weighing_causes import engine_elsewhere, groups, pilot_and_fuel, total_kg
from sim.airframe.weighing_findings import (
    AboardGuess,
    CauseKinds,
    EngineElsewhere,
    ScaleMisread,
    SupportElsewhere,
    Suspects,
    Suspicion,
)
from sim.airframe.weighing_gap import chance, explained, gap
from sim.airframe.weighing_stands import stands
from sim.atmosphere import GRAVITY_M_S2

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_causes import Candidate
    from sim.airframe.weighing_data import Weighed, Weighing
    from sim.airframe.weighing_gap import Cause, Explained, Gap
    from sim.airframe.weighing_stands import Stand

SIGNIFICANT = 0.04
"""A suspect is named where the stated errors alone make so large a gap with less than this probability, a little below
1 in 20: 3.9 % of 16,000 simulated airplanes without an error name one with the height, 3.7 % without."""


def suspects(
    there: Sequence[Item],
    absent: Sequence[Item],
    useful: Sequence[str],
    weighed: Weighed,
    *,
    readings: Weighing | None = None,
) -> Suspects:
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
    readings : Weighing or None
        Of the scales, for supports and scales as causes; None leaves them out.

    Notes
    -----
    Each cause stands for itself, all else right within its errors, and all have the same probability before the
    scales are read: no error but the stated ones; each group, wrong by an unknown mass (normal, 5 % of the airplane's
    mass, no item below 0), sitting with one half at the group's centre and with the other at one of its items, by
    their masses; the engine, with all that moves with it, at another station (normal, 0.1 m); the supports of each axle
    at another station (normal, 0.05 m); a scale of each axle, wrong as a group may be; each pilot, passenger or
    tank, and each such group as a whole, aboard or left out (its listed mass within 10 %), where that does not
    contradict mass and station of the gap. The readings, mass, moment and height, tell where a mass sits, not whose it
    is: groups at about the same place share the probability.

    In simulated biplanes of twenty items in eight groups, stations known to 1/2 in, waterlines to 1 in and masses to
    2 %, with 20 kg wrong in one group, the right group is the first of the groups in 78 % and among the first three in
    99 % where groups keep apart, in 66 and 96 % where wings, cockpit and fuselage overlap, and with masses known to 4 %
    in 52 and 82 %. One who knew that exactly 20 kg are wrong in one group, and asked for nothing else, would have it
    first in 84, 66 and 58 %: where groups overlap the readings tell no more. Supports and scales make the gap that an
    engine elsewhere, the gear or the tail makes: an engine 4 in off its place is first of all causes in 52 % and among
    the first two in 90 %; a load that was right is called nearly certain in 0.2 %.

    References
    ----------
    Jeffreys, Theory of Probability, chapter 5 (comparison of hypotheses; from memory).
    """
    found = gap(there, weighed)
    moving = engine_elsewhere(found, there)
    under = () if readings is None else tuple(stands(found, readings, weighed, _height_m(there)))
    places = (*moving, *(one.cause for one in under))
    candidates = [
        *groups(found, there, weighed.mass_kg),
        *pilot_and_fuel(found, absent, useful, left_out=False),
        *pilot_and_fuel(found, there, useful, left_out=True),
    ]
    span = _span((*there, *absent))
    candidates = [one for one in candidates if one.left_out is None or _fits(found, one.cause, span)]
    tests = [explained(found, cause) for cause in (*places, *(candidate.cause for candidate in candidates))]
    alone, *odds = _probabilities([found.evidence, *(test.evidence for test in tests)])
    count, significant = len(places), found.probability < SIGNIFICANT
    ranked = sorted(zip(odds[count:], candidates, tests[count:], strict=True), key=lambda row: -row[0])
    odds_of, first, best = ranked[0]
    aboard = significant and first.left_out is not None and odds_of == max(odds)
    engine = [EngineElsewhere(test.size, test.size_error, odds[0]) for test in tests[: len(moving)] if significant]
    stood = list(zip(under, tests[len(moving) : count], odds[len(moving) : count], strict=True))
    return Suspects(
        gap_station_m=_within(found.station_m, (*there, *absent)),
        chi_square=found.chi_square,
        gap_probability=found.probability,
        kinds=_kinds(alone, sum(odds[: len(moving)]), stood, ranked),
        one_cause_explains=_one_explains(found, _left(tests[:count], ranked)),
        suspicions=tuple(_suspicion(*row) for row in ranked if significant and row[1].left_out is None),
        aboard=_guess(first, best, odds_of) if aboard else None,
        engine=engine[0] if engine else None,
        supports=tuple(_elsewhere(*row) for row in stood if significant and not row[0].misread),
        scales=tuple(_misread(*row) for row in stood if significant and row[0].misread),
        with_height=len(found.datum) > 1,
    )


def _within(station_m: float | None, items: Sequence[Item]) -> float | None:
    """Return a station where it lies among those of the items, else None: nothing of an airplane sits outside it."""
    least_m, most_m = _span(items)
    return station_m if station_m is not None and least_m <= station_m <= most_m else None


def _probabilities(evidences: Sequence[float]) -> list[float]:
    """Return the probabilities of causes that were equally probable before."""
    top = max(evidences)
    weights = [exp(evidence - top) for evidence in evidences]
    return [weight / sum(weights) for weight in weights]


def _kinds(
    alone: float,
    engine: float,
    stood: Sequence[tuple[Stand, Explained, float]],
    ranked: Sequence[tuple[float, Candidate, Explained]],
) -> CauseKinds:
    return CauseKinds(
        listed_mass_probability=sum(share for share, one, _ in ranked if one.left_out is None),
        load_probability=sum(share for share, one, _ in ranked if one.left_out is not None),
        engine_probability=engine,
        supports_probability=sum(share for one, _, share in stood if not one.misread),
        scales_probability=sum(share for one, _, share in stood if one.misread),
        errors_alone_probability=alone,
    )


def _left(moved: Sequence[Explained], ranked: Sequence[tuple[float, Candidate, Explained]]) -> list[float]:
    """Return the chi-square that an engine, a support or a scale and each group leave."""
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


def _elsewhere(stand: Stand, test: Explained, probability: float) -> SupportElsewhere:
    return SupportElsewhere(stand.supports, test.size, test.size_error, probability)


def _misread(stand: Stand, test: Explained, probability: float) -> ScaleMisread:
    return ScaleMisread(stand.supports, test.size, test.size_error, probability)


def _height_m(items: Sequence[Item]) -> float:
    return sum(item.mass_kg * item.waterline_m for item in items) / total_kg(items)


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
