"""Many small systems of equations at once, by Newton's method on rows: exact slopes first, then secant updates."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    Rows = NDArray[np.float64]
    Flags = NDArray[np.bool_]

MAX_ITERATIONS: Final = 20
JACOBIAN_INTERVAL: Final = 6
"""Steps after which the slopes are taken anew; past twice as many, at every step."""
GIVE_UP_RATIO: Final = 0.01
"""A system whose residual has not fallen to this share by then has no solution near."""
_PROBE: Final = 1e-30


def solve_batch(
    residual: Callable[[Number, NDArray[np.intp]], Number], x: Rows, *, longest: Rows, tolerance: float
) -> Flags:
    """Improve `x` in place until the residual vanishes; return which systems were solved.

    Parameters
    ----------
    residual : function
        (unknowns of shape (n, …, m), which m systems) -> residuals of the same shape; analytic, without comparison.
    x : array, shape (n, N)
        Where each of the N systems starts.
    longest : array, shape (n,)
        Longest step of each unknown.
    tolerance : float
        A system is solved when no residual is larger; it goes on to a thousandth of that where steps still help.

    Notes
    -----
    Slopes come from the complex step, exact to rounding; between two of them Broyden's update of the inverse follows
    the steps made. Systems that are solved drop out.

    References
    ----------
    Broyden, Mathematics of Computation 19, 1965; Squire & Trapp, SIAM Review 40, 1998.
    """
    solved = np.zeros(x.shape[1], bool)
    left = np.arange(x.shape[1])
    inverse = step = old = first = np.empty(0)
    with np.errstate(all="ignore"):
        for number in range(MAX_ITERATIONS):
            if number % JACOBIAN_INTERVAL == 0 or number > 2 * JACOBIAN_INTERVAL:
                rest, inverse = _fresh(residual, x[:, left], left)
            else:
                rest = residual(x[:, left], left).T
                _updated(inverse, step, rest - old)
            size = np.abs(rest).max(axis=1)
            done = size < 1e-3 * tolerance
            if number:
                done |= (size < tolerance) & (np.abs(step / longest).max(axis=1) < 1e-12)
            solved[left[done]] = True
            if number == 0:
                first = size
            going = ~done & np.isfinite(size) & ((number < 2 * JACOBIAN_INTERVAL) | (size < GIVE_UP_RATIO * first))
            left, inverse, old, first = left[going], inverse[going], rest[going], first[going]
            if not left.size:
                break
            step = -np.einsum("kij,kj->ki", inverse, old)
            step /= np.maximum(1.0, np.abs(step / longest).max(axis=1))[:, None]
            x[:, left] += step.T
    return solved


def _fresh(
    residual: Callable[[Number, NDArray[np.intp]], Number], x: Rows, which: NDArray[np.intp]
) -> tuple[Rows, Rows]:
    """Return the residuals, a row a system, and the inverse of their slopes."""
    count = len(x)
    probes = np.repeat(x[:, None].astype(complex), count, axis=1)
    probes[np.arange(count), np.arange(count)] += 1j * _PROBE
    values = residual(probes, which)
    slopes = np.moveaxis(values.imag / _PROBE, -1, 0)
    sound = np.isfinite(slopes).all(axis=(1, 2))
    inverse = np.full_like(slopes, np.nan)
    try:
        inverse[sound] = np.linalg.inv(slopes[sound])
    except np.linalg.LinAlgError:
        inverse[sound] = np.linalg.pinv(slopes[sound])
    return values[:, 0].real.T, inverse


def _updated(inverse: Rows, step: Rows, change: Rows) -> None:
    """Bring the inverse slopes to agree with the last step, in place."""
    expected = np.einsum("kij,kj->ki", inverse, change)
    along = np.einsum("ki,kij->kj", step, inverse)
    scale = np.einsum("ki,ki->k", step, expected)
    inverse += (step - expected)[:, :, None] * (along / scale[:, None])[:, None, :]
