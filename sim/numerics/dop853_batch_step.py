"""The DOP853 step for many flights at once, on arrays of one row per component and one column per flight.

All flights take the same step; the one with the largest error sets its size.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final, Protocol, cast

import numpy as np

from sim.numerics.array_kernel import aligned_empty
from sim.numerics.dop853_tableau import DOP853

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SLOTS: Final = (1, 2, 3, 2, 3, 4, 5, 6, 7, 8, 9, 10)
"""The slot in which each of the twelve slopes is kept; slot 0 holds the state. Slopes 1 and 2 are soon needed no more,
and slopes 3 and 4 replace them, so that each weighted sum runs over consecutive slots."""


def _by_slot(weights: Sequence[float]) -> Array:
    """Return the weights of the slots in use when so many slopes are known."""
    slots = np.zeros(max(SLOTS[: len(weights)]) + 1)
    for slot, weight in zip(SLOTS, weights, strict=False):
        slots[slot] = weight or slots[slot]
    return slots


_WEIGHTS: Final = [_by_slot(weights) for weights in (*DOP853.stage_weights[1:], DOP853.weights)]
_ERROR_5, _ERROR_3 = _by_slot(DOP853.error_5), _by_slot(DOP853.error_3)


class ArrayRightHandSide(Protocol):
    """A right-hand side that writes its rates into an array, such as `sim.numerics.array_kernel.ArrayKernel`."""

    def evaluate_into(self, t: float, state: Array, rates: Array) -> None:
        """Write the rates at a state into an array."""

    def state_buffer(self, count: int, width: int) -> Array:
        """Return the array in which it prefers to be given a state."""


class _Adapter:
    """Makes one of a function that returns arrays or numbers."""

    def __init__(self, f: Callable[..., Any]) -> None:
        self._f = f

    def evaluate_into(self, t: float, state: Array, rates: Array) -> None:
        """Write the rates at a state into an array."""
        for row, rate in zip(rates, self._f(t, state), strict=True):
            row[:] = rate

    def state_buffer(self, count: int, width: int) -> Array:
        """Return an array for a state."""
        return np.empty((count, width))


def _adapted(f: ArrayRightHandSide | Callable[..., Any]) -> ArrayRightHandSide:
    return cast("ArrayRightHandSide", f) if hasattr(f, "evaluate_into") else _Adapter(f)


class BatchStepper:
    """Steps of many flights; see `sim.numerics.ode.Stepper`.

    Where ``f.columns(start, stop)`` gives the right-hand side of some of the flights, they are stepped in blocks of
    `block` flights whose slopes fit in the processor's cache.
    """

    def __init__(self, f: Callable[..., Any], state: Array, *, rtol: float, atol: float, block: int = 2000) -> None:
        self._rtol, self._atol = rtol, atol
        columns = getattr(f, "columns", None)
        count, width = state.shape
        size = _block_width(width, block) if columns else width
        edges = [(start, min(start + size, width)) for start in range(0, width, size)]
        self._f = [_adapted(columns(*edge) if columns else f) for edge in edges]
        self._old = [aligned_empty(count, stop - start) for start, stop in edges]
        for (start, stop), old in zip(edges, self._old, strict=True):
            old[:] = state[:, start:stop]
        self._new = [aligned_empty(*old.shape) for old in self._old]
        self._slots = [aligned_empty(11, *old.shape) for old in self._old[:1] + self._old[-1:]]

    @property
    def state(self) -> Array:
        """The present state, shape (n, columns)."""
        return np.concatenate(self._old, axis=1)

    def attempt(self, t: float, h: float, end: float, *, with_error: bool) -> float:
        """Compute a step and return the largest error norm of all flights; infinite where a state is not finite."""
        worst = 0.0
        with np.errstate(all="ignore"):
            for f, old, new in zip(self._f, self._old, self._new, strict=True):
                slots = self._slots[old.shape != self._slots[0].shape[1:]]
                slots[0] = old
                _step(f, (t, h, end), slots, new)
                error = self._step_error(new, h, slots) if with_error else float(new.sum()) * 0.0
                if not math.isfinite(error):
                    return math.inf
                worst = max(worst, error)
        return worst

    def accept(self) -> None:
        """Take the state of the last attempt."""
        self._old, self._new = self._new, self._old

    def rates(self, t: float) -> Array:
        """Return the rates at the present state, shape (n, columns)."""
        rates = [np.empty_like(old) for old in self._old]
        for f, old, part in zip(self._f, self._old, rates, strict=True):
            f.evaluate_into(t, old, part)
        return np.concatenate(rates, axis=1)

    def norm(self, values: Array) -> float:
        """Return the largest norm of all flights: root mean square of values over the errors allowed."""
        return float(_norm(values, self._atol + self._rtol * np.abs(self.state)).max())

    def _step_error(self, new: Array, h: float, slots: Array) -> float:
        allowed = self._atol + self._rtol * np.maximum(np.abs(slots[0]), np.abs(new))
        fifth, third = (_norm(_weighted_sum(h * weights, slots), allowed) for weights in (_ERROR_5, _ERROR_3))
        both = np.sqrt(fifth**2 + 0.01 * third**2)
        return float((fifth * fifth / np.where(both == 0.0, 1.0, both)).max())


def _block_width(width: int, most: int) -> int:
    """Return the least multiple of 8 columns that needs no more blocks than `most` would."""
    return -(-width // -(-width // most) // 8) * 8


def _norm(values: Array, allowed: Array) -> Array:
    """Return the root mean square of each column of values over the errors allowed."""
    ratio = values / allowed
    root: Array = np.sqrt(np.einsum("ij,ij->j", ratio, ratio) / len(ratio))
    return root


def _weighted_sum(weights: Array, slots: Array, out: Array | None = None) -> Array:
    """Return the weighted sum of the slots in use.

    Not by a library of linear algebra: its threads would wait on each other for sums as small as these.
    """
    total: Array = np.einsum("i,ijk->jk", weights, slots[: len(weights)], out=out)
    return total


def _step(f: ArrayRightHandSide, times: tuple[float, float, float], slots: Array, new: Array) -> None:
    """Write the state after a step into `new`, and the slopes into their slots; slot 0 holds the state before it."""
    t, h, end = times
    buffer = f.state_buffer(*new.shape)
    f.evaluate_into(t, slots[0], slots[1])
    for stage, weights in enumerate(_WEIGHTS, start=1):
        scaled = h * weights
        scaled[0] = 1.0
        if stage == len(DOP853.nodes):
            _weighted_sum(scaled, slots, new)
        else:
            node = DOP853.nodes[stage]
            _weighted_sum(scaled, slots, buffer)
            f.evaluate_into(end if node == 1.0 else t + node * h, buffer, slots[SLOTS[stage]])
