"""The step of order 8 on rows: one row a component, one column a flight, all in step with the worst."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.tableau import error_3, error_5, new, nodes, weights

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SLOTS: Final = (0, 1, 2, 1, 2, 3, 4, 5, 6, 7, 8, 9)
"""Where each of the twelve slopes is kept. The second and third are soon done with and their places used again, so
that every weighted sum runs over slots without a gap."""


def _by_slot(parts: Sequence[float]) -> Array:
    """Return the weights on the slots that are filled when so many slopes are known."""
    found = np.zeros(max(SLOTS[: len(parts)]) + 1)
    for slot, part in zip(SLOTS, parts, strict=False):
        found[slot] = part or found[slot]
    return found


_WEIGHTS: Final = [_by_slot(parts) for parts in weights[1:]]
_NEW, _ERROR_5, _ERROR_3 = _by_slot(new), _by_slot(error_5), _by_slot(error_3)


class RowStepper:
    """Steps of many flights; see `sim.integrate.Stepper`.

    The columns are cut into blocks whose slopes stay in the cache, where `f` can be cut (``f.columns(start, stop)``).
    """

    def __init__(
        self, f: Callable[..., Any], state: Array, *, relative: float, absolute: float, block: int = 512
    ) -> None:
        self._relative, self._absolute = relative, absolute
        cut = getattr(f, "columns", None)
        count, width = state.shape
        size = block if cut else width
        edges = [(start, min(start + size, width)) for start in range(0, width, size)]
        self._f = [cut(*edge) if cut else f for edge in edges]
        self._old = [np.array(state[:, start:stop], dtype=float) for start, stop in edges]
        self._new = [block.copy() for block in self._old]
        self._slopes = [np.empty((10, count, stop - start)) for start, stop in edges[:1] + edges[-1:]]

    @property
    def state(self) -> Array:
        """The state reached, shape (n, columns)."""
        return np.concatenate(self._old, axis=1)

    def trial(self, t: float, h: float, last: float, *, judged: bool) -> float:
        """Compute a step from t over h and return the worst column's error over what is allowed."""
        worst = 0.0
        with np.errstate(all="ignore"):
            for f, old, found in zip(self._f, self._old, self._new, strict=True):
                slopes = self._slopes[old.shape != self._slopes[0].shape[1:]]
                _advance(f, (t, h, last), old, found, slopes)
                error = self._error(old, found, h, slopes) if judged else float(found.sum()) * 0.0
                if not math.isfinite(error):
                    return math.inf
                worst = max(worst, error)
        return worst

    def accept(self) -> None:
        """Move on to the state of the trial."""
        self._old, self._new = self._new, self._old

    def size(self, values: Sequence[Any]) -> float:
        """Return the largest root mean square over a column of values over the allowed errors."""
        now = self.state
        rows = np.array([np.broadcast_to(row, now.shape[1:]) for row in values])
        return float(_norm(rows, self._absolute + self._relative * np.abs(now)).max())

    def slope(self, t: float) -> Array:
        """Return the rates at the state reached, shape (n, columns)."""
        rates = [f(t, old) for f, old in zip(self._f, self._old, strict=True)]
        blocks = [
            np.array([np.broadcast_to(row, old.shape[1:]) for row in some])
            for some, old in zip(rates, self._old, strict=True)
        ]
        return np.concatenate(blocks, axis=1)

    def _error(self, old: Array, found: Array, h: float, slopes: Array) -> float:
        allowed = self._absolute + self._relative * np.maximum(np.abs(old), np.abs(found))
        fifth, third = (_norm(h * _combined(parts, slopes), allowed) for parts in (_ERROR_5, _ERROR_3))
        both = np.sqrt(fifth**2 + 0.01 * third**2)
        return float((fifth * fifth / np.where(both == 0.0, 1.0, both)).max())


def _norm(values: Array, allowed: Array) -> Array:
    """Return the root mean square of each column over what is allowed."""
    share = values / allowed
    root: Array = np.sqrt(np.einsum("ij,ij->j", share, share) / len(share))
    return root


def _combined(parts: Array, slopes: Array) -> Array:
    """Return the weighted sum of the slopes kept so far."""
    total: Array = parts.dot(slopes[: len(parts)].reshape(len(parts), -1)).reshape(slopes.shape[1:])
    return total


def _advance(f: Callable[..., Any], when: tuple[float, float, float], old: Array, found: Array, slopes: Array) -> None:
    """Write the state after a step into `found`, and the slopes into their slots."""
    t, h, last = when
    flat = found.reshape(-1)
    _keep(slopes[0], f(t, old))
    for stage, parts in enumerate((*_WEIGHTS, _NEW), start=1):
        parts.dot(slopes[: len(parts)].reshape(len(parts), -1), out=flat)
        found *= h
        found += old
        if stage < len(nodes):
            _keep(slopes[SLOTS[stage]], f(last if nodes[stage] == 1.0 else t + nodes[stage] * h, found))


def _keep(slot: Array, rates: Sequence[Any]) -> None:
    """Copy the rates, rows or plain numbers, into a slot."""
    for row, rate in zip(slot, rates, strict=True):
        row[:] = rate
