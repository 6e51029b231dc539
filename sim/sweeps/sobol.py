"""Which inputs the spread of an answer hangs on: Sobol's indices, with a band for the few draws they rest on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

RESAMPLES = 200


@dataclass(frozen=True, slots=True)
class Share:
    """How much of the variance of an answer one input makes.

    Attributes
    ----------
    key : str
        Of the input.
    first_order : float
        Alone.
    total_order : float
        Alone and together with others; at most so much would be gone if it were known exactly.
    total_low, total_high : float
        Holds the total in 90 of 100 other draws.
    """

    key: str
    first_order: float
    total_order: float
    total_low: float
    total_high: float


def sobol_shares(found: NDArray[np.float64], keys: Sequence[str], draws: int, *, seed: int = 1) -> tuple[Share, ...]:
    """Return the indices of each input, the greatest total first.

    Parameters
    ----------
    found : array, shape (draws * (2 + inputs),)
        Answers to the first half of the draws, to the second, and for each input to the first half with that input's
        column of the second.
    keys : sequence of str
        Of the inputs.
    draws : int
        Of a half, a power of two.
    seed : int
        Of the bootstrap that gives the band.

    Notes
    -----
    Estimates: with few draws an index may come out a little below 0 or above 1; the band says how far to trust it.

    References
    ----------
    Saltelli and others, Variance based sensitivity analysis of model output, Computer Physics Communications 181
    (2010) 259–270, in the form of `scipy.stats.sobol_indices`.

    Examples
    --------
    >>> first, second = np.array([1.0, -1.0, 2.0, -2.0]), np.array([-2.0, 2.0, 1.0, -1.0])
    >>> sobol_shares(np.concatenate((first, second, second)), ["only"], 4)[0].total_order > 0.9
    True
    """
    halves, mixed = found[: 2 * draws].reshape(2, draws), found[2 * draws :].reshape(len(keys), draws)
    first, total = _indices(halves, mixed)
    random = np.random.default_rng(seed)
    picks = (random.integers(draws, size=draws) for _ in range(RESAMPLES))
    again = np.array([_indices(halves[:, pick], mixed[:, pick])[1] for pick in picks])
    low, high = np.percentile(again, (5.0, 95.0), axis=0)
    rows = zip(keys, first.tolist(), total.tolist(), low.tolist(), high.tolist(), strict=True)
    return tuple(sorted((Share(*row) for row in rows), key=lambda share: -share.total_order))


def _indices(
    halves: NDArray[np.float64], mixed: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    from scipy.stats import sobol_indices

    twice = np.stack((halves, halves), axis=1)  # scipy fails on a single answer to a single input
    answers = {"f_A": twice[0], "f_B": twice[1], "f_AB": np.stack((mixed, mixed), axis=1)}
    found = sobol_indices(func=answers, n=halves.shape[1])
    return found.first_order.reshape(2, -1)[0], found.total_order.reshape(2, -1)[0]
