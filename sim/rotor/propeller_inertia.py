"""Polar inertia of a propeller from the mass of its blades along the radius."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class BladeLaw:
    """Chord and thickness along one blade, linear between the stations; the radius of gyration depends on their shape.

    Attributes
    ----------
    radius_share : tuple of float
        Stations as fractions of the tip radius, from 0 to 1, ascending.
    chord_share, thickness_share : tuple of float
        Chord and thickness there, as fractions of the largest.
    """

    radius_share: tuple[float, ...]
    chord_share: tuple[float, ...]
    thickness_share: tuple[float, ...]


WOODEN = BladeLaw(
    radius_share=(0.0, 0.1, 0.3, 0.6, 0.8, 1.0),
    chord_share=(0.55, 0.55, 0.80, 1.0, 0.90, 0.35),
    thickness_share=(1.0, 1.0, 0.55, 0.25, 0.16, 0.08),
)
"""A carved two-blade fixed-pitch propeller: widest near 0.6 R, thick at the hub (common practice, no source).

Radius of gyration 0.42 R. Mass that decreases linearly from axis to tip has 0.41 R and a uniform bar 0.58 R, so the
inertia of a propeller known only by mass and diameter is accurate to about ±25 %; a swing test is better.
"""


def _moments(law: BladeLaw) -> tuple[float, float]:
    """Return the integrals of c t and of c t x² along the blade, exact for linear pieces (Gauss, three points)."""
    stations = np.asarray(law.radius_share)
    nodes, weights = np.array((-(0.6**0.5), 0.0, 0.6**0.5)), np.array((5.0, 8.0, 5.0)) / 9.0
    half = np.diff(stations)[:, None] / 2.0
    share = stations[:-1, None] + half * (1.0 + nodes)
    section = np.interp(share, stations, law.chord_share) * np.interp(share, stations, law.thickness_share)
    return float((half * weights * section).sum()), float((half * weights * section * share**2).sum())


def gyration_share(law: BladeLaw = WOODEN) -> float:
    """Return the radius of gyration of the blades as a fraction of the tip radius, for sections of one shape.

    Examples
    --------
    >>> round(gyration_share(BladeLaw((0.0, 1.0), (1.0, 1.0), (1.0, 1.0))), 4)  # a uniform bar: 1/√3
    0.5774
    """
    mass, second = _moments(law)
    return float((second / mass) ** 0.5)


def inertia_from_mass(mass_kg: float, diameter_m: float, law: BladeLaw = WOODEN) -> float:
    """Return the polar inertia of a propeller of known mass and diameter, m (k R)² [kg m²].

    Parameters
    ----------
    mass_kg : float
        Mass of the bare propeller. [kg]
    diameter_m : float
        Diameter. [m]
    law : BladeLaw
        Distribution of its mass along the radius.
    """
    return mass_kg * (gyration_share(law) * diameter_m / 2.0) ** 2
