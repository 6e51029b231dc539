"""The observations of a drawing as one linear problem in logarithms, solved for many guesses of the variances at once.

Each reading says ln(reading) = ln(dimension) − ln(scale), each document ln(known) = ln(dimension): linear in the
unknowns, which are all dimensions and one scale for each direction of each view. What the observations say of each
other, whatever the unknowns are, are the conditions: combinations in which every unknown cancels. All that is asked of
the residuals follows from them.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import Fault, InputError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.drawing import Axis, Direction, Known, Readings

EXACT = 1e-5
"""Relative error given to a dimension or reading without one: practically fixed."""
RANK = 1e-9
"""Singular value, of a matrix of 0 and ±1, below which it counts as none."""


@dataclass(frozen=True, slots=True)
class Observation:
    """One mean of repeated readings, or one document.

    Attributes
    ----------
    dimension : str
        What it tells.
    direction : tuple of str or None
        View and axis; None for a document.
    log : float
        Natural logarithm of its metres.
    own_variance : float
        Relative variance stated with it; 0 where it follows from the common reading error. [1]
    effective_length_m : float
        Length on paper times the root of the number of repeats, by which the common reading error is divided; infinite
        where its own error is stated. [m]
    """

    dimension: str
    direction: Direction | None
    log: float
    own_variance: float
    effective_length_m: float = inf


@dataclass(frozen=True, slots=True)
class Network:
    """Observations and unknowns: `design` times the logarithms of the unknowns are those of the observations.

    Attributes
    ----------
    observations : tuple of Observation
        Readings first, in the order read; then the documents.
    names : tuple of str
        Dimensions, the first unknowns.
    directions : tuple of (view, axis)
        Scales, the other unknowns.
    design : array of shape (observations, unknowns)
        Of 0, 1 and −1.
    """

    observations: tuple[Observation, ...]
    names: tuple[str, ...]
    directions: tuple[Direction, ...]
    design: NDArray[np.float64]

    @property
    def logs(self) -> NDArray[np.float64]:
        """Logarithms of the observations, an array of shape (observations,)."""
        return np.array([each.log for each in self.observations])


@dataclass(frozen=True, slots=True)
class Solved:
    """Least squares of some observations, a row for each guess of the variances.

    Attributes
    ----------
    log_likelihood : array of shape (guesses,)
        Restricted log likelihood of the conditions, but for a constant.
    redundancy : array of shape (guesses, observations)
        Share of an error of an observation that shows in its residual, 0 to 1.
    log_residual : array of shape (guesses, observations)
        Observation less what all, itself included, say; in logarithms.
    log_values, log_errors : array of shape (guesses, unknowns)
        Logarithms of the unknowns and their standard errors.
    """

    log_likelihood: NDArray[np.float64]
    redundancy: NDArray[np.float64]
    log_residual: NDArray[np.float64]
    log_values: NDArray[np.float64]
    log_errors: NDArray[np.float64]


def network(readings: Sequence[Readings], known: Mapping[str, Known], one_scale: frozenset[str]) -> Network:
    """Return the linear problem of a drawing; a document of a dimension that was not read stays out.

    Raises
    ------
    InputError
        A direction that no known dimension reaches.
    """
    seen = {reading.dimension for reading in readings}
    documents = [
        Observation(name, None, float(np.log(size.value_m)), (size.error_m / size.value_m) ** 2)
        for name, size in known.items()
        if name in seen
    ]
    observations = (*(_observation(reading, one_scale) for reading in readings), *documents)
    names = tuple(dict.fromkeys(each.dimension for each in observations))
    directions = tuple(dict.fromkeys(each.direction for each in observations if each.direction))
    whole = Network(observations, names, directions, _design(observations, names, directions))
    _reachable(whole)
    return whole


def _observation(reading: Readings, one_scale: frozenset[str]) -> Observation:
    count = len(reading.values_m)
    value_m = sum(reading.values_m) / count
    axis: Axis = "along" if reading.view in one_scale else reading.axis
    effective_m = count**0.5 * value_m
    log, direction = float(np.log(value_m)), (reading.view, axis)
    if reading.error_m is None:
        return Observation(reading.dimension, direction, log, 0.0, effective_m)
    return Observation(reading.dimension, direction, log, (reading.error_m / effective_m) ** 2)


def _design(
    observations: Sequence[Observation], names: Sequence[str], directions: Sequence[Direction]
) -> NDArray[np.float64]:
    design = np.zeros((len(observations), len(names) + len(directions)))
    for row, observation in enumerate(observations):
        design[row, names.index(observation.dimension)] = 1.0
        if observation.direction:
            design[row, len(names) + directions.index(observation.direction)] = -1.0
    return design


def _reachable(whole: Network) -> None:
    """Refuse directions whose scale no known dimension fixes, directly or through a dimension seen in two views."""
    fixed = determined(whole.design)[len(whole.names) :]
    faults = [
        Fault(f"view.{view}", f"no known dimension gives its scale {axis} the sheet; give one, or set one_scale = true")
        for (view, axis), found in zip(whole.directions, fixed.tolist(), strict=True)
        if not found
    ]
    if faults:
        raise InputError(faults)


def rank(design: NDArray[np.float64]) -> int:
    """Return how many unknowns, or combinations of them, some rows determine."""
    return int(np.linalg.matrix_rank(design, tol=RANK)) if design.size else 0


def determined(design: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which unknowns some rows determine, an array of shape (unknowns,)."""
    if not design.size:
        return np.zeros(design.shape[1], dtype=bool)
    return np.asarray(np.diag(np.linalg.pinv(design, rcond=RANK) @ design) > 1.0 - RANK)


