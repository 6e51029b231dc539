"""Mass and centre of gravity that an airplane flies with in a study, with each of its powerplants."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sim.studies.standing import standing

if TYPE_CHECKING:
    from sim.model.flown_mass import MassSource
    from sim.model.model import Model


@dataclass(frozen=True, slots=True)
class CarriedMass:
    """Mass and centre of gravity with one powerplant, loaded as listed.

    Attributes
    ----------
    mass_kg : float
        [kg]
    cg_percent_mac : float or None
        In percent of the mean chord; None where the scenario places no wing.
    source : str
        ``as weighed``: the item list, corrected by the scales; ``item list``; ``given``: the keys of the scenario.
    to_target_m : float or None
        How far aft its engine would stand at the CG target, where a mount and a report have an engine without a key
        ``move``; None where it has that key, or no place is on target. [m]
    """

    mass_kg: float
    cg_percent_mac: float | None
    source: MassSource
    to_target_m: float | None


@dataclass(frozen=True, slots=True)
class BandedMass(CarriedMass):
    """The same with the 90 % bands.

    Attributes
    ----------
    mass_low_kg, mass_high_kg : float or None
        Ends of the 90 % band; None where no bands were asked for, and of an input without ±. [kg]
    cg_percent_mac_low, cg_percent_mac_high : float or None
        Likewise.
    """

    mass_low_kg: float | None = None
    mass_high_kg: float | None = None
    cg_percent_mac_low: float | None = None
    cg_percent_mac_high: float | None = None


def carried_masses(model: Model, *, bands: bool = False) -> dict[str, BandedMass]:
    """Return mass and centre of gravity with each powerplant, by its name; with their 90 % bands where asked for."""
    return {name: _banded(model, name) if bands else BandedMass(*_carried(model, name)) for name in model.powerplants}


def carried_mass(model: Model, powerplant: str) -> CarriedMass:
    """Return mass and centre of gravity with one powerplant."""
    return CarriedMass(*_carried(model, powerplant))


def _carried(model: Model, powerplant: str) -> tuple[float, float | None, MassSource, float | None]:
    """Return the fields of `CarriedMass`."""
    mass = model.flown_mass(powerplant)
    station_m = mass.cg_station_m
    percent = None if station_m is None else model.mean_chord.percent(station_m)
    stands = standing(model, powerplant)
    way_m = stands.move_m - model.engine_move_m(powerplant) if stands.by == "target" else None
    return mass.body.mass_kg, percent, mass.source, way_m


def _banded(model: Model, powerplant: str) -> BandedMass:
    from sim.studies.bands import normal_ends

    mass, plain = model.flown_mass(powerplant), _carried(model, powerplant)
    mass_kg, percent, *_ = plain
    ends: dict[str, Any] = normal_ends("mass_kg", mass_kg, mass.mass_error_kg)
    if percent is not None:
        ends |= normal_ends("cg_percent_mac", percent, 100.0 * (mass.cg_error_m or 0.0) / model.mean_chord.chord_m)
    return BandedMass(*plain, **ends)
