"""Under a sheet: at which mass and centre of gravity each powerplant flies, and where these come from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.units.convert import INCH_M
from viz.sheets.bands import with_band
from viz.sheets.blocks import listed, say
from viz.sheets.stations import moved

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.studies.carried_mass import CarriedMass
    from viz.sheets.blocks import Cell, Sentence

LEAST_M = 0.25 * INCH_M
"""A quarter of an inch: nearer to the CG target an engine is told to stand there."""
SOURCES = {
    "as weighed": "item list corrected by the scales",
    "item list": "item list",
    "given": "keys of the scenario, without an item list",
}
"""Source of a mass -> what a reader is told of it."""


def flown_at(masses: Mapping[str, CarriedMass]) -> Sentence:
    """Return a sentence with mass, centre of gravity and their source for every powerplant."""
    flown = say("Flown loaded as listed: {each}.", each=listed(_one(name, mass) for name, mass in masses.items()))
    ways = [
        say("{name} {way}", name=name, way=moved("to_target_m", mass.to_target_m))
        for name, mass in masses.items()
        if mass.to_target_m is not None and abs(mass.to_target_m) >= LEAST_M
    ]
    if not ways:
        return flown
    return say(
        "{flown} Engines stand as drawn; mount and report have them at the CG target: {ways}.",
        flown=flown,
        ways=listed(ways),
    )


def _one(name: str, mass: CarriedMass) -> Cell:
    weight = with_band(mass, "mass_kg", digits=4)
    if mass.cg_percent_mac is None:
        return say("{name} {mass} ({source})", name=name, mass=weight, source=SOURCES[mass.source])
    return say(
        "{name} {mass}, CG {cg} % of the mean chord ({source})",
        name=name,
        mass=weight,
        cg=with_band(mass, "cg_percent_mac", decimals=1),
        source=SOURCES[mass.source],
    )
