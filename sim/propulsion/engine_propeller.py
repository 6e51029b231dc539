"""What turns the shaft and what it gives: engine, propeller, and the rotors they spin."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.atmosphere import SEA_LEVEL_KG_M3

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import MathFunctions, Number

STICTION_RAD_S: Final = 5.0
"""Below about this speed friction fades to nothing, so that a stopping shaft stops instead of chattering."""
_TORQUE_LOSS: Final = 0.75
_BEST: Final = 2.0 / 3.0


@dataclass(frozen=True, slots=True)
class Rotor:
    """Something that turns with the engine shaft, or geared to it.

    Attributes
    ----------
    polar_inertia_kg_m2 : float
        About the shaft axis. [kg m²]
    ratio : float
        Its speed over the engine shaft's; negative where it turns the other way.
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
        What the gas gives at full throttle and sea level, friction and windage not yet taken off. [N m]
    friction_torque_n_m : float
        Taken off at every speed. [N m]
    windage_n_m_s2 : float
        Drag torque of the turning engine itself over speed squared, at sea level: a rotary's cylinders. [N m s²]
    """

    rotation: float = 1.0
    firing_torque_n_m: float = 0.0
    friction_torque_n_m: float = 0.0
    windage_n_m_s2: float = 0.0


@dataclass(frozen=True, slots=True)
class Propeller:
    """Fixed pitch, by three numbers.

    Attributes
    ----------
    ratio : float
        Its speed over the engine shaft's; negative where a gear reverses it.
    torque_m5 : float
        Torque at a standing start over density and propeller speed squared. [m⁵]
    thrust_m4 : float
        Thrust at a standing start over density and propeller speed squared. [m⁴]
    advance_m_rad : float
        Way made per radian of turn at which the thrust is gone: experimental mean pitch over 2π. [m/rad]
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
        Net: friction and windage already taken off. [W]
    speed_rad_s : float
        Of the shaft at that power, greater than 0. [rad/s]
    rotation : float
        +1 clockwise from the cockpit, −1 anticlockwise.
    friction_torque_n_m : float
        At least 0. [N m]
    windage_w : float
        Power lost to the air by the turning engine at that speed. [W]

    Notes
    -----
    The gas torque does not depend on speed and goes with the density of the air. A friction of 13 % of the net torque
    then gives the fall of power with height of Gagg and Farrar (1934), P/P0 = 1.132 σ − 0.132.
    """
    slip = math.hypot(speed_rad_s, STICTION_RAD_S)
    windage = windage_w / (speed_rad_s**2 * slip)
    lost = friction_torque_n_m * speed_rad_s / slip + windage * speed_rad_s * slip
    return Engine(rotation, power_w / speed_rad_s + lost, friction_torque_n_m, windage)


def matched_propeller(
    *, power_w: float, speed_rad_s: float, airspeed_m_s: float, efficiency: float, ratio: float = 1.0
) -> Propeller:
    """Return the propeller that takes a power at an engine speed and airspeed, at its best efficiency and sea level.

    Parameters
    ----------
    power_w : float
        Net power of the engine. [W]
    speed_rad_s : float
        Of the engine shaft, greater than 0. [rad/s]
    airspeed_m_s : float
        Along the shaft, greater than 0. [m/s]
    efficiency : float
        Best efficiency, 0 to 1.
    ratio : float
        Propeller speed over engine speed, not 0.

    Notes
    -----
    Torque ρ kQ (Ω² − ¾ V²/a²) and thrust ρ kT Ω (Ω − V/a), with a the `advance_m_rad`. Thrust is gone at V = a Ω and
    torque at 1.15 times that, where the propeller begins to drive the engine; the best efficiency lies at 2/3 of it,
    and a standing airplane holds √(2/3) = 82 % of the speed. Static thrust of a wooden propeller comes out within
    some 15 %. For a propeller that turns in its own sense.

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
        Where `sqrt` is taken from: `math`, `cmath`, `numpy` or `sympy`.

    Notes
    -----
    `engine` acts on the shaft, against it on the airframe, clockwise positive; `windage` and `propeller` are what the
    air takes from the engine and from the propeller. Throttle 0 is the ignition cut: friction alone is left.
    """
    sqrt = functions.sqrt
    sense = engine.rotation * math.copysign(1.0, propeller.ratio)
    own = sense * propeller.ratio
    per_advance = 1.0 / propeller.advance_m_rad

    def loads(turning: Number, density: Number, controls: Number) -> ShaftLoads:
        spin, along = turning
        throttle, given = controls[3:]
        slip = sqrt(spin * spin + STICTION_RAD_S**2)
        share = density * (1.0 / SEA_LEVEL_KG_M3)
        speed, way = own * spin, per_advance * along
        firing = share * (engine.rotation * engine.firing_torque_n_m * throttle)
        taken = propeller.torque_m5 * density * (speed * speed - _TORQUE_LOSS * way * way)
        return ShaftLoads(
            engine=given + firing - engine.friction_torque_n_m * spin / slip,
            windage=engine.windage_n_m_s2 * share * spin * slip,
            propeller=sense * taken,
            thrust=propeller.thrust_m4 * density * speed * (speed - way),
        )

    return loads


def steady_throttle(
    engine: Engine, propeller: Propeller, *, spin_rad_s: float, airspeed_m_s: float, density_kg_m3: float
) -> float:
    """Return the throttle that holds a shaft speed; outside 0 to 1 the engine cannot.

    Parameters
    ----------
    engine : Engine
    propeller : Propeller
    spin_rad_s : float
        Of the engine shaft, clockwise positive. [rad/s]
    airspeed_m_s : float
        Along the shaft. [m/s]
    density_kg_m3 : float
        [kg/m³]
    """
    loads = shaft_loads(engine, propeller)((spin_rad_s, airspeed_m_s), density_kg_m3, (0.0, 0.0, 0.0, 0.0, 0.0))
    firing = engine.rotation * engine.firing_torque_n_m * density_kg_m3 / SEA_LEVEL_KG_M3
    return float((loads.windage + propeller.ratio * loads.propeller - loads.engine) / firing)
