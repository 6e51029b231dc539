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
STATION_SHARE: Final = 0.7
"""Radius over tip radius whose speed stands for the blade's."""
WORKING_TANGENT: Final = math.tan(math.radians(60.0))
"""Scaled advance over scaled rotation, about where a propeller gives no thrust: see `Propeller`."""
STILL_M_S: Final = 1.0
"""Speed of a blade below which the air's loads on it decrease faster than its square, so that they are smooth at 0."""


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
    """A fixed-pitch propeller as a smooth closed form of speed of rotation and airspeed; without coefficients none.

    Attributes
    ----------
    ratio : float
        Its speed over the engine shaft's; negative where a gear reverses it.
    diameter_m : float
        From tip to tip. [m]
    advance_factor : float
        By which the airspeed is multiplied, so that thrust ends where the product is `WORKING_TANGENT` times the speed
        of rotation at 0.7 R.
    thrust_rotation, thrust_advance, torque_rotation, torque_advance : tuple of float
        Coefficients of ascending powers of u = x²/W².
    thrust_scale, torque_scale : float
        By which both are multiplied: a measured efficiency, or an error drawn, one entry an airplane.

    Notes
    -----
    With x the speed of rotation at 0.7 R, in the propeller's own sense, y the airspeed along the shaft times
    `advance_factor`, W² = x² + y² and A the area of the disc,

        thrust = ½ρA W (x P(u) + y S(u)),  torque = ½ρAD W (x P(u) + y S(u)),

    each with its own polynomials P and S: a Fourier series of odd harmonics in the angle atan(y/x), written in powers.
    It has no singularity, is bounded by a constant times W², and changes sign where rotation and airspeed both do.
    `sim.propulsion.propeller_fit` fits it to blade elements.

    References
    ----------
    Van Lammeren, van Manen & Oosterveld, Trans. SNAME 77, 1969: coefficients in four quadrants as Fourier series (from
    memory).
    """

    ratio: float = 1.0
    diameter_m: float = 1.0
    advance_factor: float = 1.0
    thrust_rotation: tuple[float, ...] = ()
    thrust_advance: tuple[float, ...] = ()
    torque_rotation: tuple[float, ...] = ()
    torque_advance: tuple[float, ...] = ()
    thrust_scale: Number = 1.0
    torque_scale: Number = 1.0

    @property
    def station_m(self) -> float:
        """Radius whose speed stands for the blade's [m]."""
        return STATION_SHARE * 0.5 * self.diameter_m

    @property
    def area_m2(self) -> float:
        """Area of the disc [m²]."""
        return 0.25 * math.pi * self.diameter_m**2

    @property
    def static_thrust_m4(self) -> Number:
        """Static thrust over density and the square of the propeller's speed of rotation [m⁴]."""
        return self.thrust_scale * (0.5 * self.area_m2 * self.station_m**2 * sum(self.thrust_rotation))

    @property
    def advance_m_rad(self) -> float:
        """Advance per radian at which there is no thrust, within some percent [m/rad]."""
        return WORKING_TANGENT * self.station_m / self.advance_factor


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
    per_spin, half = sense * propeller.ratio * propeller.station_m, 0.5 * propeller.area_m2
    thrust_rotation, thrust_advance = (
        _scaled(half * propeller.thrust_scale, row) for row in (propeller.thrust_rotation, propeller.thrust_advance)
    )
    torque_rotation, torque_advance = (
        _scaled(sense * half * propeller.diameter_m * propeller.torque_scale, row)
        for row in (propeller.torque_rotation, propeller.torque_advance)
    )

    def loads(speeds: Number, density: Number, controls: Number) -> ShaftLoads:
        spin, along = speeds
        throttle, applied = controls[3:]
        smooth_speed = sqrt(spin * spin + STICTION_RAD_S**2)
        density_ratio = density * (1.0 / SEA_LEVEL_KG_M3)
        firing = density_ratio * (engine.rotation * engine.firing_torque_n_m * throttle)
        turning, advance = per_spin * spin, propeller.advance_factor * along
        square = turning * turning
        wind_square = square + advance * advance + STILL_M_S**2
        share, flow = square / wind_square, density * sqrt(wind_square)
        return ShaftLoads(
            engine=applied + firing - engine.friction_torque_n_m * spin / smooth_speed,
            windage=engine.windage_n_m_s2 * density_ratio * spin * smooth_speed,
            propeller=flow * (turning * _power(torque_rotation, share) + advance * _power(torque_advance, share)),
            thrust=flow * (turning * _power(thrust_rotation, share) + advance * _power(thrust_advance, share)),
        )

    return loads


def _scaled(factor: Number, coefficients: tuple[float, ...]) -> tuple[Number, ...]:
    return tuple(factor * coefficient for coefficient in coefficients)


def _power(coefficients: tuple[Number, ...], x: Number) -> Number:
    """Return the sum of coefficients times ascending powers, 0 without any, by Horner's rule."""
    total = 0.0
    for coefficient in reversed(coefficients):
        total = total * x + coefficient
    return total


CLOSED: Final = (0.0, 0.0, 0.0, 0.0, 0.0)
"""Controls with the throttle closed."""


def drag_power_w(engine: Engine, speed_rad_s: float, density_kg_m3: float) -> float:
    """Return the power that friction and windage of an engine take with the throttle closed [W].

    Parameters
    ----------
    engine : Engine
    speed_rad_s : float
        Size of its speed. [rad/s]
    density_kg_m3 : float
        Air density. [kg/m³]
    """
    loads = shaft_loads(engine, Propeller())((speed_rad_s, 0.0), density_kg_m3, CLOSED)
    return float(speed_rad_s * (loads.windage - loads.engine))


def steady_throttle(
    engine: Engine, propeller: Propeller, *, spin_rad_s: float, airspeed_m_s: float, density_kg_m3: float
) -> Number:
    """Return the throttle that holds a shaft speed; outside 0 to 1 the engine cannot hold it.

    Parameters
    ----------
    engine : Engine
    propeller : Propeller
        Of one airplane, or of many: its scales are then arrays, and so is the throttle.
    spin_rad_s : float
        Speed of the engine shaft, clockwise positive. [rad/s]
    airspeed_m_s : float
        Along the shaft. [m/s]
    density_kg_m3 : float
        [kg/m³]
    """
    loads = shaft_loads(engine, propeller)((spin_rad_s, airspeed_m_s), density_kg_m3, CLOSED)
    firing = engine.rotation * engine.firing_torque_n_m * density_kg_m3 / SEA_LEVEL_KG_M3
    return (loads.windage + propeller.ratio * loads.propeller - loads.engine) / firing
