"""How large the errors of a drawing are: caliper and paper, each estimated where nobody has stated it.

The relative variance of a reading is (reading error / length)² / repeats + distortion²: the second is what the paper
has warped from place to place, beyond the stretch along and across that the scales take up. Both are laid out as
guesses with a probability each, which the drawing's own conditions then weigh; so the uncertainty of the estimates
widens every interval by itself, as Student's t does.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing import scatter_m
from sim.airframe.drawing_network import EXACT
from sim.errors import refuse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.airframe.drawing import Readings
    from sim.airframe.drawing_network import Observation

USUAL_DISTORTION = 0.002
"""Local distortion of a copied drawing expected beforehand, a fraction of length: common practice, no source."""
PRIOR_FREEDOM = 4.0
"""Degrees of freedom of Student's t on that expectation: few, so that a drawing can say otherwise."""
SCATTER_GUESSES = 10
DISTORTION_GUESSES = 32
LEAST, MOST = 0.03, 25.0
"""Guesses of the distortion besides 0, from least to most, over the usual one."""


@dataclass(frozen=True, slots=True)
class Guesses:
    """Guesses of the two errors, and what is known of them before the conditions are seen.

    Attributes
    ----------
    reading_error_m : array of shape (guesses,)
        Standard error of a reading without its own. [m]
    distortion : array of shape (guesses,)
        Local distortion, a fraction of length.
    log_weight : array of shape (guesses,)
        Logarithm of the probability, but for a constant.
    """

    reading_error_m: NDArray[np.float64]
    distortion: NDArray[np.float64]
    log_weight: NDArray[np.float64]

    def variances(self, observations: Sequence[Observation]) -> NDArray[np.float64]:
        """Return the relative variance of each observation, an array of shape (guesses, observations)."""
        own = np.array([each.own_variance for each in observations])
        length_m = np.array([each.effective_length_m for each in observations])
        paper = np.array([each.direction is not None for each in observations])
        stated = np.maximum(own + (self.reading_error_m[:, None] / length_m) ** 2, EXACT**2)
        return np.asarray(stated + self.distortion[:, None] ** 2 * paper)


def reading_error(readings: Sequence[Readings], stated_m: float | None) -> float:
    """Return the standard error of a reading without its own: stated, or pooled from the repeats [m].

    Raises
    ------
    InputError
        No error to go by.
    """
    if stated_m is not None:
        return stated_m
    pooled_m, spare = scatter_m(readings)
    if spare == 0 and any(reading.error_m is None for reading in readings):
        refuse("reading_error", "is missing: give it, a ± with each reading, or read some dimensions more than once")
    return pooled_m


def guesses(readings: Sequence[Readings], stated_m: float | None, distortion: float | None) -> Guesses:
    """Return the guesses of both errors; a single one of what is stated.

    Parameters
    ----------
    readings : sequence of Readings
        Whose repeats tell the reading error.
    stated_m : float or None
        Standard error of a reading without its own. [m]
    distortion : float or None
        Local distortion as stated, a fraction of length, at least 0.

    Notes
    -----
    The scatter s of n degrees of freedom makes n s²/σ² a chi-squared variable; guesses of σ are equally likely.
    Distortion is half of Student's t about 0 with `USUAL_DISTORTION` as its scale.

    References
    ----------
    Gelman, Prior distributions for variance parameters in hierarchical models, Bayesian Analysis 1 (2006), section 3.
    """
    sigmas_m = _scatter_guesses(readings, stated_m)
    sizes, weights = _distortion_guesses(distortion)
    sigma_m, size = (each.ravel() for each in np.meshgrid(sigmas_m, sizes, indexing="ij"))
    return Guesses(sigma_m, size, np.tile(np.log(weights), len(sigmas_m)))


def _scatter_guesses(readings: Sequence[Readings], stated_m: float | None) -> NDArray[np.float64]:
    from scipy.special import chdtri

    pooled_m, spare = scatter_m(readings)
    if stated_m is not None or spare == 0 or all(reading.error_m is not None for reading in readings):
        return np.array([reading_error(readings, stated_m)])
    levels = (np.arange(SCATTER_GUESSES) + 0.5) / SCATTER_GUESSES
    return np.asarray(pooled_m * np.sqrt(spare / chdtri(spare, levels)))


def _distortion_guesses(stated: float | None) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    if stated is not None:
        return np.array([stated]), np.ones(1)
    ratio = np.array([0.0, *np.geomspace(LEAST, MOST, DISTORTION_GUESSES)])
    width = np.gradient(ratio)
    width[0] = 0.5 * (ratio[1] - ratio[0])
    likely = (1.0 + ratio**2 / PRIOR_FREEDOM) ** (-0.5 * (PRIOR_FREEDOM + 1.0))
    return USUAL_DISTORTION * ratio, width * likely
