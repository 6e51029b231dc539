"""What the air does to the airframe: linear derivatives, a drag polar, and a lift that rounds off at its greatest."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.polar import Polar
    from sim.numerics.number import MathFunctions, Number

STILL_M_S: Final = 1e-3
"""Added in quadrature to the airspeed so that angles keep a value at rest; moves nothing above 1 m/s by over 1e-6."""


@dataclass(frozen=True, slots=True)
class Derivatives:
    """Change of a coefficient with an angle, a rate or a control, per radian; what is not given is 0.

    Rates count as p b/2V, q c/2V, r b/2V. A positive control makes a negative moment, so `pitch_elevator`,
    `roll_aileron` and `yaw_rudder` are negative in a sound airplane.

    Attributes
    ----------
    lift_alpha, lift_q, lift_elevator : float
        Of lift, upward positive. [1/rad]
    pitch_0 : float
        Pitching moment coefficient at no incidence, nose up positive.
    pitch_alpha, pitch_alpha_dot, pitch_q, pitch_elevator : float
        Of the pitching moment, nose up positive. [1/rad]
    side_beta, side_p, side_r, side_rudder : float
        Of the side force, rightward positive. [1/rad]
    roll_beta, roll_p, roll_r, roll_aileron, roll_rudder : float
        Of the rolling moment, right wing down positive. [1/rad]
    yaw_beta, yaw_p, yaw_r, yaw_aileron, yaw_rudder : float
        Of the yawing moment, nose right positive. [1/rad]
    """

    lift_alpha: float = 0.0
    lift_q: float = 0.0
    lift_elevator: float = 0.0
    pitch_0: float = 0.0
    pitch_alpha: float = 0.0
    pitch_alpha_dot: float = 0.0
    pitch_q: float = 0.0
    pitch_elevator: float = 0.0
    side_beta: float = 0.0
    side_p: float = 0.0
    side_r: float = 0.0
    side_rudder: float = 0.0
    roll_beta: float = 0.0
    roll_p: float = 0.0
    roll_r: float = 0.0
    roll_aileron: float = 0.0
    roll_rudder: float = 0.0
    yaw_beta: float = 0.0
    yaw_p: float = 0.0
    yaw_r: float = 0.0
    yaw_aileron: float = 0.0
    yaw_rudder: float = 0.0


class AirLoads(NamedTuple):
    """Force [N] and moment [N m] about the centre of gravity in body axes, and the moment per rate of incidence."""

    x: Number
    y: Number
    z: Number
    roll: Number
    pitch: Number
    yaw: Number
    pitch_per_alpha_dot: Number


def bounded_lift(linear: Number, greatest: float, sqrt: Callable[[Number], Number]) -> Number:
    """Return the lift coefficient x / (1 + (x/CLmax)^8)^(1/8) for the one that the linear law gives.

    Notes
    -----
    Differs from x by 0.05 % at half the greatest and 0.7 % at 70 %, reads 0.917 of it where the linear law reaches it,
    and stays below it for ever: the break of a stall is not in it. Downward the same bound holds.

    Examples
    --------
    >>> round(bounded_lift(3.0, 1.5, math.sqrt), 4)
    1.4993
    """
    share = linear * (1.0 / greatest)
    second = share * share
    fourth = second * second
    return linear / sqrt(sqrt(sqrt(1.0 + fourth * fourth)))


def air_loads(
    polar: Polar, derivatives: Derivatives, functions: MathFunctions = math
) -> Callable[[Number, Number, Number], AirLoads]:
    """Return the function (velocity and rates, density, controls) -> `AirLoads`.

    Parameters
    ----------
    polar : Polar
    derivatives : Derivatives
    functions : module
        Where `sqrt` and `atan` are taken from: `math`, `cmath`, `numpy` or `sympy`.

    Notes
    -----
    The function takes (u, v, w, p, q, r) in body axes [m/s, rad/s], density [kg/m³] and the `Controls` of motion.
    Lift and drag lie in the plane of symmetry, across and along the airspeed in it. Moments are about body axes.
    Good for incidence and sideslip up to some 15° and for rates of turn that swing the wing tip by less than that;
    the slipstream and the yaw of an inclined propeller are not in it.
    """
    d, sqrt, atan = derivatives, functions.sqrt, functions.atan
    induced = polar.induced

    def loads(motion: Number, density: Number, controls: Number) -> AirLoads:
        u, v, w, p, q, r = motion
        elevator, aileron, rudder = controls[:3]
        in_plane_2 = u * u + w * w + STILL_M_S**2
        in_plane, speed = sqrt(in_plane_2), sqrt(in_plane_2 + v * v)
        alpha, beta = 2.0 * atan(w / (u + in_plane)), atan(v / in_plane)
        span_s, chord_s = 0.5 * polar.span_m / speed, 0.5 * polar.chord_m / speed
        roll_rate, pitch_rate, yaw_rate = p * span_s, q * chord_s, r * span_s
        linear = polar.lift_zero + d.lift_elevator * elevator + d.lift_alpha * alpha + d.lift_q * pitch_rate
        lift = bounded_lift(linear, polar.lift_max, sqrt)
        drag = polar.drag_zero_lift + induced * lift * lift
        side = d.side_rudder * rudder + d.side_beta * beta + d.side_p * roll_rate + d.side_r * yaw_rate
        rolling = d.roll_aileron * aileron + d.roll_rudder * rudder + d.roll_beta * beta
        pitching = d.pitch_0 + d.pitch_elevator * elevator + d.pitch_alpha * alpha + d.pitch_q * pitch_rate
        yawing = d.yaw_aileron * aileron + d.yaw_rudder * rudder + d.yaw_beta * beta
        force = (0.5 * polar.area_m2) * density * (in_plane_2 + v * v)
        in_force, span_force, chord_force = force / in_plane, force * polar.span_m, force * polar.chord_m
        return AirLoads(
            x=in_force * (lift * w - drag * u),
            y=force * side,
            z=in_force * (-drag * w - lift * u),
            roll=span_force * (rolling + d.roll_p * roll_rate + d.roll_r * yaw_rate),
            pitch=chord_force * pitching,
            yaw=span_force * (yawing + d.yaw_p * roll_rate + d.yaw_r * yaw_rate),
            pitch_per_alpha_dot=chord_force * chord_s * d.pitch_alpha_dot,
        )

    return loads
