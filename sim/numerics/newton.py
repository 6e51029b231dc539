"""Newton's method for many small systems of equations at once: exact Jacobians, with Broyden updates in between."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    Array = NDArray[np.float64]
    Flags = NDArray[np.bool_]
    Residual = Callable[[Number, NDArray[np.intp]], Number]

MAX_ITERATIONS: Final = 20
JACOBIAN_INTERVAL: Final = 6
"""Iterations after which the Jacobian is computed again; after twice as many it is computed in each."""
GIVE_UP_RATIO: Final = 0.01
"""A system whose residual has not fallen to this fraction of the first one by then is given up."""
_COMPLEX_STEP: Final = 1e-30


def solve_batch(residual: Residual, x: Array, *, max_step: Array, tolerance: float) -> Flags:
    """Solve N systems of n equations, improving `x` in place; return which were solved.

    Parameters
    ----------
    residual : function
        (unknowns of shape (n, …, m), indices of the m systems) -> residuals of the same shape; analytic, without
        comparisons.
    x : array, shape (n, N)
        Initial values; the solutions on return.
    max_step : array, shape (n,)
        Largest step of each unknown.
    tolerance : float
        A system is solved when no residual is larger. Iteration continues to a thousandth of that, or until the steps
        no longer change the unknowns.

    Notes
    -----
    Jacobians are computed by the complex step, exact to rounding; in between, Broyden's update corrects the inverse
    from the last step. Solved systems drop out.

    References
    ----------
    Broyden, Mathematics of Computation 19, 1965; Squire & Trapp, SIAM Review 40, 1998.
    """
    solved = np.zeros(x.shape[1], bool)
    active = np.arange(x.shape[1])
    inverse = step = old = first = np.empty(0)
    with np.errstate(all="ignore"):
        for iteration in range(MAX_ITERATIONS):
            if iteration % JACOBIAN_INTERVAL == 0 or iteration > 2 * JACOBIAN_INTERVAL:
                new, inverse = _linearised(residual, x[:, active], active)
            else:
                new = residual(x[:, active], active).T
                _broyden_update(inverse, step, new - old)
            size = np.abs(new).max(axis=1)
            done = size < 1e-3 * tolerance
            if iteration:
                done |= (size < tolerance) & (np.abs(step / max_step).max(axis=1) < 1e-12)
            solved[active[done]] = True
            if iteration == 0:
                first = size
            promising = (iteration < 2 * JACOBIAN_INTERVAL) | (size < GIVE_UP_RATIO * first)
            kept = ~done & np.isfinite(size) & promising
            active, inverse, old, first = active[kept], inverse[kept], new[kept], first[kept]
            if not active.size:
                break
            step = -np.einsum("kij,kj->ki", inverse, old)
            step /= np.maximum(1.0, np.abs(step / max_step).max(axis=1))[:, None]
            x[:, active] += step.T
    return solved


def _linearised(residual: Residual, x: Array, systems: NDArray[np.intp]) -> tuple[Array, Array]:
    """Return the residuals, one row per system, and the inverse Jacobians."""
    count = len(x)
    points = np.repeat(x[:, None].astype(complex), count, axis=1)
    points[np.arange(count), np.arange(count)] += 1j * _COMPLEX_STEP
    values = residual(points, systems)
    jacobian = np.moveaxis(values.imag / _COMPLEX_STEP, -1, 0)
    finite = np.isfinite(jacobian).all(axis=(1, 2))
    inverse = np.full_like(jacobian, np.nan)
    try:
        inverse[finite] = np.linalg.inv(jacobian[finite])
    except np.linalg.LinAlgError:
        inverse[finite] = np.linalg.pinv(jacobian[finite])
    return values[:, 0].real.T, inverse


def _broyden_update(inverse: Array, step: Array, change: Array) -> None:
    """Correct the inverse Jacobians in place so that they map the last change of the residuals to the last step."""
    expected = np.einsum("kij,kj->ki", inverse, change)
    along = np.einsum("ki,kij->kj", step, inverse)
    scale = np.einsum("ki,ki->k", step, expected)
    inverse += (step - expected)[:, :, None] * (along / scale[:, None])[:, None, :]
