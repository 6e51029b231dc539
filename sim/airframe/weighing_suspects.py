"""What one error would explain a gap between item list and scales: a group, a place, a scale, somebody aboard."""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.weighing_attitudes import attitudes_elsewhere
from sim.airframe.weighing_causes import total_kg
from sim.airframe.weighing_data import LIMIT
from sim.airframe.weighing_findings import (
    AboardGuess,
    CauseKinds,
    EngineElsewhere,
    ItemElsewhere,
    ScaleMisread,
    SupportElsewhere,
    Suspicion,
    UnitSlip,
)
from sim.airframe.weighing_gap import chance, explained, gap, gap_with_height
from sim.airframe.weighing_sides import side
from sim.airframe.weighing_stands import under_the_wheels
from sim.airframe.weighing_suspected import Suspects
from sim.airframe.weighing_tested import SIGNIFICANT, Tested, doubts, height_m, span_of, tested, within
from sim.atmosphere import GRAVITY_M_S2

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_attitudes import AttitudeElsewhere
    from sim.airframe.weighing_causes import Kind
    from sim.airframe.weighing_data import Weighed, Weighing
    from sim.airframe.weighing_gap import Gap


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
    Each cause stands for itself, all else right within its errors, and all have the same probability before the scales
    are read: no error but the stated ones; each group, wrong by an unknown mass (normal, half with 5 % of the
    airplane's mass and half with a quarter of its own, no item below 0), sitting with one half at the group's centre
    and with the other at one of its items, by their masses; the engine, with all that moves with it, at another
    station (normal, 0.1 m); the station of an item in the list (2 m, all items together as half a cause), or the unit
    of its mass (all together as half of one); the supports of each axle at another station (normal, 0.05 m, and in a
    tenth 1 m), a wheel that is not abreast of the other five times as probable; a scale under each axle, wrong as a
    group may be; each pilot, passenger or tank, and each such group as a whole, aboard or left out (its listed mass
    within 10 %), where that does not contradict mass and station of the gap. The readings, mass, moment and height,
    tell where a mass sits, not whose it is: groups at about the same place share the probability. Whether there is a
    gap at all, mass, moment and height decide; between causes the buttline counts too, see
    `sim.airframe.weighing_sides`.

    In simulated biplanes of twenty items in eight groups, stations known to 1/2 in, waterlines to 1 in and masses to
    2 %, with 20 kg wrong in one group, the right group is the first of the groups in 80 % and among the first three in
    99 % where groups keep apart, in 66 and 96 % where wings, cockpit and fuselage overlap, and with masses known to 4 %
    in 52 and 82 %. One who knew that exactly 20 kg are wrong in one group, and asked for nothing else, would have it
    first in 82, 69 and 58 %: where groups overlap the readings tell no more. Supports and scales make the gap that an
    engine elsewhere, the gear or the tail makes: an engine 4 in off its place is first of all causes in 55 % and among
    the first two in 89 %; a load that was right is called nearly certain in 0.2 %.

    References
    ----------
    Jeffreys, Theory of Probability, chapter 5 (comparison of hypotheses; from memory).
    """
    found = gap(there, weighed)
    causes = tested(found, there, absent, useful, weighed=weighed, readings=readings)
    buttline_z_score = side(there, weighed).z_score
    significant = found.probability < SIGNIFICANT or abs(buttline_z_score) > LIMIT
    named = causes if significant else []
    ranked, loads = ([one for one in named if one.candidate.kind == kind] for kind in ("group", "load"))
    aboard = loads and loads[0].probability == max(one.probability for one in named)
    stood = _supports(named)
    return Suspects(
        gap_station_m=within(found.station_m, span_of((*there, *absent))),
        chi_square=found.chi_square,
        gap_probability=found.probability,
        kinds=_kinds(causes),
        one_cause_explains=_one_explains(found, causes),
        suspicions=tuple(_suspicion(one) for one in ranked),
        aboard=_guess(loads[0]) if aboard else None,
        engine=next((_engine(one) for one in named if one.candidate.kind == "engine"), None),
        item=next((_item(one) for one in named if one.candidate.kind == "station"), None),
        unit_slip=next((_unit(one) for one in named if one.candidate.kind == "unit"), None),
        supports=stood,
        scales=tuple(_misread(one) for one in named if one.candidate.kind == "scale"),
        explains_height=_of_height(there, weighed, readings) if len(found.datum) == 1 else None,
        attitudes=_attitudes(there, found, weighed, readings),
        with_height=len(found.datum) > 1,
        buttline_z_score=buttline_z_score,
        doubts=doubts(found, named, weighed),
    )


def _attitudes(
    there: Sequence[Item], found: Gap, weighed: Weighed, readings: Weighing | None
) -> tuple[AttitudeElsewhere, ...]:
    """Return attitudes that would make the height agree, where it contradicts the list."""
    contradicts = len(found.datum) == 1 and gap_with_height(there, weighed) is not None
    return attitudes_elsewhere(there, readings) if contradicts and readings is not None else ()


def _kinds(causes: Iterable[Tested]) -> CauseKinds:
    causes = list(causes)

    def of(*kinds: Kind) -> float:
        return sum(one.probability for one in causes if one.candidate.kind in kinds)

    return CauseKinds(
        listed_mass_probability=of("group", "unit"),
        load_probability=of("load"),
        station_probability=of("station"),
        engine_probability=of("engine"),
        supports_probability=of("support"),
        scales_probability=of("scale"),
        errors_alone_probability=max(1.0 - sum(one.probability for one in causes), 0.0),
    )


def _one_explains(found: Gap, causes: Iterable[Tested]) -> bool:
    """Return whether the least chi-square left, one degree of freedom fewer, is not significant.

    What a cause of a known size leaves, a load or a unit, does not count: it has no degree of freedom fewer.
    """
    left = min(one.test.chi_square for one in causes if one.candidate.kind not in ("load", "unit"))
    return chance(left, len(found.datum)) > SIGNIFICANT


def _of_height(there: Sequence[Item], weighed: Weighed, readings: Weighing | None) -> SupportElsewhere | None:
    """Return the support that, elsewhere, leaves nothing significant of mass, station and height; None for none."""
    whole = gap_with_height(there, weighed)
    if whole is None or readings is None:
        return None
    under = under_the_wheels(whole, readings, weighed, height_m(there))
    tested = [Tested(one, explained(whole, one.cause), 1.0) for one in under if one.kind == "support"]
    sound = [one for one in tested if chance(one.test.chi_square, len(whole.datum)) > SIGNIFICANT]
    names = {one.candidate.names for one in sound}
    return _elsewhere(max(sound, key=lambda one: one.test.evidence)) if len(names) == 1 else None


def _suspicion(found: Tested) -> Suspicion:
    items, test = found.candidate.items, found.test
    return Suspicion(
        group=found.candidate.names[0],
        estimate_kg=total_kg(items),
        estimate_error_kg=hypot(*(item.mass_error_kg for item in items)),
        correction_kg=test.size,
        correction_error_kg=test.size_error,
        correction_moment_n_m=test.size * test.station_m * GRAVITY_M_S2,
        probability=found.probability,
        chi_square=test.chi_square,
    )


def _engine(found: Tested) -> EngineElsewhere:
    return EngineElsewhere(found.test.size, found.test.size_error, found.probability)


def _item(found: Tested) -> ItemElsewhere:
    (item,) = found.candidate.items
    return ItemElsewhere(item.name, item.station_m, found.test.size, found.test.size_error, found.probability)


def _unit(found: Tested) -> UnitSlip:
    (item,) = found.candidate.items
    return UnitSlip(item.name, item.mass_kg, item.mass_kg + found.candidate.cause.mean, found.probability)


def _supports(named: Sequence[Tested]) -> tuple[SupportElsewhere, ...]:
    """Return supports elsewhere, each once: a wheel alone and out of line with the other is the same cause."""
    found: dict[tuple[str, ...], SupportElsewhere] = {}
    for one in named:
        if one.candidate.kind == "support":
            first = found.get(one.candidate.names)
            more = _elsewhere(one)
            found[one.candidate.names] = (
                replace(first, probability=first.probability + more.probability) if first else more
            )
    return tuple(sorted(found.values(), key=lambda one: -one.probability))


def _elsewhere(found: Tested) -> SupportElsewhere:
    return SupportElsewhere(found.candidate.names, found.test.size, found.test.size_error, found.probability)


def _misread(found: Tested) -> ScaleMisread:
    return ScaleMisread(found.candidate.names[0], found.test.size, found.test.size_error, found.probability)


def _guess(found: Tested) -> AboardGuess:
    candidate = found.candidate
    return AboardGuess(
        group=candidate.names[0],
        items=tuple(item.name for item in candidate.items),
        whole=candidate.whole,
        left_out=candidate.left_out,
        mass_kg=total_kg(candidate.items),
        station_m=found.test.station_m,
        probability=found.probability,
    )
