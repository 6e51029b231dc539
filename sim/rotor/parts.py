"""Polar inertia of the rotating parts of an engine, part by part."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.rotor.cylinders import Reciprocating, fixed_rods, rotary_pistons, rotary_rods

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Contribution:
    """One part, or all parts of one kind.

    Attributes
    ----------
    name : str
        Name of the part.
    mass_kg : float
        Rotating mass; 0 where the inertia was given directly. [kg]
    polar_inertia_kg_m2 : float
        About the shaft axis, mean over a revolution. [kg m²]
    ratio : float
        Its speed over the engine shaft's; negative where it turns in the opposite sense.
    ripple_kg_m2 : float
        Half the variation of the inertia within a revolution. [kg m²]
    """

    name: str
    mass_kg: float
    polar_inertia_kg_m2: float
    ratio: float = 1.0
    ripple_kg_m2: float = 0.0


def annulus(mass_kg: float, outer_radius_m: float, inner_radius_m: float = 0.0) -> float:
    """Return the polar inertia of a ring or, with no inner radius, a disc, of uniform thickness [kg m²].

    Examples
    --------
    >>> annulus(10.0, 0.5)
    1.25
    """
    return 0.5 * mass_kg * (outer_radius_m**2 + inner_radius_m**2)


def barrel(mass_kg: float, *, centre_radius_m: float, length_m: float = 0.0, diameter_m: float = 0.0) -> float:
    """Return the inertia about the shaft axis of a solid cylinder placed radially [kg m²].

    Parameters
    ----------
    mass_kg : float
        At least 0. [kg]
    centre_radius_m : float
        Distance of its mass centre from the shaft axis. [m]
    length_m, diameter_m : float
        Overall dimensions; 0 for a point mass, which is about 6 % too low for an engine's cylinder. [m]
    """
    return mass_kg * (centre_radius_m**2 + length_m**2 / 12.0 + diameter_m**2 / 16.0)


def rotary_parts(
    engine: Reciprocating,
    *,
    cylinder_mass_kg: float,
    cylinder_radius_m: float,
    crankcase_mass_kg: float,
    crankcase_radius_m: float,
    cylinder_length_m: float = 0.0,
    cylinder_diameter_m: float = 0.0,
    crankcase_inner_radius_m: float = 0.0,
) -> tuple[Contribution, ...]:
    """Return the rotating parts of a rotary: cylinders and crankcase on the shaft, pistons and rods on the crankpin.

    Parameters
    ----------
    engine : Reciprocating
        Its pistons and rods.
    cylinder_mass_kg, cylinder_radius_m : float
        One cylinder with head, valves and its share of pipes, and its mass centre from the shaft axis. [kg, m]
    crankcase_mass_kg, crankcase_radius_m, crankcase_inner_radius_m : float
        Case with covers and all else that turns with it, as a ring of uniform thickness. [kg, m, m]
    cylinder_length_m, cylinder_diameter_m : float
        Overall dimensions, for the cylinder's own inertia. [m]

    Notes
    -----
    A component build-up is within 10 % of measured values (NACA, Kirschbaum 1936). The dry mass of the engine at the
    radius of the cylinder heads is an upper bound.
    """
    pistons, rods = rotary_pistons(engine), rotary_rods(engine)
    cylinder = barrel(
        cylinder_mass_kg,
        centre_radius_m=cylinder_radius_m,
        length_m=cylinder_length_m,
        diameter_m=cylinder_diameter_m,
    )
    case = annulus(crankcase_mass_kg, crankcase_radius_m, crankcase_inner_radius_m)
    count = engine.cylinders
    return (
        Contribution("cylinders", count * cylinder_mass_kg, count * cylinder),
        Contribution("crankcase", crankcase_mass_kg, case),
        Contribution("pistons", count * engine.piston_mass_kg, pistons.mean_kg_m2, ripple_kg_m2=pistons.ripple_kg_m2),
        Contribution("rods", count * engine.rod_mass_kg, rods.mean_kg_m2, ripple_kg_m2=rods.ripple_kg_m2),
    )


@dataclass(frozen=True, slots=True)
class Wheel:
    """A rotating part given by mass and radius of gyration: inertia m k².

    Attributes
    ----------
    name : str
        Name of the part.
    mass_kg, gyration_radius_m : float
        At least 0. [kg, m]
    ratio : float
        Its speed over the engine shaft's; negative where it turns in the opposite sense.
    """

    name: str
    mass_kg: float
    gyration_radius_m: float
    ratio: float = 1.0


def fixed_parts(wheels: Iterable[Wheel], engine: Reciprocating | None = None) -> tuple[Contribution, ...]:
    """Return the rotating parts of a fixed engine: crankshaft, flywheel, accessories, and the rods' big ends.

    Parameters
    ----------
    wheels : iterable of Wheel
        Crankshaft, flywheel, gears, accessories.
    engine : Reciprocating, optional
        Its pistons and rods. The pistons move along lines through the shaft axis and have no angular momentum.
    """
    turning = tuple(
        Contribution(wheel.name, wheel.mass_kg, wheel.mass_kg * wheel.gyration_radius_m**2, wheel.ratio)
        for wheel in wheels
    )
    if engine is None:
        return turning
    big_ends_kg = engine.cylinders * engine.rod_mass_kg * (1.0 - engine.rod_centre_share)
    return (*turning, Contribution("rod big ends", big_ends_kg, fixed_rods(engine)))


def momentum_inertia(parts: Iterable[Contribution]) -> float:
    """Return angular momentum per rad/s of the engine shaft: Σ Ip times ratio, negative if counter-rotating [kg m²]."""
    return sum(part.polar_inertia_kg_m2 * part.ratio for part in parts)
