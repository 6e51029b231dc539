"""Many flights at once with moving controls, as `sim.flight.actuation` flies one: each airplane one entry of arrays.

In equal steps of the classical Runge-Kutta method: controls reach stops and rate limits at other times in each flight,
and steps that met each of these times would be too many.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.actuation import INTEGRATORS, LAGS, limits
from sim.flight.history import History, specific_forces
from sim.flight.motion import STATE, Controls, motion
from sim.numerics.array_kernel import ArrayKernel
from sim.numerics.ode import rk4_step
from sim.numerics.trace import record

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from numpy.typing import NDArray

    from sim.flight.actuation import ControlLaw
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane

    Array = NDArray[np.float64]

STEP_S: Final = 0.05
"""Longest step: half the lag of a limb, and within the stability of the throttle's, 2.78 times 0.02 s."""
CONTROLS: Final = 4


def fly_many(
    airplane: Airplane,
    travel: Travel,
    law: ControlLaw,
    *,
    state: Array,
    controls: Controls,
    times_s: Array,
    breakpoints_s: Sequence[float] = (),
    progress: Callable[[Iterable[int]], Iterable[int]] = iter,
) -> History:
    """Return many flights in which the controls follow the commands of a control law.

    Parameters
    ----------
    airplane : Airplane
        Whose numbers may be arrays with one entry a flight: see `sim.flight.many_airplanes`.
    travel : Travel
        Stops of the controls.
    law : function
        As in `sim.flight.actuation.fly`, of arrays.
    state : array, shape (14, N)
        At the start.
    controls : Controls
        At the start, arrays of shape (N,).
    times_s : array
        Ascending, beginning with the start. [s]
    breakpoints_s : sequence of float
        Times at which the commands are discontinuous. [s]
    progress : callable
        Wraps the numbers of the intervals between the times, to show progress.

    Returns
    -------
    History
        Every array with an axis for the flights before that of time; not-a-number from where a flight diverges on.
        `rate_limited_s` is 0: it is not counted.

    Notes
    -----
    In steps of 50 ms the largest values of a manoeuvre agree with those of one flight, of order 8 with adapted steps,
    to 0.002 of themselves or 0.03°, and the ends of the bands of a reversal with those in steps of 12.5 ms to 0.004
    of the width of the band.
    """
    count = state.shape[1]
    kernel = ArrayKernel(record(lambda recorded: motion(airplane, recorded), len(STATE), len(Controls._fields)))
    low, high, fastest = (np.array(row)[:, None] for row in limits(travel))
    lags, applied = np.array(LAGS)[:, None], np.zeros((1, count))

    def f(t: float, y: Array) -> Array:
        now, positions, integrals = y[:14], y[14:18], y[18:]
        state_rates = np.empty(now.shape)
        kernel.evaluate_into(t, np.concatenate([now, positions, applied]), state_rates)
        commands, integral_rates = law(t, tuple(now), tuple(state_rates), tuple(integrals))
        wanted = np.clip(np.array([np.broadcast_to(one, count) for one in commands]), low, high)
        moved = np.clip((wanted - positions) / lags, -fastest, fastest)
        return np.concatenate([state_rates, moved, [np.broadcast_to(one, count) for one in integral_rates]])

    held = [np.broadcast_to(np.asarray(one, float), count) for one in controls[:CONTROLS]]
    y = np.concatenate([state, held, np.zeros((INTEGRATORS, count))])
    rows, factors = [y], [_forces(f, airplane, times_s[0], y)]
    intervals = list(pairwise(times_s.tolist()))
    with np.errstate(all="ignore"):
        for number in progress(range(len(intervals))):
            y = _crossed(f, y, intervals[number], breakpoints_s)
            rows.append(y)
            factors.append(_forces(f, airplane, intervals[number][1], y))
    flown = np.moveaxis(np.array(rows), 0, -1)
    upward, rightward = np.moveaxis(np.array(factors), 0, -1)
    elevator, aileron, rudder, throttle = flown[14:18]
    return History(times_s, flown[: len(STATE)], elevator, aileron, rudder, throttle, upward, rightward, 0.0)


def fly_prescribed(
    airplane: Airplane,
    held: Callable[[float], Controls],
    *,
    state: Array,
    times_s: Array,
    breakpoints_s: Sequence[float] = (),
) -> Array:
    """Return many flights whose controls are where they are told to be, at once.

    Parameters
    ----------
    airplane : Airplane
        Whose numbers may be arrays with one entry a flight.
    held : function
        Time [s] -> controls, numbers or arrays with one entry a flight.
    state : array, shape (14, N)
        At the start.
    times_s : array, shape (m,)
        Ascending, beginning with the start. [s]
    breakpoints_s : sequence of float
        Times at which the controls jump. [s]

    Returns
    -------
    array, shape (14, N, m)
        States; not-a-number from where a flight diverges on.
    """
    count = state.shape[1]
    kernel = ArrayKernel(record(lambda recorded: motion(airplane, recorded), len(STATE), len(Controls._fields)))

    def f(t: float, y: Array) -> Array:
        rates = np.empty(y.shape)
        controls = np.array([np.broadcast_to(np.asarray(one, float), count) for one in held(t)])
        kernel.evaluate_into(t, np.concatenate([y, controls]), rates)
        return rates

    rows = [state]
    with np.errstate(all="ignore"):
        for interval in pairwise(times_s.tolist()):
            rows.append(_crossed(f, rows[-1], interval, breakpoints_s))
    return np.moveaxis(np.array(rows), 0, -1)


def _crossed(
    f: Callable[[float, Array], Array], y: Array, interval: tuple[float, float], breakpoints_s: Sequence[float]
) -> Array:
    """Return the state at the end of an interval, in equal steps between its ends and the breakpoints inside.

    Commands that jump at the end of a step are for it what they are just before.
    """
    start, stop = interval
    inside = [at for at in breakpoints_s if start < at < stop]
    for begin, end in pairwise([start, *inside, stop]):
        count = int(np.ceil((end - begin) / STEP_S - 1e-9))
        h = (end - begin) / count
        last = np.nextafter(end, begin)
        for step in range(count):
            y = rk4_step(lambda t, at, last=last: f(min(t, last), at), begin + step * h, y, h)  # type: ignore[arg-type,misc]
    return y


def _forces(f: Callable[[float, Array], Array], airplane: Airplane, t: float, y: Array) -> tuple[Array, Array]:
    return specific_forces(y[:14], f(t, y)[:14], airplane.gravity_m_s2)
