"""Misreadings found by their residuals: every observation is tested against the size that the others give it.

The worst is named and left out, then the rest is tested again: data snooping. The variances that a test uses come from
the others too, so that a misreading does not hide behind the distortion that it feigns.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing import scatter_m
from sim.airframe.drawing_network import rank, solve
from sim.numerics.normal_mixture import equivalent_normal, half_width

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.drawing import Readings
    from sim.airframe.drawing_network import Network, Solved

SIGNIFICANCE = 0.001
"""Chance that a test calls a right observation wrong, both sides together (Baarda 1968)."""
POWER = 0.8
"""Chance that the least detectable error is found (Baarda 1968)."""
LIMIT = NormalDist().inv_cdf(1.0 - 0.5 * SIGNIFICANCE)
"""Normalised residual beyond which an observation contradicts the others: 3.29."""
NONCENTRALITY = LIMIT + NormalDist().inv_cdf(POWER)
"""Least detectable error over the standard error of the residual, where variances are known: 4.13 (Baarda 1968)."""
STRUCTURAL = 1e-7
"""Redundancy below which no other observation takes part: rounding."""
TIE = 1e-4
"""Relative difference of normalised residuals below which nothing tells which observation is wrong."""
FEWEST = 4
"""Degrees of freedom below which the scatter of the other repeats is too uncertain for a test."""


@dataclass(frozen=True, slots=True)
class Residual:
    """An observation against what the others say.

    Attributes
    ----------
    place : int
        Which observation.
    log_residual : float
        Observation less the size by the others, in logarithms: a fraction of length.
    normalised_residual : float
        Normal deviate as rare as this residual.
    """

    place: int
    log_residual: float
    normalised_residual: float


@dataclass(frozen=True, slots=True)
class Snooped:
    """What the tests left.

    Attributes
    ----------
    suspects : tuple of Residual
        Those that contradict the others, in the order found.
    passed : tuple of Residual
        Of the observations that passed a test.
    sound : tuple of int
        Observations that passed, or that nothing tests.
    kept : tuple of int
        Those and the suspects without which a dimension or a scale would be lost, because nothing tells which of
        them is wrong.
    tests : int
        Number of tests of the first round.
    solved : Solved
        Least squares of the sound observations.
    weights : array of shape (guesses,)
        Probability of each guess of the variances, by the sound observations.
    weights_without : array of shape (guesses, observations)
        The same by all sound observations but one.
    """

    suspects: tuple[Residual, ...]
    passed: tuple[Residual, ...]
    sound: tuple[int, ...]
    kept: tuple[int, ...]
    tests: int
    solved: Solved
    weights: NDArray[np.float64]
    weights_without: NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Tested:
    residual: NDArray[np.float64]
    normalised: NDArray[np.float64]
    weights_without: NDArray[np.float64]


def _tested(solved: Solved, variances: NDArray[np.float64], log_weight: NDArray[np.float64]) -> _Tested:
    """Return each observation's residual against all others and how rare it is; 0 where no other takes part.

    Notes
    -----
    The likelihood of all conditions is that of the conditions without one observation, times the density of its
    residual against the others; so one solution gives the variances as each observation's fellows see them.
    """
    checked = solved.redundancy.min(axis=0) > STRUCTURAL
    share = np.where(checked, solved.redundancy, 1.0)
    apart, error = solved.log_residual / share, np.sqrt(variances / share)
    own = np.where(checked, -0.5 * (apart / error) ** 2 - np.log(error), 0.0)
    weights = normal_weights((log_weight + solved.log_likelihood)[:, None] - own)
    normalised = np.where(checked, equivalent_normal(apart / error, weights), 0.0)
    residual = np.where(checked, (weights * apart).sum(axis=0), 0.0)
    return _Tested(residual, normalised, weights)


def normal_weights(log_weight: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return weights that sum to 1 over the first axis."""
    weights = np.exp(log_weight - log_weight.max(axis=0))
    return np.asarray(weights / weights.sum(axis=0))


