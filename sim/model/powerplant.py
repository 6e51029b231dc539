"""Each powerplant of a scenario: speeds, gear, propeller, and what turns in it with its angular momentum."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from sim.atmosphere import air
from sim.frames import Rotation, rotation_sign
from sim.model.propeller_blade import propeller_blade
from sim.model.rotating_parts import engine_parts, running_gear
from sim.propulsion.engine_propeller import Engine, Rotor, matched_engine
from sim.rotor.parts import Contribution, momentum_inertia
from sim.rotor.propeller_inertia import inertia_from_mass

if TYPE_CHECKING:
    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.engine_propeller import Propeller
    from sim.rotor.cylinders import Reciprocating
    from sim.scenario.gun import GunTable
    from sim.scenario.powerplant import AnyPowerplant

EngineKind = Literal["rotary", "fixed"]


@dataclass(frozen=True, slots=True)
class PropellerDimensions:
    """A fixed-pitch propeller as it is drawn and weighed; None for what the scenario does not say.

    Attributes
    ----------
    blades : int
        Their number, evenly spaced.
    diameter_m, pitch_m : float
        From tip to tip; way made in a turn without slip. [m]
    mass_kg : float or None
        With its hub. [kg]
    polar_inertia_kg_m2 : float
        About its own axis. [kg m²]
    arm_m : float
        From the centre of gravity to its disc, forward positive. [m]
    station_m : float or None
        Of its disc, aft of the datum. [m]
    blade_chord_m, blade_thickness_m : float or None
        At the bore line, where they are not those of the gun. [m]
    blade : Blade
        Chord and angle along the radius.
    efficiency : float or None
        Best efficiency, where it is measured and not that of the blades.
    """

    blades: int
    diameter_m: float
    pitch_m: float
    mass_kg: float | None
    polar_inertia_kg_m2: float
    arm_m: float
    station_m: float | None
    blade_chord_m: float | None
    blade_thickness_m: float | None
    blade: Blade
    efficiency: float | None


@dataclass(frozen=True, slots=True)
class Powerplant:
    """An engine with its propeller, and all that turns with its shaft.

    Attributes
    ----------
    name, kind : str
        As in the scenario; ``rotary`` or ``fixed``.
    rotation : str
        Of the engine shaft, as seen from the cockpit.
    cylinders : int
        Their number.
    power_w : float
        At full speed and sea level. [W]
    full_speed_rad_s, cruise_speed_rad_s, idle_speed_rad_s : float
        Of the engine shaft, above 0. [rad/s]
    gear_ratio : float
        Propeller speed over engine speed, negative where the gear reverses.
    mass_kg : float
        Dry, without the propeller. [kg]
    station_m : float or None
        Of its centre of gravity, aft of the datum; None where the scenario does not say. [m]
    shaft_tilt_rad, thrust_arm_m : float
        Shaft nose up against the x axis; shaft below the centre of gravity. [rad, m]
    propeller : PropellerDimensions
        The propeller as it is drawn.
    engine_law : Engine
        Torque of the engine, as the equations of motion take it.
    running_gear : Reciprocating or None
        Pistons and rods; None where the scenario gives the polar inertia outright.
    contributions : tuple of Contribution
        What turns, part by part, the propeller last.
    polar_inertia_kg_m2 : float
        Angular momentum per rad/s of the engine shaft: each part's inertia times its speed ratio, summed. [kg m²]
    ripple_share : float
        Half the variation of the angular momentum within a revolution, due to pistons and rods, over its mean.
    """

    name: str
    kind: EngineKind
    rotation: Rotation
    cylinders: int
    power_w: float
    full_speed_rad_s: float
    cruise_speed_rad_s: float
    idle_speed_rad_s: float
    gear_ratio: float
    mass_kg: float
    station_m: float | None
    shaft_tilt_rad: float
    thrust_arm_m: float
    propeller: PropellerDimensions
    engine_law: Engine
    running_gear: Reciprocating | None
    contributions: tuple[Contribution, ...]
    polar_inertia_kg_m2: float
    ripple_share: float

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

    @property
    def propeller_law(self) -> Propeller:
        """Torque and thrust of the propeller for the equations of motion: by blade elements, tips at cruise speed."""
        from sim.propulsion.propeller_fit import fitted_propeller

        own = self.propeller
        return fitted_propeller(
            own.blade,
            diameter_m=own.diameter_m,
            tip_mach=self._cruise_tip_mach,
            ratio=self.gear_ratio,
            efficiency=own.efficiency,
        )

    @property
    def thrust_share(self) -> float:
        """Thrust over that of the blades alone: not 1 where the best efficiency is measured."""
        from sim.propulsion.propeller_fit import thrust_share

        return thrust_share(self.propeller.blade, self._cruise_tip_mach, self.propeller.efficiency)

    @property
    def _cruise_tip_mach(self) -> float:
        tip_m_s = 0.5 * self.propeller.diameter_m * self.propeller_speed_rad_s(self.cruise_speed_rad_s)
        return tip_m_s / air(0.0).sound_m_s

    def about(self, *, thrust_arm_m: float, propeller_arm_m: float) -> Powerplant:
        """Return the powerplant with its arms from a centre of gravity: shaft below it, disc ahead of it [m]."""
        return replace(self, thrust_arm_m=thrust_arm_m, propeller=replace(self.propeller, arm_m=propeller_arm_m))

    def propeller_speed_rad_s(self, engine_speed_rad_s: float) -> float:
        """Return the size of the propeller's speed at a size of the engine's speed, both in rad/s."""
        return abs(self.gear_ratio) * engine_speed_rad_s

    def momentum_kg_m2_s(self, engine_speed_rad_s: float) -> float:
        """Return the angular momentum at a size of the engine's speed [rad/s], clockwise positive [kg m²/s]."""
        return self.sense * self.polar_inertia_kg_m2 * engine_speed_rad_s

    def pulsing_momentum_kg_m2_s(self, engine_speed_rad_s: float) -> float:
        """Return the part of it that pulses with the blades: a two-blade propeller's own, else 0 [kg m²/s]."""
        if self.propeller.blades > 2:
            return 0.0
        return self.sense * engine_speed_rad_s * momentum_inertia(self.contributions[-1:])


