"""The answer of a balance: weight and centre of gravity with each loading, and where the engine must stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer

if TYPE_CHECKING:
    from sim.airframe.engine_position import EnginePosition
    from sim.airframe.masses import Inertia
    from sim.model.weighing_answer import WeighingAnswer
    from sim.studies.cg_limits import PowerplantBalance


@dataclass(frozen=True, slots=True)
class EnvelopePoint:
    """One loading of the envelope.

    Attributes
    ----------
    name : str
        Who and what is aboard, and the state of the tanks.
    mass_kg, cg_station_m, cg_error_m, cg_percent_mac : float
        The centre of gravity with its standard error. [kg, m, m, % of the mean chord]
    inside : bool
        Whether it is within the limits.
    inside_probability : float
        Probability of that, by the standard error.
    static_margin_percent_mac : float or None
        Neutral point less centre of gravity, positive where stable; None where there is no neutral point. [%]
    """

    name: str
    mass_kg: float
    cg_station_m: float
    cg_error_m: float
    cg_percent_mac: float
    inside: bool
    inside_probability: float
    static_margin_percent_mac: float | None


@dataclass(frozen=True, slots=True)
class CountedItem:
    """One item as it was counted.

    Attributes
    ----------
    name, group : str
        As in the scenario.
    mass_kg, mass_error_kg, station_m : float
        As corrected by the scales where the airplane was weighed. [kg, kg, m]
    listed_kg : float
        As listed. [kg]
    from_past : bool
        Whether its listed mass is a share of past builds.
    """

    name: str
    group: str
    mass_kg: float
    mass_error_kg: float
    station_m: float
    listed_kg: float
    from_past: bool


@dataclass(frozen=True, slots=True)
class BallastPlace:
    """Ballast at one place.

    Attributes
    ----------
    place : str
        Its name.
    station_m : float
        Aft of the datum. [m]
    to_target_kg : float or None
        Ballast that brings the loaded centre of gravity to the target; None on the wrong side of it. [kg]
    least_kg, most_kg : float or None
        Ballast with which every loading is within the limits; None where none serves. [kg]
    """

    place: str
    station_m: float
    to_target_kg: float | None
    least_kg: float | None
    most_kg: float | None


@dataclass(frozen=True, slots=True)
class ItemShift:
    """An item moved in place of the engine.

    Attributes
    ----------
    item : str
        Its name.
    shift_m, station_m : float
        Its move to bring the loaded centre of gravity to the target, aft positive, and where it then is. [m]
    move_m : float
        That move with the one that the scenario gives already: what its key ``move`` would hold. [m]
    """

    item: str
    shift_m: float
    station_m: float
    move_m: float


@dataclass(frozen=True, slots=True)
class BalanceAnswer(Answer):
    """The airplane with one engine, and where that engine should be.

    Attributes
    ----------
    title, powerplant : str
        What was balanced.
    as_weighed : bool
        Whether scales corrected the item list.
    mass_kg, mass_error_kg, cg_station_m, cg_error_m, cg_waterline_m, cg_waterline_error_m, cg_percent_mac : float
        Loaded. [kg, kg, m, m, m, m, % of the mean chord]
    cg_buttline_m : float
        Of the loaded airplane by its items, right of the plane of symmetry; scales correct it no more than the masses
        do. [m]
    inertia_kg_m2 : Inertia
        About the loaded centre of gravity. [kg m²]
    empty_mass_kg, empty_cg_station_m : float
        Without occupants, baggage and fuel. [kg, m]
    chord_m, leading_edge_station_m : float
        The mean chord. [m]
    forward_limit_percent_mac, aft_limit_percent_mac, target_percent_mac, target_station_m : float
        Limits and target. [% of the mean chord, m]
    engine_station_m : float
        Where the engine stands. [m]
    moved_m : float
        How far that is from where it is drawn, aft positive. [m]
    engine_move_m, engine_move_error_m : float
        From there to the target, aft positive, and its standard error: of masses and places, and of the target itself
        where wing or layout state a ±. [m]
    target_move_m : float
        To the target from where it is drawn, aft positive, with the same standard error. [m]
    outside_at_target : tuple of str
        Loadings outside the limits with the engine there.
    cg_per_half_inch_percent_mac : float
        For each half inch that the engine moves. [% of the mean chord]
    step_m : float
        From one of the positions to the next. [m]
    cg_per_step_percent_mac : float
        For each such step. [% of the mean chord]
    ballast_kg : float or None
        Tail ballast in place of the move; None where it would be on the wrong side. [kg]
    ballast_per_step_kg : float or None
        Tail ballast with the effect of one step. [kg]
    ballast : tuple of BallastPlace
        Every place for it, that which takes least first.
    shifts : tuple of ItemShift
        Batteries and tanks that could move in the place of the engine.
    serves_from_m, serves_to_m : float or None
        Moves that keep every loading within the limits; None where there is none. [m]
    pilot_least_kg, pilot_most_kg : float or None
        Pilots with whom every loading is within the limits, the engine where it stands; None where there is none, or
        no bound. [kg]
    pilots_kg : tuple of float
        Pilots of the envelope: lightest, listed and heaviest, as far as given; empty without one in the list. [kg]
    positions : tuple of EnginePosition
        Of the engine, a step apart.
    envelope : tuple of EnvelopePoint
        Every loading, from full tanks to empty.
    powerplants : dict of PowerplantBalance
        The airplane with each of its engines.
    items : tuple of CountedItem
        What was counted.
    weighing : WeighingAnswer or None
        The scales beside the estimate.
    remarks : tuple of str
        What the reader must know.
    """

    main: ClassVar[str] = "envelope"
    headline: ClassVar[tuple[str, ...]] = (
        "mass_kg",
        "cg_station_m",
        "cg_percent_mac",
        "static_margin_percent_mac",
        "target_move_m",
        "empty_mass_kg",
    )

    title: str
    powerplant: str
    as_weighed: bool
    mass_kg: float
    mass_error_kg: float
    cg_station_m: float
    cg_error_m: float
    cg_waterline_m: float
    cg_waterline_error_m: float
    cg_buttline_m: float
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
    moved_m: float
    engine_move_m: float
    engine_move_error_m: float
    target_move_m: float
    outside_at_target: tuple[str, ...]
    cg_per_half_inch_percent_mac: float
    step_m: float
    cg_per_step_percent_mac: float
    ballast_kg: float | None
    ballast_per_step_kg: float | None
    ballast: tuple[BallastPlace, ...]
    shifts: tuple[ItemShift, ...]
    serves_from_m: float | None
    serves_to_m: float | None
    pilot_least_kg: float | None
    pilot_most_kg: float | None
    pilots_kg: tuple[float, ...]
    positions: tuple[EnginePosition, ...]
    envelope: tuple[EnvelopePoint, ...]
    powerplants: dict[str, PowerplantBalance]
    items: tuple[CountedItem, ...]
    weighing: WeighingAnswer | None
    remarks: tuple[str, ...]
