"""The record of a flight: states, controls and load factors against time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.flight.motion import Airplane, Controls, motion_of_floats

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class History:
    """A flight, sampled in time; of many flights every array has an axis for them before that of time.

    Attributes
    ----------
    time_s : array, shape (m,)
        [s]
    state : array, shape (14, m)
        As in `sim.flight.motion`.
    elevator_rad, aileron_rad, rudder_rad : array, shape (m,)
        Deflections, positive for a negative moment. [rad]
    throttle : array, shape (m,)
        0 to 1.
    load_factor, side_load_factor : array, shape (m,)
        Specific force upward and to the right in body axes, in units of gravity.
    rate_limited_s : float
        Time during which a control moved at its rate limit. [s]
    """

    time_s: Array
    state: Array
    elevator_rad: Array
    aileron_rad: Array
    rudder_rad: Array
    throttle: Array
    load_factor: Array
    side_load_factor: Array
    rate_limited_s: float

    @property
    def controls(self) -> Controls:
        """Return deflections and throttle together."""
        return Controls(self.elevator_rad, self.aileron_rad, self.rudder_rad, self.throttle)


def load_factors(
    airplane: Airplane,
    state: Array,
    controls: Array,
    rates: Callable[[Number, Controls], tuple[Number, ...]] | None = None,
) -> tuple[Array, Array]:
    """Return the specific force upward and to the right in body axes, in units of gravity, each of shape (m,).

    Parameters
    ----------
    airplane : Airplane
        With gravity.
    state : array, shape (m, 14)
        As in `sim.flight.motion`.
    controls : array, shape (m, 4)
        Elevator, aileron, rudder [rad], and throttle.
    rates : function
        (state, controls) -> rates of the state; None for those of free flight.
    """
    moves, gravity = motion_of_floats(airplane) if rates is None else rates, airplane.gravity_m_s2
    factors = [
        specific_forces(row, moves(tuple(row), Controls(*settings)), gravity)
        for row, settings in zip(state.tolist(), controls.tolist(), strict=True)
    ]
    upward, rightward = np.array(factors).T
    return upward, rightward


def specific_forces(state: Number, rates: Number, gravity_m_s2: float) -> tuple[Number, Number]:
    """Return the specific force upward and to the right in body axes, in units of gravity.

    Parameters
    ----------
    state, rates : sequences of 14 numbers or arrays
        As in `sim.flight.motion`, and their rates.
    gravity_m_s2 : float
        [m/s²]
    """
    e0, e1, e2, e3, u, v, w, p, q, r = state[3:13]
    _, v_dot, w_dot = rates[7:10]
    down_y, down_z = 2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3
    side = (v_dot - p * w + r * u) / gravity_m_s2 - down_y
    return down_z - (w_dot - q * u + p * v) / gravity_m_s2, side
