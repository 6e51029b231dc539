"""Which propellers suit an engine at an airspeed: for each diameter the pitch that absorbs full power at full speed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_section import FLAT_BOTTOMED
from sim.propulsion.engine_propeller import Propeller, shaft_loads
from sim.propulsion.thrust import FULL, static_share

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from numpy.typing import NDArray

    from sim.atmosphere import Air
    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.blade_section import BladeSection
    from sim.propulsion.engine_propeller import Engine

    Array = NDArray[np.float64]

PITCH_SHARES: Final = tuple(round(0.25 + 0.1 * step, 2) for step in range(16))
"""Pitches over diameter between which one is interpolated."""
SPEEDS: Final = 60
STEPS: Final = 4
"""Of the speed at rest with the Mach number of its tips."""
MOST_ADVANCE: Final = 3.0
"""Advance ratio up to which an airspeed is looked for at which full power is absorbed."""


@dataclass(frozen=True, slots=True)
class SuitingPropeller:
    """A propeller that lets full throttle turn the engine at full speed at one airspeed.

    Attributes
    ----------
    suited_diameter_m, suited_pitch_m : float
        From tip to tip; geometric pitch. [m]
    thrust_n, efficiency : float
        At that airspeed. [N]
    static_thrust_n, static_rpm_share : float
        At rest and full throttle; speed of rotation over the full one. [N]
    tip_mach : float
        Of the tips at that airspeed, along their helix.
    """

    suited_diameter_m: float
    suited_pitch_m: float
    thrust_n: float
    efficiency: float
    static_thrust_n: float
    static_rpm_share: float
    tip_mach: float


@dataclass(frozen=True, slots=True)
class Shaft:
    """An engine at full throttle in some air, and the gear behind it.

    Attributes
    ----------
    engine : Engine
        Its torque.
    full_speed_rad_s : float
        Full speed of the engine shaft. [rad/s]
    gear_ratio : float
        Propeller speed over engine speed; its sign does not matter here.
    air : Air
        Around the propeller.
    """

    engine: Engine
    full_speed_rad_s: float
    gear_ratio: float
    air: Air

    @property
    def turns_per_s(self) -> float:
        """Propeller speed at full engine speed [1/s]."""
        return abs(self.gear_ratio) * self.full_speed_rad_s / math.tau

    def torque_n_m(self, engine_rad_s: float) -> float:
        """Return what full throttle gives to the propeller's shaft at an engine speed [rad/s], without gear losses."""
        spin = self.engine.rotation * engine_rad_s
        loads = shaft_loads(self.engine, Propeller())((spin, 0.0), self.air.density_kg_m3, FULL)
        return float(self.engine.rotation * (loads.engine - loads.windage)) / abs(self.gear_ratio)

    def power_coefficient(self, diameter_m: float) -> float:
        """Return P/ρn³D⁵ of full power at full speed."""
        scale = self.air.density_kg_m3 * self.turns_per_s**2 * diameter_m**5
        return math.tau * self.torque_n_m(self.full_speed_rad_s) / scale

    def tip_mach(self, diameter_m: float) -> float:
        """Return the Mach number of the tips' rotation at full speed."""
        return math.pi * self.turns_per_s * diameter_m / self.air.sound_m_s

    def static_share(self, blade: Blade, diameter_m: float, *, section: BladeSection = FLAT_BOTTOMED) -> float:
        """Return the speed at which full throttle turns the propeller at rest, were it free, over full speed.

        The tips' Mach number is that of the speed found, which converges within a few steps, for it changes little.
        """
        share, density = 1.0, self.air.density_kg_m3
        for _ in range(STEPS):
            tip_mach = share * self.tip_mach(diameter_m)
            cp = float(blade_loads(blade, np.zeros(1), tip_mach=tip_mach, section=section).cp[0])
            share = static_share(
                self.engine,
                cp / math.tau * density * self.turns_per_s**2 * diameter_m**5,
                full_speed_rad_s=self.full_speed_rad_s,
                gear_ratio=self.gear_ratio,
                density_kg_m3=density,
            )
        return share


