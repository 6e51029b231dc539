"""Mass and centre of gravity that an airplane flies with in a study, with each of its powerplants."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

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


def carried_masses(model: Model) -> dict[str, CarriedMass]:
    """Return mass and centre of gravity with each powerplant, by its name."""
    return {name: carried_mass(model, name) for name in model.powerplants}


def carried_mass(model: Model, powerplant: str) -> CarriedMass:
    """Return mass and centre of gravity with one powerplant."""
    mass = model.flown_mass(powerplant)
    station_m = mass.cg_station_m
    percent = None if station_m is None else model.mean_chord.percent(station_m)
    stands = standing(model, powerplant)
    way_m = stands.move_m - model.engine_move_m(powerplant) if stands.by == "target" else None
    return CarriedMass(mass.body.mass_kg, percent, mass.source, way_m)
