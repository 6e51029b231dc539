"""The blade of a propeller: chord and angle along the radius."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.rotor.propeller_inertia import WOODEN

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.rotor.propeller_inertia import BladeLaw

HUB_SHARE: Final = 0.15
"""Radius over tip radius inside of which hub and shank carry nothing (common practice, no source)."""
STATIONS: Final = 40
"""Stations at which a blade of constant pitch is held, besides those of its planform."""


@dataclass(frozen=True, slots=True)
class Blade:
    """Blades of a propeller, all alike and evenly spaced; linear between the stations. Equal numbers are equal blades.

    Attributes
    ----------
    blades : int
        Their number.
    radius_share : tuple of float
        Stations over tip radius, ascending; what lies inside of the first carries nothing.
    chord_per_diameter : tuple of float
        Chord there over the propeller's diameter.
    blade_angle_rad : tuple of float
        Angle of the flat lower face there to the plane of the disc. [rad]
    """

    blades: int
    radius_share: tuple[float, ...]
    chord_per_diameter: tuple[float, ...]
    blade_angle_rad: tuple[float, ...]

    def turned(self, angle_rad: float) -> Blade:
        """Return the propeller with every blade turned as a whole, coarser positive [rad]."""
        return replace(self, blade_angle_rad=tuple(angle + angle_rad for angle in self.blade_angle_rad))

    def pitched(self, pitch_share: float) -> Blade:
        """Return the propeller with the same planform whose flat faces lie on one helix: pitch over diameter."""
        angle_rad = tuple(math.atan2(pitch_share, math.pi * share) for share in self.radius_share)
        return replace(self, blade_angle_rad=angle_rad)


def tabled_blade(
    blades: int, radius_share: Sequence[float], chord_per_diameter: Sequence[float], blade_angle_rad: Sequence[float]
) -> Blade:
    """Return the propeller with blades as measured at stations, in their order along the radius.

    Parameters
    ----------
    blades : int
        Their number.
    radius_share, chord_per_diameter : sequence of float
        Radius over tip radius, ascending, and chord over diameter.
    blade_angle_rad : sequence of float
        Angle of the flat lower face to the plane of the disc. [rad]

    Notes
    -----
    From the outermost station to the tip chord and angle go on as they are there.
    """
    return Blade(blades, tuple(radius_share), tuple(chord_per_diameter), tuple(blade_angle_rad))


def pitched_blade(blades: int, pitch_share: float, chord_share: float, law: BladeLaw = WOODEN) -> Blade:
    """Return the propeller of constant geometric pitch: the flat faces lie on one helix.

    Parameters
    ----------
    blades : int
        Number of blades.
    pitch_share, chord_share : float
        Geometric pitch and largest chord over diameter.
    law : BladeLaw
        Planform of the blade.
    """
    stations = np.union1d(np.linspace(HUB_SHARE, 1.0, STATIONS), [x for x in law.radius_share if HUB_SHARE < x < 1.0])
    chord = chord_share * np.interp(stations, law.radius_share, law.chord_share)
    flat = Blade(blades, tuple(stations.tolist()), tuple(chord.tolist()), (0.0,) * stations.size)
    return flat.pitched(pitch_share)


def largest_chord(chord_m: float, radius_share: float, law: BladeLaw = WOODEN) -> float:
    """Return the largest chord [m] of a blade from its chord [m] at a radius over tip radius."""
    return chord_m / float(np.interp(radius_share, law.radius_share, law.chord_share))
