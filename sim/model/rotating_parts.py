"""What turns in an engine of a scenario: its pistons and rods, and every part with its inertia."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.rotor.cylinders import Reciprocating
from sim.rotor.parts import Contribution, Wheel, fixed_parts, rotary_parts

if TYPE_CHECKING:
    from sim.scenario.powerplant import AnyPowerplant, FixedPartsTable, RotaryPartsTable


def running_gear(table: AnyPowerplant) -> Reciprocating | None:
    """Return pistons and rods of an engine, or None where the scenario gives its polar inertia outright."""
    parts = table.parts
    if parts is None:
        return None
    return Reciprocating(
        table.cylinders,
        parts.crank_radius_m,
        parts.rod_length_m,
        piston_mass_kg=parts.piston_mass_kg,
        rod_mass_kg=parts.rod_mass_kg,
        rod_centre_share=parts.rod_centre_share,
        rod_gyration_radius_m=parts.rod_gyration_share * parts.rod_length_m,
    )


def engine_parts(table: AnyPowerplant, gear: Reciprocating | None) -> tuple[Contribution, ...]:
    """Return what turns in an engine without its propeller, part by part."""
    if gear is None:
        return (Contribution("engine, as given", 0.0, table.polar_inertia_kg_m2 or 0.0),)
    if table.kind == "rotary":
        return _rotary(table.parts, gear)  # type: ignore[arg-type]
    return _fixed(table.parts, gear)  # type: ignore[arg-type]


def _rotary(parts: RotaryPartsTable, running: Reciprocating) -> tuple[Contribution, ...]:
    return rotary_parts(
        running,
        cylinder_mass_kg=parts.cylinder_mass_kg,
        cylinder_radius_m=parts.cylinder_radius_m,
        cylinder_length_m=parts.cylinder_length_m,
        cylinder_diameter_m=parts.cylinder_diameter_m,
        crankcase_mass_kg=parts.crankcase_mass_kg,
        crankcase_radius_m=parts.crankcase_radius_m,
        crankcase_inner_radius_m=parts.crankcase_inner_radius_m,
    )


def _fixed(parts: FixedPartsTable, running: Reciprocating) -> tuple[Contribution, ...]:
    wheels = (
        Wheel("crankshaft", parts.crankshaft_mass_kg, parts.crankshaft_gyration_radius_m),
        Wheel("flywheel", parts.flywheel_mass_kg, parts.flywheel_gyration_radius_m),
        Wheel("accessories", parts.accessories_mass_kg, parts.accessories_gyration_radius_m, parts.accessories_ratio),
    )
    return fixed_parts((wheel for wheel in wheels if wheel.mass_kg > 0.0), running)
