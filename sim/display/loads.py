"""Force between roller and cam over a turn, the torque on the cam, and the speed at which the roller lifts off."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray


def contact_force(
    *,
    preload_n: float,
    rate_n_per_m: float,
    mass_kg: float,
    cam_rad_s: float,
    lift_m: FloatArray,
    acceleration_m: FloatArray,
) -> FloatArray:
    """Return the force along the follower's path that keeps roller and cam together: F0 + k s + m s'' ω². [N].

    Parameters
    ----------
    preload_n, rate_n_per_m : float
        Spring force with the follower down, and rate. [N], [N/m]
    mass_kg : float
        Moving mass at the roller. [kg]
    cam_rad_s : float
        Cam speed. [rad/s]
    lift_m, acceleration_m : array
        Lift, and its second derivative with respect to the cam angle. [m]

    Notes
    -----
    Negative: the roller has left the cam. Weight and friction of the slide are neglected.
    """
    force: FloatArray = preload_n + rate_n_per_m * lift_m + mass_kg * acceleration_m * cam_rad_s**2
    return force


def torque(force_n: FloatArray, velocity_m: FloatArray) -> FloatArray:
    """Return the torque on the cam, F s', positive while it is driven; its mean over a turn is zero. [N m]."""
    return force_n * velocity_m


def float_speed(
    *, preload_n: float, rate_n_per_m: float, mass_kg: float, lift_m: FloatArray, acceleration_m: FloatArray
) -> FloatArray:
    """Return the cam speed above which the roller leaves the cam somewhere, least along the last axis. [rad/s].

    Parameters
    ----------
    preload_n, rate_n_per_m, mass_kg, lift_m, acceleration_m
        As for `contact_force`. [N], [N/m], [kg], [m]

    Notes
    -----
    ω² = min (F0 + k s)/(−m s'') where the spring alone decelerates the roller, s'' < 0.
    """
    held = preload_n + rate_n_per_m * lift_m
    slowed = np.where(acceleration_m < 0.0, -mass_kg * acceleration_m, 1.0)
    square = np.where(acceleration_m < 0.0, held / slowed, math.inf)
    speed: FloatArray = np.sqrt(np.min(square, axis=-1))
    return speed
