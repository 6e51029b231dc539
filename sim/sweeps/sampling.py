"""Evenly spread draws of standard normal numbers, in two halves that are independent of each other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

Sampling = Literal["latin", "sobol"]
EDGE = 1e-12
"""No draw is taken closer to probability 0 or 1 than this, about seven standard deviations."""


def halves(count: int, draws: int, sampling: Sampling, seed: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return two independent halves of a sample of standard normal numbers.

    Parameters
    ----------
    count : int
        Inputs: columns of a half.
    draws : int
        Rows of a half, a power of two.
    sampling : str
        ``latin`` hypercube or ``sobol`` sequence, scrambled.
    seed : int
        Same seed, same draws.

    Notes
    -----
    The rows of the second half are shuffled: columns far along one sequence run in step while the draws are few, and
    a half in step with the other makes every share come out too small.
    """
    from scipy.special import ndtri
    from scipy.stats import qmc

    random = np.random.default_rng(seed)

    def half() -> NDArray[np.float64]:
        engine = qmc.LatinHypercube(count, seed=random) if sampling == "latin" else qmc.Sobol(count, seed=random)
        drawn: NDArray[np.float64] = ndtri(np.clip(engine.random(draws), EDGE, 1.0 - EDGE))
        return drawn

    return half(), random.permutation(half())


def mixed(first: NDArray[np.float64], second: NDArray[np.float64], column: int) -> NDArray[np.float64]:
    """Return the first half with one column of the second."""
    changed = first.copy()
    changed[:, column] = second[:, column]
    return changed


def truncated(
    normal: NDArray[np.float64], least: NDArray[np.float64], most: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return draws of normal distributions cut at limits, from those of the whole ones.

    Parameters
    ----------
    normal : array
        Standard normal numbers, a column an input.
    least, most : array
        Limits of each column, in standard deviations from its mean; infinite where there is none.

    Notes
    -----
    Probability for probability, so that even draws stay even. Columns whose limits no draw can reach stay as they are.
    """
    from scipy.special import ndtr, ndtri

    near = (least > ndtri(EDGE)) | (most < -ndtri(EDGE))
    low, high = ndtr(least), ndtr(most)
    cut: NDArray[np.float64] = np.where(near, ndtri(low + ndtr(normal) * (high - low)), normal)
    return cut
