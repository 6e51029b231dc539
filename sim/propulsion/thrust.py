"""Thrust of an engine with a fixed-pitch propeller at an airspeed, at steady shaft speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.numerics.bracket import bracketed_roots
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.engine_propeller import Propeller, shaft_loads

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import Number
    from sim.propulsion.engine_propeller import Engine

LEAST_SPEED_SHARE = 1e-6
"""Part of the highest speed below which a shaft counts as standing."""


def at_throttle(throttle: Number) -> tuple[Number, ...]:
    """Return neutral controls at a throttle, 0 for the ignition cut, 1 for full."""
    return 0.0, 0.0, 0.0, throttle, 0.0


FULL = at_throttle(1.0)
"""Controls at full throttle."""


def full_spin_rad_s(
    engine: Engine,
    propeller: Propeller,
    *,
    speed_m_s: Number,
    density_kg_m3: float,
    most_rad_s: Number,
    throttle: Number = 1.0,
) -> Number:
    """Return the engine speed at full throttle, positive, or the highest allowed where the pilot must throttle back.

    With no throttle it is that at which the air turns the propeller; next to none where friction stops it.

    Parameters
    ----------
    engine, propeller : Engine, Propeller
        From `sim.propulsion.engine_propeller`; of many airplanes, their torque and scales are arrays as the airspeed.
    speed_m_s, density_kg_m3 : float or array, float
        Airspeed along the shaft, and air density. [m/s, kg/m³]
    most_rad_s : float or array
        Full speed of the engine. [rad/s]
    throttle : float or array
        0 is the ignition cut, 1 full throttle.
    """
    controls = at_throttle(throttle)
    many = isinstance(speed_m_s, np.ndarray)
    loads = shaft_loads(engine, propeller, ARRAY_MATH if many else math)

    def excess_n_m(magnitude_rad_s: Number) -> Number:
        torques = loads((engine.rotation * magnitude_rad_s, speed_m_s), density_kg_m3, controls)
        return engine.rotation * (torques.engine - torques.windage - propeller.ratio * torques.propeller)

    return _balanced_each(excess_n_m, most_rad_s, speed_m_s) if many else _balanced(excess_n_m, most_rad_s)


def _balanced(excess_n_m: Callable[[Number], Number], most: float) -> float:
    """Return the speed at which no torque is left, the highest where some is left there, the least where none ever."""
    from scipy.optimize import brentq

    least = LEAST_SPEED_SHARE * most
    if excess_n_m(most) >= 0.0:
        return most
    return float(brentq(excess_n_m, least, most, xtol=1e-12)) if excess_n_m(least) > 0.0 else least


def _balanced_each(excess_n_m: Callable[[Number], Number], most_rad_s: Number, speed_m_s: Number) -> Number:
    """Return the same of each entry."""
    most = np.broadcast_to(most_rad_s, speed_m_s.shape)
    least = LEAST_SPEED_SHARE * most
    between = bracketed_roots(excess_n_m, least, most, tolerance=1e-10)
    return np.where(excess_n_m(most) >= 0.0, most, np.where(excess_n_m(least) > 0.0, between, least))


def static_share(
    engine: Engine, torque_n_m: float, *, full_speed_rad_s: float, gear_ratio: float, density_kg_m3: float
) -> float:
    """Return the speed at which full throttle turns an engine at rest, were it free, over its full speed.

    Parameters
    ----------
    engine : Engine
    torque_n_m : float
        Of the propeller at rest and full engine speed, above 0. [N m]
    full_speed_rad_s : float
        Of the engine shaft. [rad/s]
    gear_ratio : float
        Propeller speed over engine speed; its sign does not matter here.
    density_kg_m3 : float
        Air density. [kg/m³]

    Notes
    -----
    Gas torque and friction do not change with speed; propeller and windage take torque with its square.
    """
    loads = shaft_loads(engine, Propeller())((engine.rotation * full_speed_rad_s, 0.0), density_kg_m3, FULL)
    given, windage = (engine.rotation * torque for torque in (loads.engine, loads.windage))
    return math.sqrt(max(given, 0.0) / (windage + abs(gear_ratio) * torque_n_m))


def thrust_n(
    engine: Engine, propeller: Propeller, density_kg_m3: float, most_rad_s: float, *, throttle: Number = 1.0
) -> Callable[[Number], Number]:
    """Return the greatest thrust [N] as a function of airspeed [m/s], with the engine speed limited.

    Parameters
    ----------
    engine, propeller : Engine, Propeller
        From `sim.propulsion.engine_propeller`; of many airplanes, their torque and scales are arrays with one entry
        each, and the function takes an array of airspeeds.
    density_kg_m3 : float
        Air density. [kg/m³]
    most_rad_s : float
        Highest engine speed: full, or cruise. [rad/s]
    throttle : float or array
        0 is the ignition cut, 1 full throttle.

    Notes
    -----
    Static thrust is within about 20 %. Above the airspeed at which the propeller would drive the engine beyond its
    highest speed the pilot throttles back.
    """

    def thrust(speed_m_s: Number) -> Number:
        turning = full_spin_rad_s(
            engine,
            propeller,
            speed_m_s=speed_m_s,
            density_kg_m3=density_kg_m3,
            most_rad_s=most_rad_s,
            throttle=throttle,
        )
        functions = ARRAY_MATH if isinstance(speed_m_s, np.ndarray) else math
        return shaft_loads(engine, propeller, functions)(
            (engine.rotation * turning, speed_m_s), density_kg_m3, at_throttle(throttle)
        ).thrust

    return thrust
