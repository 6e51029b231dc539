"""The pilot's hands and feet: controls follow what is wanted, no faster than a limb moves, and up to the stop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.history import History
from sim.flight.motion import Airplane, Controls, motion
from sim.numerics.ode import solve

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel

    Wanted = Callable[[float, tuple[float, ...], tuple[float, ...], tuple[float, ...]], tuple[tuple[float, ...], ...]]

LAG_S: Final = 0.1
"""Of the muscles, after the decision: common practice takes .1 to .2 s."""
STOP_TO_STOP_S: Final = 0.8
"""Least time of a whole stroke of stick or pedals: common practice for unboosted controls in flight."""
THROTTLE_S: Final = 0.1
"""From closed to open; an ignition cut is as quick."""
MEMORY: Final = 4
"""Errors that a pilot adds up: height, ball, speed, bank."""


def fly(
    airplane: Airplane,
    travel: Travel,
    wanted: Wanted,
    *,
    state: Sequence[float],
    controls: Controls,
    times_s: NDArray[np.float64],
    breakpoints_s: Sequence[float] = (),
) -> History:
    """Return the flight in which the controls follow what the pilot wants.

    Parameters
    ----------
    airplane : Airplane
    travel : Travel
        Stops of the controls; a stroke from one to the other takes at least `STOP_TO_STOP_S`.
    wanted : function
        (t, state, rates, memory) -> (elevator, aileron, rudder, throttle wanted), (rates of the memory).
    state : sequence of 14 floats
        At the start.
    controls : Controls
        At the start.
    times_s : array
        Ascending, the first the start. [s]
    breakpoints_s : sequence of float
        Times at which `wanted` jumps. [s]

    Raises
    ------
    NoAnswerError
        Where the state diverges; names the time reached.
    """
    f = followed(airplane, travel, wanted)
    flown = solve(f, at_rest(state, controls), times_s, rtol=1e-7, atol=1e-7, breakpoints_s=breakpoints_s).states
    return _history(airplane, times_s, flown, _stops(travel)[2])


def at_rest(state: Sequence[float], controls: Controls) -> tuple[float, ...]:
    """Return the state of airplane, hands and pilot's memory at the start: 14, 4 and `MEMORY` numbers."""
    return (*map(float, state), *(float(c) for c in controls[:4]), *([0.0] * MEMORY))


def followed(
    airplane: Airplane, travel: Travel, wanted: Wanted
) -> Callable[[float, tuple[float, ...]], tuple[float, ...]]:
    """Return f(t, y), the rates of an airplane whose controls follow what a pilot wants; y as `at_rest` has it."""
    rates = motion(airplane)
    low, high, fastest = _stops(travel)

    def f(t: float, y: tuple[float, ...]) -> tuple[float, ...]:
        point, hands, memory = y[:14], y[14:18], y[18:]
        moved = rates(point, Controls(*hands))
        aim, learned = wanted(t, point, moved, memory)
        strokes = (
            max(-quick, min(quick, (max(least, min(most, a)) - x) / lag))
            for a, x, least, most, quick, lag in zip(aim, hands, low, high, fastest, _LAGS, strict=True)
        )
        return (*moved, *strokes, *learned)

    return f


_LAGS: Final = (LAG_S, LAG_S, LAG_S, 0.02)


def _stops(travel: Travel) -> tuple[tuple[float, ...], ...]:
    low = (-travel.elevator_up_rad, -travel.aileron_rad, -travel.rudder_rad, 0.0)
    high = (travel.elevator_down_rad, travel.aileron_rad, travel.rudder_rad, 1.0)
    strokes = (STOP_TO_STOP_S, STOP_TO_STOP_S, STOP_TO_STOP_S, THROTTLE_S)
    return low, high, tuple((b - a) / s for a, b, s in zip(low, high, strokes, strict=True))


def _history(
    airplane: Airplane, times_s: NDArray[np.float64], flown: NDArray[np.float64], fastest: tuple[float, ...]
) -> History:
    rates, gravity = motion(airplane), airplane.gravity_m_s2
    loads = []
    for y in flown:
        e0, e1, e2, e3, u, v, w, p, q, r = y[3:13]
        _, v_dot, w_dot = rates(tuple(y[:14].tolist()), Controls(*y[14:18].tolist()))[7:10]
        down_y, down_z = 2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3
        side = (v_dot - p * w + r * u) / gravity - down_y
        loads.append((down_z - (w_dot - q * u + p * v) / gravity, side))
    across, side = np.array(loads).T
    strokes = np.abs(np.diff(flown[:, 14:17], axis=0)) / np.diff(times_s)[:, None]
    limited = (strokes > 0.98 * np.array(fastest[:3])).any(axis=1)
    elevator, aileron, rudder, throttle = flown[:, 14:18].T
    return History(
        time_s=times_s,
        state=flown[:, :14].T,
        elevator_rad=elevator,
        aileron_rad=aileron,
        rudder_rad=rudder,
        throttle=throttle,
        load_factor=across,
        side_load_factor=side,
        rate_limited_s=float(np.diff(times_s)[limited].sum()),
    )
