"""A propeller by blade elements on an engine at full throttle: speed of rotation, thrust and power at each airspeed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.numerics.bracket import bracketed_roots
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_section import FLAT_BOTTOMED
from sim.propulsion.engine_propeller import Propeller, shaft_loads
from sim.propulsion.thrust import FULL

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.atmosphere import Air
    from sim.propulsion.blade_element import BladeLoads
    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.blade_section import BladeSection
    from sim.propulsion.engine_propeller import Engine

    Array = NDArray[np.float64]

LEAST_SHARE: Final = 0.02
"""Of the highest engine speed, below which no balance of torques is looked for."""


@dataclass(frozen=True, slots=True, eq=False)
class Matched:
    """The propeller on its engine; arrays with one entry per airspeed.

    Attributes
    ----------
    speed_m_s : array
        Airspeed along the shaft. [m/s]
    spin_rad_s : array
        Magnitude of the propeller's speed of rotation. [rad/s]
    thrust_n, torque_n_m, power_w : array
        Of the propeller; torque about its own axis, positive where it takes power. [N, N m, W]
    tip_mach : array
        Speed of the tip through the air over the speed of sound.
    throttled : array of bool
        Whether the engine would exceed its highest speed, so that the pilot throttles back.
    loads : BladeLoads
        Along the blades.
    """

    speed_m_s: Array
    spin_rad_s: Array
    thrust_n: Array
    torque_n_m: Array
    power_w: Array
    tip_mach: Array
    throttled: NDArray[np.bool_]
    loads: BladeLoads


def matched(
    engine: Engine,
    blade: Blade,
    speed_m_s: Sequence[float],
    *,
    diameter_m: float,
    most_rad_s: float,
    air: Air,
    gear_ratio: float = 1.0,
    section: BladeSection = FLAT_BOTTOMED,
) -> Matched:
    """Return the propeller at full throttle, its speed of rotation that at which the torques balance.

    Parameters
    ----------
    engine : Engine
        Torque of the engine.
    blade : Blade
        Chord and angle along the radius.
    speed_m_s : sequence of float
        Airspeeds along the shaft, each at least 0. [m/s]
    diameter_m : float
        Diameter of the propeller. [m]
    most_rad_s : float
        Highest engine speed; where full throttle would exceed it the pilot throttles back to it. [rad/s]
    air : Air
        Around the propeller.
    gear_ratio : float
        Propeller speed over engine speed; its sign does not matter here.
    section : BladeSection
        Lift and drag of every section.

    Notes
    -----
    Propeller torque times gear ratio = gas torque − friction − windage. Without gear losses.
    """
    speed, ratio = np.asarray(speed_m_s, float), abs(gear_ratio)
    alone = shaft_loads(engine, Propeller(ratio), ARRAY_MATH)

    def propeller(spin: Array) -> tuple[BladeLoads, Array]:
        turns = spin / (2.0 * np.pi)
        loads = blade_loads(
            blade, speed / (turns * diameter_m), tip_mach=spin * 0.5 * diameter_m / air.sound_m_s, section=section
        )
        return loads, loads.cp / (2.0 * np.pi) * air.density_kg_m3 * turns**2 * diameter_m**5

    def excess(spin: Array) -> Array:
        torques = alone((engine.rotation * spin / ratio, speed), air.density_kg_m3, FULL)
        return np.asarray(engine.rotation * (torques.engine - torques.windage) - ratio * propeller(spin)[1])

    most = np.full(speed.shape, most_rad_s * ratio)
    throttled = excess(most) >= 0.0
    spin = np.where(throttled, most, bracketed_roots(excess, LEAST_SHARE * most, most, tolerance=1e-9))
    loads, torque = propeller(spin)
    return Matched(
        speed_m_s=speed,
        spin_rad_s=spin,
        thrust_n=loads.ct * air.density_kg_m3 * (spin / (2.0 * math.pi)) ** 2 * diameter_m**4,
        torque_n_m=torque,
        power_w=torque * spin,
        tip_mach=np.hypot(spin * 0.5 * diameter_m, speed) / air.sound_m_s,
        throttled=throttled,
        loads=loads,
    )
