"""Autorotation: a wing beyond its stall that rolls about the stream by itself, and at what rate it goes on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics.forces import AirLoads
from sim.aerodynamics.slipstream import Wash
from sim.aerodynamics.strips_loads import strip_loads
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from sim.aerodynamics.strips import Strips

    Numbers = NDArray[np.float64]

SMALL: Final = 1e-3
"""Roll rate, over twice the speed and times the span, at which the damping is taken."""
RATES: Final = np.linspace(0.0, 1.0, 201)
"""The like where a steady rate is looked for."""
NO_LOADS: Final = AirLoads(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


class Autorotation(NamedTuple):
    """Against the angle of attack: slope of the rolling moment, and the rate at which it rolls on by itself.

    Attributes
    ----------
    damping : array
        Of the rolling moment coefficient about the stream to the roll rate p b/2V; positive where it drives the roll.
    steady_rate : array
        The fastest p b/2V at which no moment is left and a faster roll is slowed; 0 where there is none.
    """

    damping: Numbers
    steady_rate: Numbers


def rolling_moment(strips: Strips, alpha_rad: ArrayLike, rate: ArrayLike) -> Numbers:
    """Return the rolling moment coefficient about the stream of an airplane that rolls about it, controls middle.

    Parameters
    ----------
    strips : Strips
        Of the airplane; strips, fuselage and parts give all loads.
    alpha_rad : array_like
        Angle of attack. [rad]
    rate : array_like
        Roll rate p b/2V, broadcast with the angle; right wing down positive.
    """
    alpha, rate = np.broadcast_arrays(np.asarray(alpha_rad, float), np.asarray(rate, float))
    cosine, sine, speed = np.cos(alpha), np.sin(alpha), 30.0
    turning = rate * (2.0 * speed / strips.span_m)
    zero = np.zeros_like(alpha)
    motion = (speed * cosine, zero, speed * sine, turning * cosine, zero, turning * sine)
    found = strip_loads(strips, ARRAY_MATH, alone=True)(motion, (0.0, 0.0, 0.0), NO_LOADS, Wash(1.0))
    return np.asarray((found.roll * cosine + found.yaw * sine) / (0.5 * speed**2 * strips.area_m2 * strips.span_m))


def autorotation(strips: Strips, alpha_rad: ArrayLike) -> Autorotation:
    """Return damping and steady rate of rolling about the stream at angles of attack.

    Parameters
    ----------
    strips : Strips
        Of the airplane.
    alpha_rad : array_like, shape (n,)
        [rad]

    Notes
    -----
    As a model on a spindle along the stream of a tunnel rolls. Between the greatest lift and 35° strips are uncertain:
    they know nothing of the delay by which a rotating wing stalls, nor of how one plane blankets another.

    References
    ----------
    Glauert, The Rotation of an Aerofoil about a Fixed Axis, ARC R&M 595, 1919 (damping reverses where section slope
    and drag add up to less than nothing); Knight, NACA TR 273, 1927 (what tunnel models do).
    """
    alpha = np.asarray(alpha_rad, float)
    damping = rolling_moment(strips, alpha, SMALL) / SMALL
    moment = rolling_moment(strips, alpha[:, None], RATES[None, :])
    steady = np.zeros(len(alpha))
    for place, row in enumerate(moment):
        falls = np.flatnonzero((row[1:-1] > 0.0) & (row[2:] <= 0.0))
        if falls.size:
            at = int(falls[-1]) + 1
            steady[place] = RATES[at] + (RATES[at + 1] - RATES[at]) * row[at] / (row[at] - row[at + 1])
    return Autorotation(damping, steady)
