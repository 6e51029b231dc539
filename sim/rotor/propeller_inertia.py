"""Polar inertia of a propeller from the mass of its blades along the radius."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import refuse
from sim.rotor.parts import annulus

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True, slots=True)
class BladeLaw:
    """Chord and thickness along one blade, straight between the stations; only their proportions matter for k.

    Attributes
    ----------
    radius_share : tuple of float
        Stations as shares of the tip radius, from 0 to 1, ascending.
    chord_share, thickness_share : tuple of float
        Chord and thickness there, as shares of their largest.
    """

    radius_share: tuple[float, ...]
    chord_share: tuple[float, ...]
    thickness_share: tuple[float, ...]


WOODEN = BladeLaw(
    radius_share=(0.0, 0.1, 0.3, 0.6, 0.8, 1.0),
    chord_share=(0.55, 0.55, 0.80, 1.0, 0.90, 0.35),
    thickness_share=(1.0, 1.0, 0.55, 0.25, 0.16, 0.08),
)
"""A carved two-blade fixed-pitch propeller: broad near 0.6 R, thick at the hub (common practice, no source).

Radius of gyration 0.42 R. Mass that falls evenly from axis to tip has 0.41 R and a plain bar 0.58 R, so the inertia of
a propeller known only by mass and diameter is good to about ±25 %; swing it to know better.
"""


def _moments(law: BladeLaw) -> tuple[float, float]:
    """Return the integrals of c t and of c t x² along the blade, exact for straight pieces (Gauss, three points)."""
    stations = np.asarray(law.radius_share)
    nodes, weights = np.polynomial.legendre.leggauss(3)
    half = np.diff(stations)[:, None] / 2.0
    share = stations[:-1, None] + half * (1.0 + nodes)
    section = np.interp(share, stations, law.chord_share) * np.interp(share, stations, law.thickness_share)
    return float((half * weights * section).sum()), float((half * weights * section * share**2).sum())


def gyration_share(law: BladeLaw = WOODEN) -> float:
    """Return the radius of gyration of the blades as a share of the tip radius, for sections of one shape.

    Examples
    --------
    >>> round(gyration_share(BladeLaw((0.0, 1.0), (1.0, 1.0), (1.0, 1.0))), 4)  # a plain bar: 1/√3
    0.5774
    """
    mass, second = _moments(law)
    return float((second / mass) ** 0.5)


def inertia_from_mass(mass_kg: float, diameter_m: float, law: BladeLaw = WOODEN) -> float:
    """Return the polar inertia of a propeller of known mass and diameter, m (k R)² [kg m²].

    Parameters
    ----------
    mass_kg : float
        Of the bare propeller. [kg]
    diameter_m : float
        Tip to tip. [m]
    law : BladeLaw
        How its mass lies along the radius.
    """
    return mass_kg * (gyration_share(law) * diameter_m / 2.0) ** 2


@dataclass(frozen=True, slots=True)
class BladeBuild:
    """A propeller computed from its blades.

    Attributes
    ----------
    mass_kg, polar_inertia_kg_m2 : float
        Of all blades and the hub. [kg, kg m²]
    """

    mass_kg: float
    polar_inertia_kg_m2: float


def inertia_from_blades(
    radius_m: ArrayLike,
    chord_m: ArrayLike,
    thickness_m: ArrayLike,
    *,
    blades: int,
    density_kg_m3: float,
    section_share: float = 0.7,
    hub_mass_kg: float = 0.0,
    hub_radius_m: float = 0.0,
) -> BladeBuild:
    """Return mass and polar inertia of a propeller from chord and thickness measured along one blade.

    Parameters
    ----------
    radius_m, chord_m, thickness_m : array_like, shape (stations,)
        Measured sections, radius ascending; straight between them. [m]
    blades : int
        At least 1.
    density_kg_m3 : float
        Of the wood, glue and cover: spruce near 450, mahogany 550, laminated birch 650. [kg/m³]
    section_share : float
        Area of a section over chord times thickness; 0.7 suits a flat-faced section, 2/3 a parabola.
    hub_mass_kg, hub_radius_m : float
        Metal hub, as a disc. [kg, m]

    Raises
    ------
    InputError
        With fewer than two stations, unequal counts, or radii that do not ascend.
    """
    radius = _checked(radius_m, chord_m, thickness_m)
    tip_m = float(radius[-1])
    law = BladeLaw(
        tuple((radius / tip_m).tolist()),
        tuple(np.asarray(chord_m, dtype=float).tolist()),
        tuple(np.asarray(thickness_m, dtype=float).tolist()),
    )
    mass, second = _moments(law)
    per_length = blades * density_kg_m3 * section_share * tip_m
    return BladeBuild(
        mass_kg=per_length * mass + hub_mass_kg,
        polar_inertia_kg_m2=per_length * second * tip_m**2 + annulus(hub_mass_kg, hub_radius_m),
    )


def _checked(radius_m: ArrayLike, chord_m: ArrayLike, thickness_m: ArrayLike) -> NDArray[np.float64]:
    radius = np.asarray(radius_m, dtype=float)
    counts = radius.size, np.size(chord_m), np.size(thickness_m)
    if len(set(counts)) > 1 or counts[0] < 2:
        refuse("propeller.sections", f"must be as many radii, chords and thicknesses, at least two, got {counts}")
    if not (np.diff(radius) > 0.0).all():
        refuse("propeller.sections", f"radii must ascend, got {radius.tolist()}")
    return radius
