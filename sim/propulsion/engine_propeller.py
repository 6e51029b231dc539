"""Torques and thrust of an engine with a fixed-pitch propeller, and the rotors that turn with its shaft."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.atmosphere import SEA_LEVEL_KG_M3

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import MathFunctions, Number

STICTION_RAD_S: Final = 5.0
"""Below about this speed friction decreases to zero, so that its sign does not oscillate as the shaft stops."""
_TORQUE_LOSS: Final = 0.75
_BEST: Final = 2.0 / 3.0


@dataclass(frozen=True, slots=True)
class Rotor:
    """A body that turns with the engine shaft, directly or geared.

    Attributes
    ----------
    polar_inertia_kg_m2 : float
        About the shaft axis. [kg m²]
    ratio : float
        Its speed over the engine shaft's; negative where it turns in the opposite sense.
    """

    polar_inertia_kg_m2: float
    ratio: float = 1.0


@dataclass(frozen=True, slots=True)
class Engine:
    """Torque between engine and airframe.

    Attributes
    ----------
    rotation : float
        +1 clockwise from the cockpit, −1 anticlockwise.
    firing_torque_n_m : float
        Gas torque at full throttle and sea level, before friction and windage. [N m]
    friction_torque_n_m : float
        The same at every speed. [N m]
    windage_n_m_s2 : float
        Air drag torque of the rotating engine over speed squared, at sea level: a rotary's cylinders. [N m s²]
    """

    rotation: float = 1.0
    firing_torque_n_m: float = 0.0
    friction_torque_n_m: float = 0.0
    windage_n_m_s2: float = 0.0


@dataclass(frozen=True, slots=True)
class Propeller:
    """A fixed-pitch propeller, described by three coefficients.

    Attributes
    ----------
    ratio : float
        Its speed over the engine shaft's; negative where a gear reverses it.
    torque_m5 : float
        Static torque over density and propeller speed squared. [m⁵]
    thrust_m4 : float
        Static thrust over density and propeller speed squared. [m⁴]
    advance_m_rad : float
        Advance per radian at which the thrust is zero: experimental mean pitch over 2π. [m/rad]
    """

    ratio: float = 1.0
    torque_m5: float = 0.0
    thrust_m4: float = 0.0
    advance_m_rad: float = 1.0


class ShaftLoads(NamedTuple):
    """Torques along the shaft [N m] and thrust [N]."""

    engine: Number
    windage: Number
    propeller: Number
    thrust: Number


def matched_engine(
    *, power_w: float, speed_rad_s: float, rotation: float, friction_torque_n_m: float = 0.0, windage_w: float = 0.0
) -> Engine:
    """Return the engine that delivers a power to its shaft at a speed, at full throttle and sea level.

    Parameters
    ----------
    power_w : float
        Net power, after friction and windage. [W]
    speed_rad_s : float
        Shaft speed at that power, greater than 0. [rad/s]
    rotation : float
        +1 clockwise from the cockpit, −1 anticlockwise.
    friction_torque_n_m : float
        At least 0. [N m]
    windage_w : float
        Power lost to the air by the rotating engine at that speed. [W]

    Notes
    -----
    The gas torque does not depend on speed and is proportional to air density. A friction of 13 % of the net torque
    then gives the loss of power with altitude of Gagg and Farrar (1934), P/P0 = 1.132 σ − 0.132.
    """
    smooth_speed = math.hypot(speed_rad_s, STICTION_RAD_S)
    windage = windage_w / (speed_rad_s**2 * smooth_speed)
    lost = friction_torque_n_m * speed_rad_s / smooth_speed + windage * speed_rad_s * smooth_speed
    return Engine(rotation, power_w / speed_rad_s + lost, friction_torque_n_m, windage)


def matched_propeller(
    *, power_w: float, speed_rad_s: float, airspeed_m_s: float, efficiency: float, ratio: float = 1.0
) -> Propeller:
    """Return the propeller that absorbs a power at an engine speed and airspeed, at its best efficiency and sea level.

    Parameters
    ----------
    power_w : float
        Net power of the engine. [W]
    speed_rad_s : float
        Speed of the engine shaft, greater than 0. [rad/s]
    airspeed_m_s : float
        Along the shaft, greater than 0. [m/s]
    efficiency : float
        Best efficiency, 0 to 1.
    ratio : float
        Propeller speed over engine speed, not 0.

    Notes
    -----
    Torque ρ kQ (Ω² − ¾ V²/a²) and thrust ρ kT Ω (Ω − V/a), with a the `advance_m_rad`. Thrust is zero at V = a Ω and
    torque at 1.15 times that, where the propeller begins to drive the engine. The best efficiency is at V = 2/3 a Ω,
    and the static shaft speed is √(2/3) = 82 % of the full speed. Static thrust of a wooden propeller is within about
    15 %. Valid for rotation in the propeller's own sense.

    Examples
    --------
    >>> propeller = matched_propeller(power_w=97e3, speed_rad_s=131.0, airspeed_m_s=45.0, efficiency=0.75)
    >>> round(propeller.advance_m_rad, 3)
    0.515
    """
    speed = speed_rad_s * abs(ratio)
    advance = airspeed_m_s / (_BEST * speed)
    torque = power_w / (speed**3 * (1.0 - _TORQUE_LOSS * _BEST**2) * SEA_LEVEL_KG_M3)
    return Propeller(ratio, torque, 2.0 * efficiency * torque / (_BEST * advance), advance)


def shaft_loads(
    engine: Engine, propeller: Propeller, functions: MathFunctions = math
) -> Callable[[Number, Number, Number], ShaftLoads]:
    """Return the function ((shaft speed, airspeed along the shaft), density, controls) -> `ShaftLoads`.

    Parameters
    ----------
    engine : Engine
    propeller : Propeller
    functions : module
        Source of `sqrt`: `math`, `cmath`, `sympy` or `sim.numerics.number.ARRAY_MATH`.

    Notes
    -----
    `engine` acts on the shaft, clockwise positive, and in the opposite sense on the airframe; `windage` and `propeller`
    are the air's torques on engine and propeller. Throttle 0 is the ignition cut: friction alone remains.
    """
    sqrt = functions.sqrt
    sense = engine.rotation * math.copysign(1.0, propeller.ratio)
    own = sense * propeller.ratio
    per_advance = 1.0 / propeller.advance_m_rad

    def loads(speeds: Number, density: Number, controls: Number) -> ShaftLoads:
        spin, along = speeds
        throttle, applied = controls[3:]
        smooth_speed = sqrt(spin * spin + STICTION_RAD_S**2)
        density_ratio = density * (1.0 / SEA_LEVEL_KG_M3)
        speed, advance = own * spin, per_advance * along
        firing = density_ratio * (engine.rotation * engine.firing_torque_n_m * throttle)
        absorbed = propeller.torque_m5 * density * (speed * speed - _TORQUE_LOSS * advance * advance)
        return ShaftLoads(
            engine=applied + firing - engine.friction_torque_n_m * spin / smooth_speed,
            windage=engine.windage_n_m_s2 * density_ratio * spin * smooth_speed,
            propeller=sense * absorbed,
            thrust=propeller.thrust_m4 * density * speed * (speed - advance),
        )

    return loads


def steady_throttle(
    engine: Engine, propeller: Propeller, *, spin_rad_s: float, airspeed_m_s: float, density_kg_m3: float
) -> float:
    """Return the throttle that holds a shaft speed; outside 0 to 1 the engine cannot hold it.

    Parameters
    ----------
    engine : Engine
    propeller : Propeller
    spin_rad_s : float
        Speed of the engine shaft, clockwise positive. [rad/s]
    airspeed_m_s : float
        Along the shaft. [m/s]
    density_kg_m3 : float
        [kg/m³]
    """
    loads = shaft_loads(engine, propeller)((spin_rad_s, airspeed_m_s), density_kg_m3, (0.0, 0.0, 0.0, 0.0, 0.0))
    firing = engine.rotation * engine.firing_torque_n_m * density_kg_m3 / SEA_LEVEL_KG_M3
    return float((loads.windage + propeller.ratio * loads.propeller - loads.engine) / firing)
