"""Lift of the whole tailplane and side force of the whole fin in a stream: of flight, or of the slipstream."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.aerodynamics.slipstream import Slipstream
    from sim.numerics.number import Number


def tail_lift(slip: Slipstream, motion: Number, elevator: Number, stream: Number) -> Number:
    """Return the lift of the whole tailplane in a stream, up positive [N].

    Parameters
    ----------
    slip : Slipstream
        Of the airplane.
    motion : tuple of float
        Airspeed, speed along z and pitch rate. [m/s, m/s, rad/s]
    elevator : float
        Trailing edge down positive. [rad]
    stream : tuple of float
        Half the density times the speed along the airplane, and its dynamic pressure. [kg/(m² s), Pa]
    """
    (speed, w, q), (along, full) = motion, stream
    return along * (
        slip.tail_angle_m2 * w + slip.tail_rate_m2 * slip.tail_arm_m * q + slip.tail_stream_m2 * speed
    ) + full * (slip.tail_setting_m2 + slip.elevator_m2 * elevator)


def fin_side(slip: Slipstream, motion: Number, rudder: Number, stream: Number) -> Number:
    """Return the side force of the whole fin in a stream, right positive [N].

    Parameters
    ----------
    slip : Slipstream
        Of the airplane.
    motion : tuple of float
        Speed along y, roll rate and yaw rate. [m/s, rad/s, rad/s]
    rudder : float
        Trailing edge left positive. [rad]
    stream : tuple of float
        As in `tail_lift`.
    """
    (v, p, r), (along, full) = motion, stream
    slipping = slip.fin_angle_m2 * v - slip.fin_rate_m2 * slip.fin_arm_m * r + slip.fin_roll_m3 * p
    return full * slip.rudder_m2 * rudder - along * slipping