def powerplant(name: str, table: AnyPowerplant, gun: GunTable | None = None) -> Powerplant:
    """Return one powerplant of a scenario.

    Parameters
    ----------
    name : str
        Its name in the scenario.
    table : RotaryTable or FixedTable
        Its table there.
    gun : GunTable or None
        May give chords of the blades.

    Notes
    -----
    A propeller known only by mass and diameter is good to ±25 %, parts built up to ±10 %: see
    `sim.model.powerplant_errors`.
    """
    propeller, gear = _propeller(table, gun), running_gear(table)
    own = Contribution("propeller", propeller.mass_kg or 0.0, propeller.polar_inertia_kg_m2, table.gear_ratio)
    parts = (*engine_parts(table, gear), own)
    polar_inertia_kg_m2 = momentum_inertia(parts)
    ripple = sum(abs(part.ripple_kg_m2 * part.ratio) for part in parts)
    return Powerplant(
        name=name,
        kind=table.kind,
        rotation=table.rotation,
        cylinders=table.cylinders,
        power_w=table.power_w,
        full_speed_rad_s=table.speed_rad_s,
        cruise_speed_rad_s=table.cruise_speed_rad_s,
        idle_speed_rad_s=table.idle_speed_rad_s,
        gear_ratio=table.gear_ratio,
        mass_kg=table.mass_kg,
        station_m=None if table.station_m is None else table.station_m + table.move_m,
        shaft_tilt_rad=table.shaft_tilt_rad,
        thrust_arm_m=table.thrust_arm_m,
        propeller=propeller,
        engine_law=_engine_law(table),
        running_gear=gear,
        contributions=parts,
        polar_inertia_kg_m2=polar_inertia_kg_m2,
        ripple_share=ripple / abs(polar_inertia_kg_m2) if polar_inertia_kg_m2 else 0.0,
    )


def _engine_law(table: AnyPowerplant) -> Engine:
    return matched_engine(
        power_w=table.power_w,
        speed_rad_s=table.speed_rad_s,
        rotation=rotation_sign(table.rotation),
        friction_torque_n_m=table.friction_torque_n_m,
        windage_w=table.windage_power_w,
    )


def _propeller(table: AnyPowerplant, gun: GunTable | None) -> PropellerDimensions:
    propeller = table.propeller
    inertia_kg_m2 = propeller.polar_inertia_kg_m2
    if inertia_kg_m2 is None:
        inertia_kg_m2 = inertia_from_mass(propeller.mass_kg or 0.0, propeller.diameter_m)
    return PropellerDimensions(
        blades=propeller.blades,
        diameter_m=propeller.diameter_m,
        pitch_m=propeller.pitch_m,
        mass_kg=propeller.mass_kg,
        polar_inertia_kg_m2=inertia_kg_m2,
        arm_m=propeller.arm_m - table.move_m,
        station_m=None if propeller.station_m is None else propeller.station_m + table.move_m,
        blade_chord_m=propeller.blade_chord_m,
        blade_thickness_m=propeller.blade_thickness_m,
        blade=propeller_blade(propeller, gun),
        efficiency=propeller.efficiency,
    )
