"""Steady straight sideslips: how much wind from one side full controls hold with the nose along the path."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

from sim.flight.many_airplanes import only_of
from sim.flight.motion import Airplane, Controls, motion
from sim.numerics.newton import solve_batch
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.numerics.number import Number

    Array = NDArray[np.float64]

RESIDUAL = 1e-9
"""A sideslip is found when no rate is larger. [m/s², rad/s²]"""
MAX_STEP = np.array([0.1, 0.1, 0.1, 0.1, 0.2, 0.2])
"""Of incidence, sideslip, pitch, bank, elevator, and ailerons or rudder. [rad]"""
FIRST = (0.1, 0.1, 0.0, 0.1, 0.0, 0.0)
"""Where the search begins, the wind from the right."""
TURNED = np.array([1.0, -1.0, 1.0, -1.0, 1.0, -1.0])
"""What changes sign with the side."""


@dataclass(frozen=True, slots=True)
class Sideslips:
    """Steady straight sideslips of n airplanes; not-a-number where none balances.

    Attributes
    ----------
    wind_m_s : array
        Across the path over the ground, from the side asked for, with the nose along that path. [m/s]
    sideslip_rad, bank_rad : array
        Wind from the right, right wing down positive. [rad]
    rudder_rad, aileron_rad : array
        [rad]
    """

    wind_m_s: Array
    sideslip_rad: Array
    bank_rad: Array
    rudder_rad: Array
    aileron_rad: Array


def most_sideslip(
    airplane: Airplane,
    travel: Travel,
    speed_m_s: Array,
    *,
    spin_rad_s: Array,
    altitude_m: float,
    throttle: float,
    side: float,
) -> tuple[Sideslips, NDArray[np.bool_]]:
    """Return the sideslip into the wind from one side with full rudder, or with full ailerons where that is less.

    Parameters
    ----------
    airplane, travel : Airplane, Travel
        Of one airplane or of n.
    speed_m_s, spin_rad_s : array, shape (n,)
        Airspeed, and speed of the shaft with its sign. [m/s, rad/s]
    altitude_m, throttle : float
        [m], and 0 for the ignition cut, 1 for full throttle; the path sinks or climbs as that has it.
    side : float
        From which the wind comes: +1 right, −1 left.

    Returns
    -------
    Sideslips, and array of bool
        And of each whether the rudder is at its stop, not the ailerons.

    Notes
    -----
    Wing to windward low, rudder to leeward: no acceleration by the equations of motion, solved by Newton's method.
    """
    given = speed_m_s, spin_rad_s, np.full_like(speed_m_s, altitude_m)
    found = [
        _solved(airplane, given, throttle=throttle, side=side, stop=stop)
        for stop in (Controls(rudder_rad=side * travel.rudder_rad), Controls(aileron_rad=-side * travel.aileron_rad))
    ]
    rudders, ailerons = found
    by_rudder = np.abs(rudders.aileron_rad) <= travel.aileron_rad
    both = (np.where(by_rudder, getattr(rudders, one.name), getattr(ailerons, one.name)) for one in fields(Sideslips))
    return Sideslips(*both), by_rudder


def _solved(
    airplane: Airplane, given: tuple[Array, Array, Array], *, throttle: float, side: float, stop: Controls
) -> Sideslips:
    """Return the sideslips with one of the controls at its stop: the one that is not neutral."""

    def controls(x: Number) -> Controls:
        free = (stop.aileron_rad, x[5]) if stop.aileron_rad else (x[5], stop.rudder_rad)
        return Controls(x[4], *free, throttle)

    def residual(x: Number, systems: NDArray[np.intp]) -> Number:
        state = _state(x, *(each[systems] for each in given))
        rates = motion(only_of(airplane, systems), ARRAY_MATH)(state, controls(x))
        return np.stack(rates[7:13])

    start = np.array(FIRST) * (TURNED if side < 0.0 else 1.0)
    x = np.repeat(start[:, None], given[0].size, axis=1)
    solved = solve_batch(residual, x, max_step=MAX_STEP, tolerance=RESIDUAL)
    x = np.where(solved, x, np.nan)
    v, w = _state(x, *given)[8:10]
    moved = controls(x)
    return Sideslips(
        wind_m_s=side * (v * np.cos(x[3]) - w * np.sin(x[3])),
        sideslip_rad=x[1],
        bank_rad=x[3],
        rudder_rad=moved.rudder_rad + 0.0 * x[0],
        aileron_rad=moved.aileron_rad + 0.0 * x[0],
    )


def _state(x: Number, speed_m_s: Array, spin_rad_s: Array, altitude_m: Array) -> tuple[Number, ...]:
    """Return the state, heading north, of straight flight with unknowns `x`."""
    alpha, beta, half_pitch, half_bank = x[0], x[1], 0.5 * x[2], 0.5 * x[3]
    along, zero = speed_m_s * np.cos(beta), 0.0 * alpha
    return (
        zero,
        zero,
        zero - altitude_m,
        np.cos(half_bank) * np.cos(half_pitch),
        np.sin(half_bank) * np.cos(half_pitch),
        np.cos(half_bank) * np.sin(half_pitch),
        -np.sin(half_bank) * np.sin(half_pitch),
        along * np.cos(alpha),
        speed_m_s * np.sin(beta),
        along * np.sin(alpha),
        zero,
        zero,
        zero,
        zero + spin_rad_s,
    )
