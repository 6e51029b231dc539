"""How thrust and torque of a propeller change with its speed of rotation, from its closed form."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from sim.propulsion.engine_propeller import STILL_M_S

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import MathFunctions, Number
    from sim.propulsion.engine_propeller import Engine, Propeller


class PropellerSlopes(NamedTuple):
    """Change of thrust [N s] and of the propeller's torque [N m s] for a rad/s of the propeller, clockwise positive."""

    thrust: Number
    torque: Number


def propeller_slopes(
    engine: Engine, propeller: Propeller, functions: MathFunctions = math
) -> Callable[[Number, Number], PropellerSlopes]:
    """Return the function ((shaft speed, airspeed along the shaft), density) -> `PropellerSlopes` at that airspeed.

    Parameters
    ----------
    engine : Engine
        Whose rotation gives the propeller's sense.
    propeller : Propeller
    functions : module
        Source of `sqrt`, as for `sim.propulsion.engine_propeller.shaft_loads`.

    Notes
    -----
    Exact derivatives of thrust and torque of `shaft_loads`: with s = x²/W², ds/dx = 2 x (1 − s)/W².
    """
    sense = engine.rotation * math.copysign(1.0, propeller.ratio)
    per_spin = sense * propeller.ratio * propeller.station_m
    half = 0.5 * propeller.area_m2 * propeller.station_m
    rows = (
        (propeller.thrust_rotation, propeller.thrust_advance),
        (propeller.torque_rotation, propeller.torque_advance),
    )
    per_thrust, per_torque = sense * propeller.thrust_scale, propeller.diameter_m * propeller.torque_scale

    def slopes(speeds: Number, density: Number) -> PropellerSlopes:
        spin, along = speeds
        turning, advance = per_spin * spin, propeller.advance_factor * along
        square = turning * turning
        wind_square = square + advance * advance + STILL_M_S**2
        share, wind = square / wind_square, functions.sqrt(wind_square)
        bend = 2.0 * turning * (1.0 - share) / wind
        thrust, torque = (
            turning * (turning * _value(rotation, share) + advance * _value(forward, share)) / wind
            + wind * _value(rotation, share)
            + bend * (turning * _slope(rotation, share) + advance * _slope(forward, share))
            for rotation, forward in rows
        )
        flow = half * density
        return PropellerSlopes(per_thrust * flow * thrust, per_torque * flow * torque)

    return slopes


def _value(coefficients: tuple[float, ...], x: Number) -> Number:
    total = 0.0
    for coefficient in reversed(coefficients):
        total = total * x + coefficient
    return total


def _slope(coefficients: tuple[float, ...], x: Number) -> Number:
    return _value(tuple(power * one for power, one in enumerate(coefficients))[1:], x)
