"""The blades of the propellers of a scenario, or of a file, as blade-element theory takes them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.propulsion.blade_geometry import largest_chord, pitched_blade, tabled_blade
from sim.rotor.propeller_inertia import WOODEN, BladeLaw
from sim.scenario.blade_file import read_blade

if TYPE_CHECKING:
    import os

    from sim.propulsion.blade_geometry import Blade
    from sim.scenario.gun import GunTable
    from sim.scenario.powerplant import PropellerTable

LARGEST_CHORD_SHARE = 0.075
"""Largest chord over diameter where nothing says it (common practice, no source)."""


def propeller_blade(propeller: PropellerTable, gun: GunTable | None = None) -> Blade:
    """Return the propeller of a powerplant: constant geometric pitch, and a planform through the chord that is given.

    Parameters
    ----------
    propeller : PropellerTable
        Its table in the scenario.
    gun : GunTable or None
        May give chords; without them the largest chord is 7.5 % of the diameter.
    """
    radius_m, law = 0.5 * propeller.diameter_m, WOODEN
    chord_m = LARGEST_CHORD_SHARE * propeller.diameter_m
    if gun and gun.planform and propeller.blade_chord_m is None:
        chord_m = max(station.chord_m for station in gun.planform)
        shares = tuple(station.radius_m / radius_m for station in gun.planform)
        chords = tuple(station.chord_m / chord_m for station in gun.planform)
        law = BladeLaw(shares, chords, tuple(1.0 for _ in shares))
    elif gun:
        chord_m = largest_chord(propeller.blade_chord_m or gun.blade_chord_m, gun.bore_radius_m / radius_m)
    elif propeller.blade_chord_m is not None:
        chord_m = propeller.blade_chord_m
    return pitched_blade(
        propeller.blades, propeller.pitch_m / propeller.diameter_m, chord_m / propeller.diameter_m, law
    )


def measured_blade(file: str | os.PathLike[str], blades: int) -> Blade:
    """Return the propeller with blades as a CSV file gives them: see `read_blade`."""
    found = read_blade(file)
    angles_rad = tuple(map(math.radians, found.blade_angle_deg))
    return tabled_blade(blades, found.radius_share, found.chord_share, angles_rad)
