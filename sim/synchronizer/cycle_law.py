"""The law by which a gun's own cycle scatters from round to round.

It is the inverse Gaussian law: that of the time in which a motion of steady mean speed, disturbed at random on its way,
runs a fixed travel. Mean and standard deviation are as given, no cycle is negative however large the scatter, and with
a scatter small beside the cycle it is the normal law; its skewness is three times scatter over cycle.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray


def draw(mean: float, sd: float, size: int, random: np.random.Generator) -> NDArray[np.float64]:
    """Return cycles drawn at random, in the unit of `mean` and `sd`, both above 0."""
    return random.wald(mean, mean**3 / sd**2, size)


def characteristic(mean: float, sd: float, frequency: NDArray[np.float64]) -> NDArray[np.complex128]:
    """Return the mean of exp(−i ω C) over cycles C.

    Parameters
    ----------
    mean, sd : float
        Mean above 0 and standard deviation, 0 or more. [s]
    frequency : numpy.ndarray
        ω. [rad/s]

    Notes
    -----
    exp[(μ²/σ²)(1 − √(1 + 2iωσ²/μ))], written so that no scatter leaves exp(−iωμ) to full digits.

    References
    ----------
    Tweedie, Statistical Properties of Inverse Gaussian Distributions, Ann. Math. Stat. 28, 1957, 362 (from memory).

    Examples
    --------
    >>> np.round(characteristic(0.1, 0.0, np.array([np.pi / 0.1])), 12).tolist()
    [(-1-0j)]
    """
    return np.asarray(np.exp(-2j * frequency * mean / (1.0 + np.sqrt(1.0 + 2j * frequency * sd * sd / mean))))
