"""Ordinary differential equations: a fixed step of order 4 for live use, and solutions of order 8.

Both take the same right-hand side f(t, state) -> rates. The state is a sequence of n floats, or an array of n rows
with one column per flight.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple, Protocol

import numpy as np

from sim.errors import NoAnswerError
from sim.numerics.dop853_batch_step import BatchStepper
from sim.numerics.dop853_scalar_step import ScalarStepper
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    RightHandSide = Callable[[float, Number], Sequence[Number]]

SMALLEST_STEP: Final = 1e-12
"""Smallest step, as a fraction of the time reached or of 1 s, whichever is larger."""


@dataclass(frozen=True, slots=True)
class Solution:
    """States at given times.

    Attributes
    ----------
    time_s : array, shape (m,)
        [s]
    states : array, shape (m, n) or (m, n, columns)
        In the units of the state.
    """

    time_s: NDArray[np.float64]
    states: NDArray[np.float64]


class Stepper(Protocol):
    """Holds a state and advances it step by step."""

    @property
    def state(self) -> Number:
        """The present state."""

    def attempt(self, t: float, h: float, end: float, *, with_error: bool) -> float:
        """Compute a step of size h from time t and return its error norm: at most 1 where the error is allowed.

        The norm is infinite where the new state is not finite, and 0 where no error is asked for. At the end of the
        step f is evaluated at time `end`.
        """

    def accept(self) -> None:
        """Take the state of the last attempt."""

    def rates(self, t: float) -> Number:
        """Return the rates at the present state."""

    def norm(self, values: Number) -> float:
        """Return the root mean square of n values over the errors allowed."""


class _Interval(NamedTuple):
    """Between two times that steps must meet; f is evaluated at `end` for its end, just before a breakpoint."""

    start: float
    stop: float
    end: float


def rk4_step(f: RightHandSide, t: float, state: Number, dt: float) -> Number:
    """Return the state a time dt later by the classical Runge–Kutta step of order 4.

    Parameters
    ----------
    f : function
        (t, state) -> rates.
    t, dt : float
        [s]
    state : tuple of float, or array
        The same type is returned.

    Examples
    --------
    >>> rk4_step(lambda t, state: state, 0.0, (1.0,), 0.1)
    (1.1051708333333332,)
    """
    half = t + 0.5 * dt
    if isinstance(state, np.ndarray):
        first = np.asarray(f(t, state))
        second = np.asarray(f(half, state + 0.5 * dt * first))
        third = np.asarray(f(half, state + 0.5 * dt * second))
        return state + dt / 6.0 * (first + 2.0 * (second + third) + np.asarray(f(t + dt, state + dt * third)))
    k1 = f(t, state)
    k2 = f(half, tuple(x + 0.5 * dt * k for x, k in zip(state, k1, strict=True)))
    k3 = f(half, tuple(x + 0.5 * dt * k for x, k in zip(state, k2, strict=True)))
    k4 = f(t + dt, tuple(x + dt * k for x, k in zip(state, k3, strict=True)))
    slopes = zip(state, k1, k2, k3, k4, strict=True)
    return tuple(x + dt / 6.0 * (a + 2.0 * (b + c) + d) for x, a, b, c, d in slopes)


def solve(
    f: RightHandSide,
    state: Number,
    times_s: Sequence[float] | NDArray[np.float64],
    *,
    step_s: float | None = None,
    rtol: float = 1e-9,
    atol: float = 1e-9,
    breakpoints_s: Sequence[float] = (),
) -> Solution:
    """Return the states at given times, by the method of order 8 of Dormand and Prince.

    Parameters
    ----------
    f : function
        (t, state) -> rates of the state, as many as it has components.
    state : sequence of n floats, or array of shape (n, columns)
        At the first of the times. All columns take the same steps, set by the one with the largest error.
    times_s : sequence of float
        Ascending, beginning with the start. Steps end at each of them; there is no interpolation. [s]
    step_s : float or None
        Largest step for equal steps between the times; None for steps adapted to the error. [s]
    rtol, atol : float
        Error allowed in a step, per component: atol + rtol × magnitude of the component.
    breakpoints_s : sequence of float
        Times at which f is discontinuous: steps end at each of them. At such a time f returns its later value. [s]

    Raises
    ------
    NoAnswerError
        Where the state diverges or the step becomes too small; names the time reached. No partial solution is returned.

    References
    ----------
    Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I, 2nd ed. 1993, II.4 and II.5.

    Examples
    --------
    >>> float(round(solve(lambda t, y: (-y[0],), (1.0,), (0.0, 1.0)).states[-1, 0], 9))
    0.367879441
    """
    states = list(march(f, state, times_s, step_s=step_s, rtol=rtol, atol=atol, breakpoints_s=breakpoints_s))
    return Solution(np.array([float(t) for t in times_s]), np.array(states))


def march(
    f: RightHandSide,
    state: Number,
    times_s: Sequence[float] | NDArray[np.float64],
    *,
    step_s: float | None = None,
    rtol: float = 1e-9,
    atol: float = 1e-9,
    breakpoints_s: Sequence[float] = (),
) -> Iterator[Number]:
    """Yield the states at given times, as `solve` returns them: whoever has seen enough need not ask for the rest."""
    times = [float(t) for t in times_s]
    stepper: Stepper
    if isinstance(state, np.ndarray) and state.ndim > 1:
        stepper = BatchStepper(f, state, rtol=rtol, atol=atol)
    else:
        stepper = ScalarStepper(f, state, rtol=rtol, atol=atol)
    yield stepper.state
    breakpoints = {float(t) for t in breakpoints_s if times[0] < t < times[-1]}
    h = 0.0 if step_s else _first_step(stepper, times[0])
    for start, stop in pairwise(sorted(breakpoints.union(times))):
        end = math.nextafter(stop, start) if stop in breakpoints else stop
        interval = _Interval(start, stop, end)
        h = _equal_steps(stepper, interval, step_s) if step_s else _adapted_steps(stepper, interval, h)
        if stop not in breakpoints or stop in times:
            yield stepper.state


def _equal_steps(stepper: Stepper, interval: _Interval, step_s: float) -> float:
    """Cross an interval in equal steps no longer than `step_s`; return the step."""
    start, stop, end = interval
    count = math.ceil((stop - start) / step_s - 1e-9)
    h = (stop - start) / count
    for i in range(count):
        t = start + i * h
        if stepper.attempt(t, h, end if i == count - 1 else t + h, with_error=False):
            after, step = brief("time_s", t, digits=6), brief("time_s", h, digits=3)
            message = f"the state diverges after {after}; use steps shorter than {step}"
            raise NoAnswerError(message)
        stepper.accept()
    return h


def _adapted_steps(stepper: Stepper, interval: _Interval, size: float) -> float:
    """Cross an interval in steps within the error allowed; return the step to continue with."""
    t, stop, end = interval
    while t < stop:
        last = size >= (stop - t) * (1.0 - 1e-12)
        h = stop - t if last else size
        error = stepper.attempt(t, h, end if last else t + h, with_error=True)
        factor = 0.9 * max(error, 1e-8) ** -0.125
        if error <= 1.0:
            stepper.accept()
            t = stop if last else t + h
            size = max(size if last else 0.0, h * min(6.0, factor))
        else:
            size = h * max(0.2, min(0.9, factor))
        if size < SMALLEST_STEP * max(1.0, abs(t)):
            message = (
                f"no solution after {brief('time_s', t, digits=6)}: the step became too small; allow a larger error, "
                "or look for an input that makes the state diverge"
            )
            raise NoAnswerError(message)
    return size


def _first_step(stepper: Stepper, t: float) -> float:
    """Return a step in seconds over which the state changes by about a hundredth."""
    rates = stepper.norm(stepper.rates(t))
    state = stepper.norm(stepper.state)
    return 0.01 * state / rates if state > 1e-5 and rates > 1e-5 else 1e-6
