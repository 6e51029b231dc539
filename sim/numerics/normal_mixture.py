"""Mixtures of distributions, normal or Student's: a quantity of uncertain standard error, a member for each guess.

A variance that is estimated from few degrees of freedom makes the tails heavier than normal ones; where a single
variance follows from its own scatter the mixture is Student's t.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

HALVINGS = 34
RARE = 1e-12
"""Weight below which a member adds nothing."""


def half_width(
    means: NDArray[np.float64],
    errors: NDArray[np.float64],
    weights: NDArray[np.float64],
    share: float,
    *,
    freedoms: NDArray[np.float64] | None = None,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return centre and half width of the symmetric interval that holds a share of each mixture.

    Parameters
    ----------
    means, errors : array of shape (members, quantities)
        Of the members; errors at least 0.
    weights : array of shape (members,) or (members, quantities)
        Summing to 1 over the members.
    share : float
        Of the probability, 0 to 1: 0.95.
    freedoms : array of shape (members,), optional
        Degrees of freedom of the errors, where the members are Student's t; without them they are normal.

    Notes
    -----
    By bisection, to 1e-10 of the widest member's half width.
    """
    from scipy.special import ndtr, ndtri, stdtr, stdtrit

    each = weights if weights.ndim > 1 else weights[:, None]
    members = each.max(axis=1) > RARE
    means, errors, each = means[members], errors[members], each[members]
    free = None if freedoms is None else freedoms[members][:, None]
    below, reach = (ndtr, ndtri) if free is None else (partial(stdtr, free), partial(stdtrit, free))
    centre = (each * means).sum(axis=0)
    apart, safe = means - centre, np.maximum(errors, np.finfo(float).tiny)
    least = np.zeros_like(centre)
    most = (np.abs(apart) + reach(0.5 + 0.5 * share) * errors).max(axis=0)
    for _ in range(HALVINGS):
        middle = 0.5 * (least + most)
        held = (each * (below((middle - apart) / safe) - below((-middle - apart) / safe))).sum(axis=0)
        least, most = np.where(held < share, middle, least), np.where(held < share, most, middle)
    return centre, 0.5 * (least + most)


def equivalent_normal(ratios: NDArray[np.float64], weights: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the normal deviate that is exceeded as rarely, on its side, as a value is in a mixture.

    Parameters
    ----------
    ratios : array of shape (members, quantities)
        The value less each member's mean, over its standard error.
    weights : array of shape (members, quantities)
        Summing to 1 over the members.

    Notes
    -----
    In logarithms, so that 40 standard errors are still told from 50.
    """
    from scipy.special import ndtri_exp

    above, below = _log_chance(-ratios, weights), _log_chance(ratios, weights)
    size = np.where(above < below, -ndtri_exp(np.minimum(above, 0.0)), ndtri_exp(np.minimum(below, 0.0)))
    return np.asarray(size, dtype=float)


def _log_chance(ratios: NDArray[np.float64], weights: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the logarithm of the probability of a mixture below a value."""
    from scipy.special import log_ndtr

    each = log_ndtr(ratios) + np.log(np.maximum(weights, np.finfo(float).tiny))
    most = each.max(axis=0)
    return np.asarray(most + np.log(np.exp(each - most).sum(axis=0)))
