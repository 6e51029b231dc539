"""The step of order 8 on rows: one row a component, one column a flight, all in step with the worst."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final, Protocol, cast

import numpy as np

from sim.numerics.array_kernel import aligned_empty
from sim.numerics.dop853_tableau import error_3, error_5, new, nodes, weights

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SLOTS: Final = (1, 2, 3, 2, 3, 4, 5, 6, 7, 8, 9, 10)
"""Where each of the twelve slopes is kept, after the state itself in slot 0. The second and third are soon done with
and their places used again, so that every weighted sum runs over slots without a gap."""


def _by_slot(parts: Sequence[float]) -> Array:
    """Return the weights on the slots that are filled when so many slopes are known."""
    found = np.zeros(max(SLOTS[: len(parts)]) + 1)
    for slot, part in zip(SLOTS, parts, strict=False):
        found[slot] = part or found[slot]
    return found


_WEIGHTS: Final = [_by_slot(parts) for parts in (*weights[1:], new)]
_ERROR_5, _ERROR_3 = _by_slot(error_5), _by_slot(error_3)


class ArrayRightHandSide(Protocol):
    """A right-hand side that writes its rates into an array."""

    def into(self, t: float, state: Array, rates: Array) -> None:
        """Write the rates."""

    def place(self, count: int, width: int) -> Array:
        """Return the array in which it likes to be given a state."""


class _Plain:
    """Makes one of a function that returns rows or plain numbers."""

    def __init__(self, f: Callable[..., Any]) -> None:
        self._f = f

    def into(self, t: float, state: Array, rates: Array) -> None:
        """Write the rates."""
        for row, rate in zip(rates, self._f(t, state), strict=True):
            row[:] = rate

    def place(self, count: int, width: int) -> Array:
        """Return an array for a state."""
        return np.empty((count, width))


def _written(f: ArrayRightHandSide | Callable[..., Any]) -> ArrayRightHandSide:
    """Return f itself where it writes into arrays."""
    return cast("ArrayRightHandSide", f) if hasattr(f, "into") else _Plain(f)


class BatchStepper:
    """Steps of many flights; see `sim.numerics.ode.Stepper`.

    The columns are cut into blocks whose slopes stay in the cache, where `f` can be cut (``f.columns(start, stop)``).
    """

    def __init__(
        self, f: Callable[..., Any], state: Array, *, relative: float, absolute: float, block: int = 2000
    ) -> None:
        self._relative, self._absolute = relative, absolute
        cut = getattr(f, "columns", None)
        count, width = state.shape
        size = _even_block(width, block) if cut else width
        edges = [(start, min(start + size, width)) for start in range(0, width, size)]
        self._f = [_written(cut(*edge) if cut else f) for edge in edges]
        self._old = [aligned_empty(count, stop - start) for start, stop in edges]
        for (start, stop), old in zip(edges, self._old, strict=True):
            old[:] = state[:, start:stop]
        self._new = [aligned_empty(*old.shape) for old in self._old]
        self._slots = [aligned_empty(11, *old.shape) for old in self._old[:1] + self._old[-1:]]

    @property
    def state(self) -> Array:
        """The state reached, shape (n, columns)."""
        return np.concatenate(self._old, axis=1)

    def trial(self, t: float, h: float, last: float, *, judged: bool) -> float:
        """Compute a step from t over h and return the worst column's error over what is allowed."""
        worst = 0.0
        with np.errstate(all="ignore"):
            for f, old, found in zip(self._f, self._old, self._new, strict=True):
                slots = self._slots[old.shape != self._slots[0].shape[1:]]
                slots[0] = old
                _advance(f, (t, h, last), slots, found)
                error = self._error(found, h, slots) if judged else float(found.sum()) * 0.0
                if not math.isfinite(error):
                    return math.inf
                worst = max(worst, error)
        return worst

    def accept(self) -> None:
        """Move on to the state of the trial."""
        self._old, self._new = self._new, self._old

    def size(self, values: Array) -> float:
        """Return the largest root mean square over a column of values over the allowed errors."""
        return float(_norm(values, self._absolute + self._relative * np.abs(self.state)).max())

    def slope(self, t: float) -> Array:
        """Return the rates at the state reached, shape (n, columns)."""
        rates = [np.empty_like(old) for old in self._old]
        for f, old, some in zip(self._f, self._old, rates, strict=True):
            f.into(t, old, some)
        return np.concatenate(rates, axis=1)

    def _error(self, found: Array, h: float, slots: Array) -> float:
        allowed = self._absolute + self._relative * np.maximum(np.abs(slots[0]), np.abs(found))
        fifth, third = (_norm(_combined(h * parts, slots), allowed) for parts in (_ERROR_5, _ERROR_3))
        both = np.sqrt(fifth**2 + 0.01 * third**2)
        return float((fifth * fifth / np.where(both == 0.0, 1.0, both)).max())


def _even_block(width: int, most: int) -> int:
    """Return the least multiple of 8 columns that needs no more blocks than `most` would."""
    return -(-width // -(-width // most) // 8) * 8


def _norm(values: Array, allowed: Array) -> Array:
    """Return the root mean square of each column over what is allowed."""
    share = values / allowed
    root: Array = np.sqrt(np.einsum("ij,ij->j", share, share) / len(share))
    return root


def _combined(parts: Array, slots: Array, into: Array | None = None) -> Array:
    """Return the weighted sum of the slots filled so far.

    Not by a library of linear algebra: its threads would wait on each other for sums as small as these.
    """
    total: Array = np.einsum("i,ijk->jk", parts, slots[: len(parts)], out=into)
    return total


def _advance(f: ArrayRightHandSide, when: tuple[float, float, float], slots: Array, found: Array) -> None:
    """Write the state after a step into `found`, and the slopes into their slots after the state in the first."""
    t, h, last = when
    place = f.place(*found.shape)
    f.into(t, slots[0], slots[1])
    for stage, parts in enumerate(_WEIGHTS, start=1):
        scaled = h * parts
        scaled[0] = 1.0
        if stage == len(nodes):
            _combined(scaled, slots, found)
        else:
            _combined(scaled, slots, place)
            f.into(last if nodes[stage] == 1.0 else t + nodes[stage] * h, place, slots[SLOTS[stage]])