def least_detectable(
    redundancy: NDArray[np.float64], variances: NDArray[np.float64], weights: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the error of each observation that its test finds with `POWER`, a fraction of length; infinite if none.

    Parameters
    ----------
    redundancy, variances, weights : array of shape (guesses, observations)
        Weights are those of the guesses without the observation.

    Notes
    -----
    With known variances this is Baarda's 4.13 standard errors over the root of the redundancy.
    """
    checked = redundancy.min(axis=0) > STRUCTURAL
    error = np.sqrt(variances / np.where(checked, redundancy, 1.0))
    limit = half_width(np.zeros_like(error), error, weights, 1.0 - SIGNIFICANCE)[1]
    usual = np.sqrt((weights * error**2).sum(axis=0))
    return np.where(checked, limit + NormalDist().inv_cdf(POWER) * usual, np.inf)


def snoop(
    whole: Network, variances: NDArray[np.float64], log_weight: NDArray[np.float64], apart: Sequence[Residual] = ()
) -> Snooped:
    """Return the observations that contradict the others, the worst first, and those that are left.

    Parameters
    ----------
    whole : Network
        Every observation.
    variances : array of shape (guesses, observations)
        Relative variances.
    log_weight : array of shape (guesses,)
        Of the guesses beforehand.
    apart : sequence of Residual
        Readings whose own repeats lie apart: they judge no other.

    References
    ----------
    Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; Ghilani, Adjustment Computations.
    """
    sound = np.array([k for k in range(len(whole.observations)) if k not in {each.place for each in apart}], dtype=int)
    groups, tests = [[each] for each in apart], -1
    while True:
        solved = solve(whole.design[sound], whole.logs[sound], variances[:, sound])
        found = _tested(solved, variances[:, sound], log_weight)
        tests = int((found.normalised != 0.0).sum()) if tests < 0 else tests
        size = np.abs(found.normalised)
        if not size.size or size.max() <= LIMIT:
            break
        worst = size >= size.max() * (1.0 - TIE)
        groups.append(_residuals(sound, found, worst))
        sound = sound[~worst]
    weights = normal_weights(log_weight + solved.log_likelihood)
    without = np.repeat(weights[:, None], len(whole.observations), axis=1)
    without[:, sound] = found.weights_without
    suspects = tuple(each for group in groups for each in group)
    kept = _kept(whole, sound.tolist(), groups)
    passed = tuple(_residuals(sound, found, found.normalised != 0.0))
    return Snooped(suspects, passed, tuple(sound.tolist()), kept, tests, solved, weights, without)


def _residuals(sound: NDArray[np.int_], found: _Tested, which: NDArray[np.bool_]) -> list[Residual]:
    return [
        Residual(int(sound[k]), float(found.residual[k]), float(found.normalised[k]))
        for k in np.flatnonzero(which).tolist()
    ]


def _kept(whole: Network, sound: list[int], groups: list[list[Residual]]) -> tuple[int, ...]:
    """Return the sound observations and the groups without which an unknown would be lost, the least wrong first."""
    kept = sound
    for group in reversed(groups):
        more = sorted({*kept, *(each.place for each in group)})
        if rank(whole.design[more]) > rank(whole.design[kept]):
            kept = more
    return tuple(kept)


def repeats_apart(readings: Sequence[Readings], stated_m: float | None) -> Iterator[Residual]:
    """Yield the readings whose own repeats differ by more than their error, or the scatter of all others, allows.

    The worst comes first and judges no other. The scatter of few repeats is itself uncertain, and the farthest of many
    lies farther: the ratio is carried to the normal one of the same probability.
    """
    left = dict(enumerate(readings))
    while True:
        found = [each for place in left if (each := _apart(left, place, stated_m))]
        if not found:
            return
        worst = max(found, key=lambda each: each.normalised_residual)
        yield worst
        del left[worst.place]


def _apart(left: Mapping[int, Readings], place: int, stated_m: float | None) -> Residual | None:
    from scipy.special import ndtr, ndtri, stdtr

    reading = left[place]
    if not _judged(left.values(), reading, stated_m):
        return None
    count, (single_m, spare) = len(reading.values_m), _judge(left.values(), reading, stated_m)
    middle_m = sum(reading.values_m) / count
    apart_m = max(abs(value_m - middle_m) for value_m in reading.values_m)
    ratio = apart_m / (single_m * (1.0 - 1.0 / count) ** 0.5)
    chance = float(stdtr(spare, -ratio)) if spare < np.inf else float(ndtr(-ratio))
    normalised = -float(ndtri(min(0.5, chance * (count if count > 2 else 1)) or np.finfo(float).tiny))
    return Residual(place, float(np.log1p(apart_m / middle_m)), normalised) if normalised > LIMIT else None


def repeats_tested(readings: Sequence[Readings], stated_m: float | None) -> int:
    """Return how many readings are tested by their own repeats."""
    return sum(_judged(readings, reading, stated_m) for reading in readings)


def _judged(readings: Iterable[Readings], reading: Readings, stated_m: float | None) -> bool:
    single_m, spare = _judge(readings, reading, stated_m)
    return len(reading.values_m) > 1 and spare >= FEWEST and single_m > 0.0


def _judge(readings: Iterable[Readings], reading: Readings, stated_m: float | None) -> tuple[float, float]:
    """Return the standard error that a reading's repeats are judged by, and its degrees of freedom [m]."""
    single_m = reading.error_m or stated_m
    if single_m is not None:
        return single_m, np.inf
    return scatter_m([other for other in readings if other is not reading])