def full_power_speed_m_s(
    shaft: Shaft, blade: Blade, diameter_m: float, *, section: BladeSection = FLAT_BOTTOMED
) -> float | None:
    """Return the airspeed at which full throttle turns the propeller at full speed [m/s]; None where at none.

    Below it the propeller holds the engine back, above it the engine would exceed its full speed. A propeller whose
    inner blades are stalled at rest can have two such airspeeds; this is the higher.
    """
    ratios = np.linspace(0.0, MOST_ADVANCE, SPEEDS)
    spare = (
        shaft.power_coefficient(diameter_m)
        - blade_loads(blade, ratios, tip_mach=shaft.tip_mach(diameter_m), section=section).cp
    )
    held = np.flatnonzero(spare < 0.0)
    if not held.size or held[-1] + 1 == SPEEDS:
        return None
    before, after = held[-1], held[-1] + 1
    ratio = ratios[before] - spare[before] * (ratios[after] - ratios[before]) / (spare[after] - spare[before])
    return float(ratio) * shaft.turns_per_s * diameter_m


def suiting(
    shaft: Shaft, blade: Blade, diameters_m: Iterable[float], speed_m_s: float, *, section: BladeSection = FLAT_BOTTOMED
) -> Iterator[SuitingPropeller]:
    """Yield for each diameter the propeller that absorbs full power at full speed at an airspeed, where there is one.

    Parameters
    ----------
    shaft : Shaft
        Engine, gear and air.
    blade : Blade
        Number of blades, and chord over diameter along the radius; its angle does not matter.
    diameters_m : iterable of float
        [m]
    speed_m_s : float
        Airspeed along the shaft, at least 0. [m/s]
    section : BladeSection
        Lift and drag of every section.
    """
    from scipy.interpolate import PchipInterpolator

    diameters = np.asarray(tuple(diameters_m), float)
    wanted = np.array([shaft.power_coefficient(diameter_m) for diameter_m in diameters])
    ratio = speed_m_s / (shaft.turns_per_s * diameters)
    tip_mach = shaft.tip_mach(1.0) * diameters
    taken = [blade_loads(blade.pitched(share), ratio, tip_mach=tip_mach, section=section).cp for share in PITCH_SHARES]
    for diameter_m, own, power in zip(diameters.tolist(), np.transpose(taken), wanted.tolist(), strict=True):
        rising = _rising_through(own, power)
        if rising is not None:
            pitch_share = float(PchipInterpolator(own[rising], PITCH_SHARES[rising])(power))
            yield _described(shaft, blade.pitched(pitch_share), diameter_m, speed_m_s=speed_m_s, section=section)


def _rising_through(row: Array, value: float) -> slice | None:
    """Return the part of a row that rises without a fall and first passes a value; None where it does not.

    Windmilling with too fine a pitch, and stalled with too coarse a one, blades may take less, coarser.
    """
    passing = np.flatnonzero((row[:-1] < value) & (value <= row[1:]))
    if not passing.size:
        return None
    falls = np.flatnonzero(np.diff(row) <= 0.0)
    before, after = falls[falls < passing[0]], falls[falls > passing[0]]
    return slice(before[-1] + 1 if before.size else 0, after[0] + 1 if after.size else row.size)


def _described(
    shaft: Shaft, blade: Blade, diameter_m: float, *, speed_m_s: float, section: BladeSection
) -> SuitingPropeller:
    """Return a propeller that absorbs full power, at its airspeed and at rest."""
    turns = shaft.turns_per_s
    ratio, tip_mach = speed_m_s / (turns * diameter_m), shaft.tip_mach(diameter_m)
    loads = blade_loads(blade, np.array([ratio]), tip_mach=tip_mach, section=section)
    scale = shaft.air.density_kg_m3 * turns**2 * diameter_m**4
    share = shaft.static_share(blade, diameter_m, section=section)
    at_rest = blade_loads(blade, np.zeros(1), tip_mach=share * tip_mach, section=section)
    return SuitingPropeller(
        suited_diameter_m=diameter_m,
        suited_pitch_m=diameter_m * math.pi * blade.radius_share[-1] * math.tan(blade.blade_angle_rad[-1]),
        thrust_n=float(loads.ct[0]) * scale,
        efficiency=float(ratio * loads.ct[0] / loads.cp[0]),
        static_thrust_n=float(at_rest.ct[0]) * scale * share**2,
        static_rpm_share=share,
        tip_mach=math.hypot(tip_mach, speed_m_s / shaft.air.sound_m_s),
    )
