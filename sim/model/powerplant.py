"""What turns in each powerplant of a scenario: contributions, polar inertia, and spin momentum at a speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.frames import Rotation, rotation_sign
from sim.propulsion.engine_propeller import Rotor
from sim.rotor.cylinders import Reciprocating
from sim.rotor.parts import Contribution, Wheel, fixed_parts, momentum_inertia, rotary_parts
from sim.rotor.propeller_inertia import inertia_from_mass

if TYPE_CHECKING:
    from sim.scenario.powerplant import AnyPowerplant, FixedPartsTable, PartsTable, PropellerTable, RotaryPartsTable
    from sim.scenario.tables import Scenario


@dataclass(frozen=True, slots=True)
class Spin:
    """All that turns with one engine shaft.

    Attributes
    ----------
    name, kind : str
        As in the scenario; ``rotary`` or ``fixed``.
    rotation : str
        Of the engine shaft, as seen from the cockpit.
    contributions : tuple of Contribution
        Part by part, the propeller last.
    polar_inertia_kg_m2 : float
        Spin momentum per rad/s of the engine shaft: each part's inertia times its speed ratio, summed. [kg m²]
    propeller_inertia_kg_m2 : float
        The propeller alone, about its own axis. [kg m²]
    ripple_share : float
        Half swing of the momentum within a revolution, from pistons and rods, over its mean.
    blades : int
        Of the propeller.
    """

    name: str
    kind: str
    rotation: Rotation
    contributions: tuple[Contribution, ...]
    polar_inertia_kg_m2: float
    propeller_inertia_kg_m2: float
    ripple_share: float
    blades: int

    @property
    def rotors(self) -> tuple[Rotor, ...]:
        """What the equations of motion turn: one rotor for each speed ratio, in the order of the parts."""
        together: dict[float, float] = {}
        for part in self.contributions:
            together[part.ratio] = together.get(part.ratio, 0.0) + part.polar_inertia_kg_m2
        return tuple(Rotor(inertia_kg_m2, ratio) for ratio, inertia_kg_m2 in together.items())

    @property
    def sense(self) -> float:
        """Return +1 for an engine shaft that turns clockwise as seen from the cockpit, −1 for anticlockwise."""
        return rotation_sign(self.rotation)

    def momentum_kg_m2_s(self, engine_speed_rad_s: float) -> float:
        """Return the spin momentum at a size of the engine's speed [rad/s], clockwise positive [kg m²/s]."""
        return self.sense * self.polar_inertia_kg_m2 * engine_speed_rad_s

    def pulsing_momentum_kg_m2_s(self, engine_speed_rad_s: float) -> float:
        """Return the part of it that pulses with the blades: a two-blade propeller's own, else 0 [kg m²/s]."""
        if self.blades > 2:
            return 0.0
        return self.sense * engine_speed_rad_s * momentum_inertia(self.contributions[-1:])


def spin(name: str, powerplant: AnyPowerplant) -> Spin:
    """Return what turns in one powerplant.

    Parameters
    ----------
    name : str
        Its name in the scenario.
    powerplant : Powerplant
        Its table.

    Notes
    -----
    A propeller known only by mass and diameter is good to ±25 %, parts built up to ±10 %.
    """
    parts = (*_engine_parts(powerplant), _propeller_part(powerplant.propeller, powerplant.gear_ratio))
    polar_inertia_kg_m2 = momentum_inertia(parts)
    ripple = sum(abs(part.ripple_kg_m2 * part.ratio) for part in parts)
    return Spin(
        name,
        powerplant.kind,
        powerplant.rotation,
        parts,
        polar_inertia_kg_m2=polar_inertia_kg_m2,
        propeller_inertia_kg_m2=parts[-1].polar_inertia_kg_m2,
        ripple_share=ripple / abs(polar_inertia_kg_m2) if polar_inertia_kg_m2 else 0.0,
        blades=powerplant.propeller.blades,
    )


def spins(scenario: Scenario) -> tuple[Spin, ...]:
    """Return what turns in every powerplant of a scenario, in the order of the file."""
    return tuple(spin(name, powerplant) for name, powerplant in scenario.powerplant.items())


def _propeller_part(propeller: PropellerTable, gear_ratio: float) -> Contribution:
    inertia_kg_m2 = propeller.polar_inertia_kg_m2
    if inertia_kg_m2 is None:
        inertia_kg_m2 = inertia_from_mass(propeller.mass_kg or 0.0, propeller.diameter_m)
    return Contribution("propeller", propeller.mass_kg or 0.0, inertia_kg_m2, gear_ratio)


def _engine_parts(powerplant: AnyPowerplant) -> tuple[Contribution, ...]:
    parts = powerplant.parts
    if parts is None:
        return (Contribution("engine, as given", 0.0, powerplant.polar_inertia_kg_m2 or 0.0),)
    running = running_gear(parts, powerplant.cylinders)
    if powerplant.kind == "rotary":
        return _rotary(parts, running)  # type: ignore[arg-type]
    return _fixed(parts, running)  # type: ignore[arg-type]


def running_gear(parts: PartsTable, cylinders: int) -> Reciprocating:
    """Return pistons and rods of an engine, as `sim.rotor.cylinders` takes them.

    Parameters
    ----------
    parts : PartsTable
        The table of the engine's parts.
    cylinders : int
        How many.
    """
    return Reciprocating(
        cylinders,
        parts.crank_radius_m,
        parts.rod_length_m,
        piston_mass_kg=parts.piston_mass_kg,
        rod_mass_kg=parts.rod_mass_kg,
        rod_centre_share=parts.rod_centre_share,
        rod_gyration_radius_m=parts.rod_gyration_share * parts.rod_length_m,
    )


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
