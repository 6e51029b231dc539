"""An engine on a bench in a damped gimbal: how its nose moves when it is pushed, with the rotor spinning or stopped."""

from __future__ import annotations

import cmath
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Gimbal:
    """An engine free to pitch and yaw about its middle.

    Attributes
    ----------
    angular_momentum_kg_m2_s : float
        Of the rotor along the shaft, clockwise from the cockpit positive; 0 for a stopped one. [kg m²/s]
    transverse_inertia_kg_m2 : float
        About the pitch and the yaw axis alike, above 0. [kg m²]
    damping_kg_m2_s : float
        Moment of the bearings per rad/s of either rate, above 0. [kg m²/s]
    """

    angular_momentum_kg_m2_s: float
    transverse_inertia_kg_m2: float
    damping_kg_m2_s: float


@dataclass(frozen=True, slots=True)
class Nose:
    """Where the nose points and how it moves, as complex numbers: nose up real, nose right imaginary.

    Attributes
    ----------
    angle_rad, rate_rad_s : complex
        From the middle, and its rate. [rad, rad/s]
    """

    angle_rad: complex = 0j
    rate_rad_s: complex = 0j


def steady_rate_rad_s(gimbal: Gimbal, torque_n_m: complex) -> complex:
    """Return the rate at which a constant torque turns the nose in the end, nose up + i nose right [N m, rad/s].

    With little damping it is the precession torque / angular momentum, at right angles to the torque.
    """
    return torque_n_m / _resistance(gimbal)


def torque_for_n_m(gimbal: Gimbal, rate_rad_s: complex) -> complex:
    """Return the torque that keeps up a rate of the nose, the inverse of `steady_rate_rad_s` [rad/s, N m]."""
    return rate_rad_s * _resistance(gimbal)


def moved(gimbal: Gimbal, nose: Nose, torque_n_m: complex, time_s: float) -> Nose:
    """Return the nose after a constant torque has pushed it for a time.

    Parameters
    ----------
    gimbal : Gimbal
        The engine.
    nose : Nose
        Before.
    torque_n_m : complex
        On the airframe, nose up real and nose right imaginary. [N m]
    time_s : float
        At least 0. [s]

    Notes
    -----
    A q' = M_pitch − c q − h r and A r' = M_yaw − c r + h q, with the moment −ω × h of `sim.rotor.couple` and small
    angles; for q + i r this is one linear equation, A z' = M − (c − i h) z, solved in closed form.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, section 4.6, for the couple.
    """
    steady = steady_rate_rad_s(gimbal, torque_n_m)
    decay = _resistance(gimbal) / gimbal.transverse_inertia_kg_m2
    left, past = cmath.exp(-decay * time_s), nose.rate_rad_s - steady
    return Nose(nose.angle_rad + steady * time_s + past * (1.0 - left) / decay, steady + past * left)


def _resistance(gimbal: Gimbal) -> complex:
    return gimbal.damping_kg_m2_s - 1j * gimbal.angular_momentum_kg_m2_s
