"""Air loads on the airframe from linear derivatives, a drag polar and a lift coefficient bounded by CLmax."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.polar import Polar
    from sim.numerics.number import MathFunctions, Number

SPEED_FLOOR_M_S: Final = 1e-3
"""Added in quadrature to the airspeed so that angles are defined at rest; its effect above 1 m/s is below 1e-6."""


@dataclass(frozen=True, slots=True)
class Derivatives:
    """Derivatives of the coefficients with respect to angles, non-dimensional rates and controls, per radian.

    Rates are p b/2V, q c/2V and r b/2V. A positive control deflection gives a negative moment, so `pitch_elevator`,
    `roll_aileron` and `yaw_rudder` are normally negative.

    Attributes
    ----------
    lift_alpha, lift_q, lift_elevator : float
        Lift, upward positive. [1/rad]
    pitch_0 : float
        Pitching moment coefficient at zero angle of attack, nose up positive.
    pitch_alpha, pitch_alpha_dot, pitch_q, pitch_elevator : float
        Pitching moment, nose up positive. [1/rad]
    side_beta, side_p, side_r, side_rudder : float
        Side force, rightward positive. [1/rad]
    roll_beta, roll_p, roll_r, roll_aileron, roll_rudder : float
        Rolling moment, right wing down positive. [1/rad]
    yaw_beta, yaw_p, yaw_r, yaw_aileron, yaw_rudder : float
        Yawing moment, nose right positive. [1/rad]
    side_p_per_lift, side_r_per_lift, roll_beta_per_lift, roll_r_per_lift, yaw_beta_per_lift, yaw_p_per_lift,
    yaw_r_per_lift, yaw_aileron_per_lift : float
        What a unit of lift coefficient adds to the derivative of that name, which is that without lift. [1/rad]
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
    side_p_per_lift: float = 0.0
    side_r_per_lift: float = 0.0
    roll_beta_per_lift: float = 0.0
    roll_r_per_lift: float = 0.0
    yaw_beta_per_lift: float = 0.0
    yaw_p_per_lift: float = 0.0
    yaw_r_per_lift: float = 0.0
    yaw_aileron_per_lift: float = 0.0


class AirLoads(NamedTuple):
    """Force [N] and moment [N m] about the centre of gravity in body axes.

    The pitching moment due to the rate of angle of attack is separate, per rad/s [N m s]: that rate follows from the
    forces. Lift over the airspeed in the plane of symmetry [N s/m] is what a slipstream has more of.
    """

    x: Number
    y: Number
    z: Number
    roll: Number
    pitch: Number
    yaw: Number
    pitch_per_alpha_dot: Number
    lift_per_speed: Number


def bounded_lift(linear: Number, lift_max: float, sqrt: Callable[[Number], Number]) -> Number:
    """Return the lift coefficient x / (1 + (x/CLmax)^8)^(1/8) for the linear lift coefficient x.

    Notes
    -----
    Below x by 0.05 % at half of CLmax and by 0.7 % at 70 %; 0.917 CLmax where x reaches CLmax; never above CLmax. The
    loss of lift past the stall is not modelled. The same bound holds for negative lift.

    Examples
    --------
    >>> round(bounded_lift(3.0, 1.5, math.sqrt), 4)
    1.4993
    """
    ratio = linear * (1.0 / lift_max)
    second = ratio * ratio
    fourth = second * second
    return linear / sqrt(sqrt(sqrt(1.0 + fourth * fourth)))


def air_loads(
    polar: Polar, derivatives: Derivatives, functions: MathFunctions = math, *, bounded: bool = True
) -> Callable[[Number, Number, Number], AirLoads]:
    """Return the function (velocity and rates, density, controls) -> `AirLoads`.

    Parameters
    ----------
    polar : Polar
    derivatives : Derivatives
    functions : module
        Source of `sqrt` and `atan`: `math`, `cmath`, `sympy` or `sim.numerics.number.ARRAY_MATH`.
    bounded : bool
        Whether lift is bounded by CLmax; not where strips bound it.

    Notes
    -----
    The function takes (u, v, w, p, q, r) in body axes [m/s, rad/s], density [kg/m³] and the `Controls` of motion.
    Lift and drag act in the plane of symmetry, perpendicular and parallel to the airspeed in it. Moments are about
    body axes. Valid within the bounds of `sim.flight.validity`. Free of the slipstream, which
    `sim.aerodynamics.slipstream` adds.
    """
    d, sqrt, atan = derivatives, functions.sqrt, functions.atan
    induced = polar.induced

    def loads(motion: Number, density: Number, controls: Number) -> AirLoads:
        u, v, w, p, q, r = motion
        elevator, aileron, rudder = controls[:3]
        in_plane_2 = u * u + w * w + SPEED_FLOOR_M_S**2
        in_plane, speed = sqrt(in_plane_2), sqrt(in_plane_2 + v * v)
        alpha, beta = 2.0 * atan(w / (u + in_plane)), atan(v / in_plane)
        span_s, chord_s = 0.5 * polar.span_m / speed, 0.5 * polar.chord_m / speed
        roll_rate, pitch_rate, yaw_rate = p * span_s, q * chord_s, r * span_s
        linear = polar.lift_zero + d.lift_elevator * elevator + d.lift_alpha * alpha + d.lift_q * pitch_rate
        lift = bounded_lift(linear, polar.lift_max, sqrt) if bounded else linear
        drag = polar.drag_zero_lift + induced * lift * lift
        side_p, side_r = d.side_p + d.side_p_per_lift * lift, d.side_r + d.side_r_per_lift * lift
        roll_beta, roll_r = d.roll_beta + d.roll_beta_per_lift * lift, d.roll_r + d.roll_r_per_lift * lift
        yaw_beta, yaw_aileron = d.yaw_beta + d.yaw_beta_per_lift * lift, d.yaw_aileron + d.yaw_aileron_per_lift * lift
        yaw_p, yaw_r = d.yaw_p + d.yaw_p_per_lift * lift, d.yaw_r + d.yaw_r_per_lift * lift
        side = d.side_rudder * rudder + d.side_beta * beta + side_p * roll_rate + side_r * yaw_rate
        rolling = d.roll_aileron * aileron + d.roll_rudder * rudder + roll_beta * beta
        pitching = d.pitch_0 + d.pitch_elevator * elevator + d.pitch_alpha * alpha + d.pitch_q * pitch_rate
        yawing = yaw_aileron * aileron + d.yaw_rudder * rudder + yaw_beta * beta
        force = (0.5 * polar.area_m2) * density * (in_plane_2 + v * v)
        in_force, span_force, chord_force = force / in_plane, force * polar.span_m, force * polar.chord_m
        return AirLoads(
            x=in_force * (lift * w - drag * u),
            y=force * side,
            z=in_force * (-drag * w - lift * u),
            roll=span_force * (rolling + d.roll_p * roll_rate + roll_r * yaw_rate),
            pitch=chord_force * pitching,
            yaw=span_force * (yawing + yaw_p * roll_rate + yaw_r * yaw_rate),
            pitch_per_alpha_dot=chord_force * chord_s * d.pitch_alpha_dot,
            lift_per_speed=in_force * lift,
        )

    return loads
