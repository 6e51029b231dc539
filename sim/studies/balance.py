"""Weights and balance: what the airplane weighs, where its centre of gravity goes, and where the engine must stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.engine_position import (
    EnginePosition,
    ballast_kg,
    move_to_target,
    moves_that_serve,
    positions,
)
from sim.airframe.loading import PILOT, USEFUL, CgLimits, loadings
from sim.airframe.masses import Inertia, total
from sim.answer import Answer
from sim.studies.balance_remarks import remarks
from sim.studies.weighing import WeighingAnswer, weighing
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.loading import Loading
    from sim.airframe.masses import Item, Total
    from sim.airframe.mean_chord import MeanChord
    from sim.model.model import Model
    from sim.model.weights import Weights

HALF_INCH_M = 0.5 * INCH_M


@dataclass(frozen=True, slots=True)
class EnvelopePoint:
    """One loading of the envelope.

    Attributes
    ----------
    name : str
        Pilot and state of the tanks.
    mass_kg, cg_station_m, cg_percent_mac : float
        [kg, m, % of the mean chord]
    inside : bool
        Whether it is within the limits, the engine where it is drawn.
    """

    name: str
    mass_kg: float
    cg_station_m: float
    cg_percent_mac: float
    inside: bool


@dataclass(frozen=True, slots=True)
class CountedItem:
    """One item as it was counted.

    Attributes
    ----------
    name, group : str
        As in the scenario.
    mass_kg, mass_error_kg, station_m : float
        [kg, kg, m]
    from_past : bool
        Whether its mass is a share of past builds.
    """

    name: str
    group: str
    mass_kg: float
    mass_error_kg: float
    station_m: float
    from_past: bool


@dataclass(frozen=True, slots=True)
class BalanceAnswer(Answer):
    """The airplane with one engine where it is drawn, and where that engine should be.

    Attributes
    ----------
    title, powerplant : str
        What was balanced.
    mass_kg, mass_error_kg, cg_station_m, cg_error_m, cg_waterline_m, cg_percent_mac : float
        Loaded. [kg, kg, m, m, m, % of the mean chord]
    inertia_kg_m2 : Inertia
        About the loaded centre of gravity. [kg m²]
    empty_mass_kg, empty_cg_station_m : float
        Without pilot and fuel. [kg, m]
    chord_m, leading_edge_station_m : float
        The mean chord. [m]
    forward_limit_percent_mac, aft_limit_percent_mac, target_percent_mac, target_station_m : float
        Limits and target. [% of the mean chord, m]
    engine_station_m : float
        As drawn. [m]
    engine_move_m : float
        To the target, aft positive. [m]
    cg_per_half_inch_percent_mac : float
        For each half inch that the engine moves. [% of the mean chord]
    ballast_kg : float or None
        Ballast in place of the move; None where it would be on the wrong side. [kg]
    ballast_per_half_inch_kg : float or None
        Ballast equivalent to half an inch of engine movement. [kg]
    serves_from_m, serves_to_m : float or None
        Moves that keep every loading within the limits; None where there is none. [m]
    positions : tuple of EnginePosition
        Steps of 1/8 in.
    envelope : tuple of EnvelopePoint
        Every loading, from full tanks to empty.
    items : tuple of CountedItem
        What was counted.
    weighing : WeighingAnswer or None
        The scales beside the estimate.
    remarks : tuple of str
        What the reader must know.
    """

    main: ClassVar[str] = "envelope"

    title: str
    powerplant: str
    mass_kg: float
    mass_error_kg: float
    cg_station_m: float
    cg_error_m: float
    cg_waterline_m: float
    cg_percent_mac: float
    inertia_kg_m2: Inertia
    empty_mass_kg: float
    empty_cg_station_m: float
    chord_m: float
    leading_edge_station_m: float
    forward_limit_percent_mac: float
    aft_limit_percent_mac: float
    target_percent_mac: float
    target_station_m: float
    engine_station_m: float
    engine_move_m: float
    cg_per_half_inch_percent_mac: float
    ballast_kg: float | None
    ballast_per_half_inch_kg: float | None
    serves_from_m: float | None
    serves_to_m: float | None
    positions: tuple[EnginePosition, ...]
    envelope: tuple[EnvelopePoint, ...]
    items: tuple[CountedItem, ...]
    weighing: WeighingAnswer | None
    remarks: tuple[str, ...]


def balance(model: Model, *, powerplant: str | None = None) -> BalanceAnswer:
    """Return the balance of an airplane with one of its engines.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables item, balance and layout.
    powerplant : str or None
        Name of one of its powerplants; None for the balance table's, else the first.

    Raises
    ------
    InputError
        What is missing, and a weighing that cannot be right.
    NoAnswerError
        When nothing moves with the engine.
    """
    name, limits = model.usual_powerplant(powerplant).name, model.limits
    weights, chord, scales = model.weights(name), model.mean_chord, weighing(model)
    whole, empty = total(weights.items), total(item for item in weights.items if item.group not in USEFUL)
    flown = loadings(weights.items, _pilots_kg(weights.items, limits))
    target_m, moved_kg = chord.station_m(limits.target), sum(item.mass_kg for item in weights.moving)
    move_m = _move_m(whole, target_m, moved_kg)
    shift_m = HALF_INCH_M * moved_kg / whole.mass_kg
    served_m = _served_m(flown, limits, chord, moved_kg)
    return BalanceAnswer(
        title=model.title,
        powerplant=name,
        mass_kg=whole.mass_kg,
        mass_error_kg=whole.mass_error_kg,
        cg_station_m=whole.cg_station_m,
        cg_error_m=whole.cg_error_m,
        cg_waterline_m=whole.cg_waterline_m,
        cg_percent_mac=chord.percent(whole.cg_station_m),
        inertia_kg_m2=whole.inertia_kg_m2,
        empty_mass_kg=empty.mass_kg,
        empty_cg_station_m=empty.cg_station_m,
        chord_m=chord.chord_m,
        leading_edge_station_m=chord.leading_edge_station_m,
        forward_limit_percent_mac=100.0 * limits.forward_limit,
        aft_limit_percent_mac=100.0 * limits.aft_limit,
        target_percent_mac=100.0 * limits.target,
        target_station_m=target_m,
        engine_station_m=weights.engine_station_m,
        engine_move_m=move_m,
        cg_per_half_inch_percent_mac=100.0 * shift_m / chord.chord_m,
        ballast_kg=_ballast_kg(whole, limits, target_m),
        ballast_per_half_inch_kg=_ballast_kg(whole, limits, whole.cg_station_m + shift_m),
        serves_from_m=served_m[0],
        serves_to_m=served_m[1],
        positions=_positions(whole, chord, move_m, moved_kg),
        envelope=tuple(_point(loading, limits, chord) for loading in flown),
        items=tuple(_counted(weights)),
        weighing=scales,
        remarks=tuple(remarks(model, weights, whole, scales)),
    )


def _move_m(whole: Total, target_m: float, moved_kg: float) -> float:
    return move_to_target(
        mass_kg=whole.mass_kg, cg_station_m=whole.cg_station_m, target_station_m=target_m, moved_mass_kg=moved_kg
    )


def _pilots_kg(items: Sequence[Item], limits: CgLimits) -> list[float]:
    usual_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    if usual_kg <= 0.0:
        return [0.0]
    return sorted({kg for kg in (limits.pilot_lightest_kg, usual_kg, limits.pilot_heaviest_kg) if kg is not None})


def _served_m(
    flown: Sequence[Loading], limits: CgLimits, chord: MeanChord, moved_kg: float
) -> tuple[float, float] | tuple[None, None]:
    found = moves_that_serve(
        flown,
        moved_mass_kg=moved_kg,
        forward_limit_m=chord.station_m(limits.forward_limit),
        aft_limit_m=chord.station_m(limits.aft_limit),
    )
    return found or (None, None)


def _ballast_kg(whole: Total, limits: CgLimits, wanted_m: float) -> float | None:
    if limits.ballast_station_m is None:
        return None
    return ballast_kg(
        mass_kg=whole.mass_kg,
        cg_station_m=whole.cg_station_m,
        target_station_m=wanted_m,
        ballast_station_m=limits.ballast_station_m,
    )


def _positions(whole: Total, chord: MeanChord, move_m: float, moved_kg: float) -> tuple[EnginePosition, ...]:
    """Return steps over an inch each way, or to the target where that is farther."""
    return positions(
        mass_kg=whole.mass_kg,
        cg_station_m=whole.cg_station_m,
        moved_mass_kg=moved_kg,
        first_move_m=min(-INCH_M, move_m),
        last_move_m=max(INCH_M, move_m),
        chord=chord,
    )


def _point(loading: Loading, limits: CgLimits, chord: MeanChord) -> EnvelopePoint:
    percent = chord.percent(loading.cg_station_m)
    inside = 100.0 * limits.forward_limit <= percent <= 100.0 * limits.aft_limit
    return EnvelopePoint(loading.name, loading.mass_kg, loading.cg_station_m, percent, inside=inside)


def _counted(weights: Weights) -> Iterator[CountedItem]:
    for item in weights.items:
        from_past = item.name in weights.from_past
        yield CountedItem(
            item.name, item.group, item.mass_kg, item.mass_error_kg, station_m=item.station_m, from_past=from_past
        )
