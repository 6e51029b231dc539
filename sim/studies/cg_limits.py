"""Limits of the centre of gravity that follow from physics with each powerplant, beside its weight and its place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.atmosphere import air
from sim.errors import NoAnswerError
from sim.flight.stability_margins import stability_margins
from sim.flight.stick_free import stick_free
from sim.propulsion.thrust import thrust_n
from sim.studies.carried_mass import CarriedMass, carried_mass

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.mean_chord import MeanChord
    from sim.flight.stability_margins import StabilityMargins
    from sim.flight.stick_free import StickFree
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model


POINTS = ("neutral_point", "maneuver_point", "forward_limit_by_elevator", "forward_limit_by_trim")
FREE_POINTS = ("neutral_point_free", "maneuver_point_free")
"""Stems of the fields of margins and answer alike, stick fixed and stick free."""


@dataclass(frozen=True, slots=True)
class PowerplantBalance(CarriedMass):
    """Mass, centre of gravity and its limits by physics with one powerplant, loaded as listed.

    Every error is one standard deviation. Percentages are of the mean chord, aft of its leading edge; None where there
    is no such limit, or no flight that would set it.

    Attributes
    ----------
    neutral_point_percent_mac, neutral_point_error_percent_mac : float or None
        Stick fixed. [%]
    neutral_point_free_percent_mac, neutral_point_free_error_percent_mac : float or None
        Stick free; None where the free elevator does not centre. [%]
    maneuver_point_free_percent_mac, maneuver_point_free_error_percent_mac : float or None
        Likewise. [%]
    static_margin_percent_mac : float or None
        Neutral point less centre of gravity, positive where stable. [%]
    maneuver_point_percent_mac, maneuver_point_error_percent_mac : float or None
        Stick fixed. [%]
    forward_limit_by_elevator_percent_mac, forward_limit_by_elevator_error_percent_mac : float or None
        Foremost place at which full up elevator holds the stall's angle of attack in a glide, as in a flare. [%]
    forward_limit_by_trim_percent_mac, forward_limit_by_trim_error_percent_mac : float or None
        Foremost place at which full up elevator trims the slowest level flight. [%]
    """

    neutral_point_percent_mac: float | None
    neutral_point_error_percent_mac: float | None
    static_margin_percent_mac: float | None
    maneuver_point_percent_mac: float | None
    maneuver_point_error_percent_mac: float | None
    forward_limit_by_elevator_percent_mac: float | None
    forward_limit_by_elevator_error_percent_mac: float | None
    forward_limit_by_trim_percent_mac: float | None
    forward_limit_by_trim_error_percent_mac: float | None
    neutral_point_free_percent_mac: float | None
    neutral_point_free_error_percent_mac: float | None
    maneuver_point_free_percent_mac: float | None
    maneuver_point_free_error_percent_mac: float | None


def powerplant_balances(model: Model) -> dict[str, PowerplantBalance]:
    """Return weight, centre of gravity and its limits with each powerplant, by its name.

    Parameters
    ----------
    model : Model
        Of a scenario that places its wing.

    Notes
    -----
    At the flight condition of the scenario, linear and free of slipstream and ground effect: see
    `sim.flight.stability_margins`. The points are fixed in the airframe, so a loading's margin is read off them.
    """
    return dict(_each(model))


def _each(model: Model) -> Iterator[tuple[str, PowerplantBalance]]:
    for flying in model.airplanes():
        mass = model.flown_mass(flying.name)
        if mass.cg_station_m is not None:
            yield flying.name, _one(model, flying, mass.cg_station_m)


def _one(model: Model, flying: FlyingAirplane, station_m: float) -> PowerplantBalance:
    chord, found = model.mean_chord, margins(flying)
    static_m = found.neutral_point_m if found else None
    carried = carried_mass(model, flying.name)
    return PowerplantBalance(
        mass_kg=carried.mass_kg,
        cg_percent_mac=carried.cg_percent_mac,
        source=carried.source,
        to_target_m=carried.to_target_m,
        static_margin_percent_mac=None if static_m is None else 100.0 * static_m / chord.chord_m,
        **_places(found, POINTS, chord, station_m),
        **_places(free_points(flying) if found else None, FREE_POINTS, chord, station_m),
    )


def _places(
    found: StabilityMargins | StickFree | None, stems: tuple[str, ...], chord: MeanChord, station_m: float
) -> dict[str, float | None]:
    """Return the points and their errors in percent of the mean chord, by the fields of the answer."""
    places: dict[str, float | None] = {}
    for stem in stems:
        distance_m, error_m = getattr(found, f"{stem}_m", None), getattr(found, f"{stem}_error_m", None)
        places[f"{stem}_percent_mac"] = None if distance_m is None else chord.percent(station_m + distance_m)
        places[f"{stem}_error_percent_mac"] = None if error_m is None else 100.0 * error_m / chord.chord_m
    return places


def free_points(flying: FlyingAirplane) -> StickFree:
    """Return neutral point and manoeuvre point of an airplane with the stick free."""
    density = air(flying.altitude_m).density_kg_m3
    return stick_free(flying.airplane, flying.derivatives, flying.controls.elevator, density)


def margins(flying: FlyingAirplane) -> StabilityMargins | None:
    """Return the margins of an airplane; None where it has no flight to take them from."""
    engine = flying.powerplant
    density = air(flying.altitude_m).density_kg_m3
    full = thrust_n(engine.engine_law, engine.propeller_law, density, engine.full_speed_rad_s)
    try:
        return stability_margins(
            flying.airplane, flying.derivatives, flying.travel, altitude_m=flying.altitude_m, full_thrust_n=full
        )
    except NoAnswerError:
        return None
