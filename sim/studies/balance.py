"""Weights and balance: what the airplane weighs, where its centre of gravity goes, and where the engine must stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.airframe.loading import PILOT, loadings
from sim.airframe.masses import Inertia, Item, total
from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.model.weights import USEFUL, chosen, item_list, wing_chord
from sim.studies.balance_remarks import remarks
from sim.studies.engine_position import Position, engine_keys
from sim.studies.weighing import WeighingAnswer, weighing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.mean_chord import MeanChord
    from sim.scenario.shop import BalanceTable
    from sim.scenario.tables import Scenario


@dataclass(frozen=True, slots=True)
class Point:
    """One loading of the envelope.

    Attributes
    ----------
    name : str
        Who flies, and what is in the tanks.
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
class Part:
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
        Limits and wish. [% of the mean chord, m]
    engine_station_m : float
        As drawn. [m]
    engine_move_m : float
        To the target, aft positive. [m]
    cg_per_half_inch_percent_mac : float
        For each half inch that the engine goes. [% of the mean chord]
    ballast_kg : float or None
        Ballast that would do instead of the move; None where it hangs on the wrong side. [kg]
    ballast_per_half_inch_kg : float or None
        Ballast that does what half an inch of engine does. [kg]
    serves_from_m, serves_to_m : float or None
        Moves that keep every loading within the limits; None where there is none. [m]
    positions : tuple of Position
        Steps of 1/8 in.
    envelope : tuple of Point
        Every loading, from full tanks to empty.
    items : tuple of Part
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
    positions: tuple[Position, ...]
    envelope: tuple[Point, ...]
    items: tuple[Part, ...]
    weighing: WeighingAnswer | None
    remarks: tuple[str, ...]


def balance(scenario: Scenario, powerplant: str | None = None) -> BalanceAnswer:
    """Return the balance of a scenario's airplane with one of its engines.

    Parameters
    ----------
    scenario : Scenario
        With the tables item, balance and layout.
    powerplant : str or None
        Name of one of its powerplants; None for the balance table's, else the first.

    Raises
    ------
    InputError
        What is missing, and a weighing that cannot be right.
    NoAnswerError
        When nothing moves with the engine.
    """
    name, table = chosen(scenario, powerplant), scenario.balance
    if table is None:
        what = "is missing: the table with forward_limit and aft_limit is needed to balance"
        raise InputError([Fault("balance", what)])
    items, chord, scales = item_list(scenario, name), wing_chord(scenario), weighing(scenario)
    whole, empty = total(items), total(item for item in items if item.group not in USEFUL)
    points = _envelope(items, table, chord)
    return BalanceAnswer(
        title=scenario.title,
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
        forward_limit_percent_mac=100.0 * table.forward_limit,
        aft_limit_percent_mac=100.0 * table.aft_limit,
        engine_station_m=scenario.powerplant[name].station_m or 0.0,
        envelope=points,
        items=_parts(scenario, items),
        weighing=scales,
        remarks=tuple(remarks(scenario, whole, scales)),
        **engine_keys(
            items, whole, table, chord=chord, flown=[(point.mass_kg, point.cg_station_m) for point in points]
        ),
    )


def _envelope(items: Sequence[Item], table: BalanceTable, chord: MeanChord) -> tuple[Point, ...]:
    usual_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    named = (table.pilot_lightest_kg, usual_kg, table.pilot_heaviest_kg) if usual_kg > 0.0 else (0.0,)
    pilots = sorted({kg for kg in named if kg is not None})
    return tuple(
        Point(
            point.name,
            point.mass_kg,
            point.cg_station_m,
            (percent := chord.percent(point.cg_station_m)),
            100.0 * table.forward_limit <= percent <= 100.0 * table.aft_limit,
        )
        for point in loadings(items, pilots)
    )


def _parts(scenario: Scenario, items: Sequence[Item]) -> tuple[Part, ...]:
    from_past = {row.name for row in scenario.item if row.mass_kg is None}
    return tuple(
        Part(item.name, item.group, item.mass_kg, item.mass_error_kg, item.station_m, item.name in from_past)
        for item in items
    )
