"""Ordinary differential equations: one fixed step for live use, and whole solutions of order 8.

The same right-hand side f(t, state) serves all: `state` is a sequence of n floats, or an array of n rows with one
column a flight; f returns the n rates as a tuple.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple, Protocol

import numpy as np

from sim.errors import NoAnswerError
from sim.numerics.dop853_batch import BatchStepper
from sim.numerics.dop853_scalar import ScalarStepper

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    RightHandSide = Callable[[float, Number], Sequence[Number]]

SHORTEST: Final = 1e-12
"""A step that would fall below this share of the time reached (or of a second) is given up."""


@dataclass(frozen=True, slots=True)
class Solution:
    """States at the times asked for.

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
    """Holds a state and takes it on, a step at a time."""

    @property
    def state(self) -> Number:
        """The state reached."""

    def trial(self, t: float, h: float, last: float, *, judged: bool) -> float:
        """Compute a step and return its error over what is allowed, infinite where numbers ran away.

        `last` is the time at which f is asked for t + h; where a step is not `judged` the error is 0 or infinite.
        """

    def accept(self) -> None:
        """Move on to the state of the trial."""

    def slope(self, t: float) -> Number:
        """Return the rates at the state reached."""

    def size(self, values: Number) -> float:
        """Return the size of something like a state against the error allowed."""


class _Stretch(NamedTuple):
    """From one time to the next that must be met; `last` is where f is asked for the end, just short of a jump."""

    start: float
    stop: float
    last: float


def step(f: RightHandSide, t: float, state: Number, dt: float) -> Number:
    """Return the state a time dt later by the classical Runge–Kutta step of order 4.

    Parameters
    ----------
    f : function
        (t, state) -> rates.
    t, dt : float
        [s]
    state : tuple of float, or array of rows
        The same kind is returned.

    Examples
    --------
    >>> step(lambda t, state: state, 0.0, (1.0,), 0.1)
    (1.1051708333333332,)
    """
    half = t + 0.5 * dt
    k1 = f(t, state)
    k2 = f(half, tuple(x + 0.5 * dt * k for x, k in zip(state, k1, strict=True)))
    k3 = f(half, tuple(x + 0.5 * dt * k for x, k in zip(state, k2, strict=True)))
    k4 = f(t + dt, tuple(x + dt * k for x, k in zip(state, k3, strict=True)))
    slopes = zip(state, k1, k2, k3, k4, strict=True)
    new = tuple(x + dt / 6.0 * (a + 2.0 * (b + c) + d) for x, a, b, c, d in slopes)
    return np.stack(new) if isinstance(state, np.ndarray) else new


def solve(
    f: RightHandSide,
    state: Number,
    times_s: Sequence[float] | NDArray[np.float64],
    *,
    step_s: float | None = None,
    relative: float = 1e-9,
    absolute: float = 1e-9,
    breaks_s: Sequence[float] = (),
) -> Solution:
    """Return the states at given times, by the method of order 8 of Dormand and Prince.

    Parameters
    ----------
    f : function
        (t, state) -> rates of the state, as many as it has components.
    state : sequence of n floats, or array of shape (n, columns)
        At the first of the times. Columns go in step with each other: the worst one sets the step.
    times_s : sequence of float
        Ascending, the first one the start; each is met by a step, none interpolated. [s]
    step_s : float or None
        Greatest step where the step is to be fixed: each stretch between times is cut evenly. None: it adapts. [s]
    relative, absolute : float
        Error allowed in a step, per component: absolute + relative × its size.
    breaks_s : sequence of float
        Times at which f jumps: no step reaches across. At such a time itself f gives its new value. [s]

    Raises
    ------
    NoAnswerError
        Where the state runs away or the step shrinks to nothing; names the time reached. Nothing half full returns.

    References
    ----------
    Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I, 2nd ed. 1993, II.4 and II.5.

    Examples
    --------
    >>> float(round(solve(lambda t, y: (-y[0],), (1.0,), (0.0, 1.0)).states[-1, 0], 9))
    0.367879441
    """
    times = [float(t) for t in times_s]
    stepper: Stepper
    if isinstance(state, np.ndarray) and state.ndim > 1:
        stepper = BatchStepper(f, state, relative=relative, absolute=absolute)
    else:
        stepper = ScalarStepper(f, state, relative=relative, absolute=absolute)
    found = [stepper.state]
    breaks = {float(t) for t in breaks_s if times[0] < t < times[-1]}
    marks = sorted(breaks.union(times))
    size = 0.0 if step_s else _first_step(stepper, times[0])
    for start, stop in pairwise(marks):
        stretch = _Stretch(start, stop, math.nextafter(stop, start) if stop in breaks else stop)
        size = _march_evenly(stepper, stretch, step_s) if step_s else _march(stepper, stretch, size)
        if stop not in breaks or stop in times:
            found.append(stepper.state)
    return Solution(np.array(times), np.array(found))


def _march_evenly(stepper: Stepper, stretch: _Stretch, step_s: float) -> float:
    """Cross a stretch in even steps no longer than `step_s`."""
    start, stop, last = stretch
    count = math.ceil((stop - start) / step_s - 1e-9)
    h = (stop - start) / count
    for i in range(count):
        t = start + i * h
        if stepper.trial(t, h, last if i == count - 1 else t + h, judged=False):
            message = f"the state runs away past {t:.6g} s; shorten the step, now {h:.3g} s"
            raise NoAnswerError(message)
        stepper.accept()
    return h


def _march(stepper: Stepper, stretch: _Stretch, size: float) -> float:
    """Cross a stretch in steps that keep the error allowed, and return the step to go on with."""
    t, stop, last = stretch
    while t < stop:
        landing = size >= (stop - t) * (1.0 - 1e-12)
        h = stop - t if landing else size
        error = stepper.trial(t, h, last if landing else t + h, judged=True)
        change = 0.9 * max(error, 1e-8) ** -0.125
        if error <= 1.0:
            stepper.accept()
            t = stop if landing else t + h
            size = max(size if landing else 0.0, h * min(6.0, change))
        else:
            size = h * max(0.2, min(0.9, change))
        if size < SHORTEST * max(1.0, abs(t)):
            message = (
                f"no solution past {t:.6g} s: the step shrank to nothing; loosen the error allowed, or look for a "
                "value in the problem that lets the state run away"
            )
            raise NoAnswerError(message)
    return size


def _first_step(stepper: Stepper, t: float) -> float:
    """Return a step in seconds over which the state moves by about a hundredth."""
    slope = stepper.size(stepper.slope(t))
    state = stepper.size(stepper.state)
    return 0.01 * state / slope if state > 1e-5 and slope > 1e-5 else 1e-6