def resting_on(whole: Network) -> tuple[tuple[str, ...], ...]:
    """Return the documents that take part in each unknown, the dimensions' first and then the scales'.

    Notes
    -----
    Readings join unknowns as resistors join nodes, documents join them to earth: current through the resistor of one
    document raises every node that is joined to it otherwise than through earth, so that no coefficient cancels.
    """
    inverse = np.linalg.pinv(whole.design, rcond=RANK)
    documents = [(k, each.dimension) for k, each in enumerate(whole.observations) if each.direction is None]
    return tuple(tuple(name for k, name in documents if abs(row[k]) > RANK) for row in inverse)


def conditions(design: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return combinations of the rows in which every unknown cancels, orthonormal columns (observations, number)."""
    left = np.linalg.svd(design)[0]
    return np.asarray(left[:, rank(design) :])


def solve(design: NDArray[np.float64], logs: NDArray[np.float64], variances: NDArray[np.float64]) -> Solved:
    """Return the least squares of observations for each row of their variances.

    Parameters
    ----------
    design : array of shape (observations, unknowns)
        Of 0, 1 and −1, of any rank.
    logs : array of shape (observations,)
        Observations.
    variances : array of shape (guesses, observations)
        Above 0.

    Notes
    -----
    With the conditions K, K'y has the variance K'VK whatever the unknowns are, and the residual is VK(K'VK)⁻¹K'y. An
    unknown that no observation determines comes out as some number: see `determined`.

    References
    ----------
    Patterson and Thompson, Biometrika 58 (1971): the likelihood of such combinations for estimating variances.
    """
    check, inverse = conditions(design), np.linalg.pinv(design, rcond=RANK)
    spread = np.einsum("if,gi,ih->gfh", check, variances, check, optimize=True)
    closure = check.T @ logs
    inner = np.linalg.inv(spread)
    weight = inner @ closure
    outer = np.einsum("if,gfh->gih", check, inner, optimize=True)
    residual = variances * (weight @ check.T)
    values = (logs - residual) @ inverse.T
    moved = np.einsum("pi,gi,if->gpf", inverse, variances, check, optimize=True)
    before = variances @ (inverse**2).T
    square = before - np.einsum("gpf,gfh,gph->gp", moved, inner, moved, optimize=True)
    return Solved(
        log_likelihood=-0.5 * (np.linalg.slogdet(spread)[1] + weight @ closure),
        redundancy=variances * np.einsum("gih,ih->gi", outer, check),
        log_residual=residual,
        log_values=values,
        log_errors=np.sqrt(np.maximum(square, 0.0)),
    )
