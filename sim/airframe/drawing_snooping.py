"""Misreadings found by their residuals: every observation is tested against the size that the others give it.

The worst is named and left out, then the rest is tested again: data snooping. The variances that a test uses come from
the others too, so that a misreading does not hide behind the distortion that it feigns.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing_network import rank, solve
from sim.numerics.normal_mixture import equivalent_normal, half_width

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from numpy.typing import NDArray

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

    Notes
    -----
    Two misreadings together may feign so much distortion that neither stands out. So where none does, the worst is
    left out on trial: both are named if each contradicts the others without the other one. Three at once may stay
    hidden.

    References
    ----------
    Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; Ghilani, Adjustment Computations.
    """
    case, groups = _Case(whole, variances, log_weight), [[each] for each in apart]
    now = first = case.test(_without(range(len(whole.observations)), apart))
    while named := now.contradictory() or _hidden(case, now):
        groups += named
        now = case.test(_without(now.sound, [each for group in named for each in group]))
    weights = normal_weights(log_weight + now.solved.log_likelihood)
    without = np.repeat(weights[:, None], len(whole.observations), axis=1)
    without[:, list(now.sound)] = now.weights_without
    return Snooped(
        suspects=tuple(each for group in groups for each in group),
        passed=now.residuals,
        sound=now.sound,
        kept=_kept(whole, list(now.sound), groups),
        tests=len(first.residuals),
        solved=now.solved,
        weights=weights,
        weights_without=without,
    )


def _without(places: Iterable[int], named: Iterable[Residual]) -> list[int]:
    gone = {each.place for each in named}
    return [place for place in places if place not in gone]


@dataclass(frozen=True, slots=True)
class _Tested:
    """Some observations, each tested against the others."""

    sound: tuple[int, ...]
    solved: Solved
    residuals: tuple[Residual, ...]
    weights_without: NDArray[np.float64]

    def worst(self) -> list[Residual]:
        """Return the largest residual, and those that nothing tells from it."""
        most = max((abs(each.normalised_residual) for each in self.residuals), default=0.0)
        return [each for each in self.residuals if abs(each.normalised_residual) >= most * (1.0 - TIE)]

    def contradictory(self) -> list[list[Residual]]:
        """Return the worst as a group, where they contradict the others."""
        worst = self.worst()
        return [worst] if worst and abs(worst[0].normalised_residual) > LIMIT else []


@dataclass(frozen=True, slots=True)
class _Case:
    """A drawing with the guesses of its variances."""

    whole: Network
    variances: NDArray[np.float64]
    log_weight: NDArray[np.float64]

    def test(self, sound: Sequence[int]) -> _Tested:
        """Return each observation's residual against all others of some, where another takes part.

        Notes
        -----
        The likelihood of all conditions is that of the conditions without one observation, times the density of its
        residual against the others; so one solution gives the variances as each observation's fellows see them.
        """
        places = list(sound)
        variances = self.variances[:, places]
        solved = solve(self.whole.design[places], self.whole.logs[places], variances)
        checked = solved.redundancy.min(axis=0) > STRUCTURAL
        share = np.where(checked, solved.redundancy, 1.0)
        apart, error = solved.log_residual / share, np.sqrt(variances / share)
        own = np.where(checked, -0.5 * (apart / error) ** 2 - np.log(error), 0.0)
        weights = normal_weights((self.log_weight + solved.log_likelihood)[:, None] - own)
        normalised, residual = equivalent_normal(apart / error, weights), (weights * apart).sum(axis=0)
        residuals = tuple(
            Residual(places[k], float(residual[k]), float(normalised[k])) for k in np.flatnonzero(checked).tolist()
        )
        return _Tested(tuple(places), solved, residuals, weights)


def _hidden(case: _Case, now: _Tested) -> list[list[Residual]]:
    """Return two groups that hide each other behind the distortion that they feign together, or none."""
    first = now.worst()
    if len(case.log_weight) == 1 or not first:
        return []
    second = case.test(_without(now.sound, first)).contradictory()
    if not second:
        return []
    again = {each.place: each for each in case.test(_without(now.sound, second[0])).residuals}
    found = [again[each.place] for each in first if each.place in again]
    if not found or abs(found[0].normalised_residual) <= LIMIT:
        return []
    return [found, *second]


def _kept(whole: Network, sound: list[int], groups: list[list[Residual]]) -> tuple[int, ...]:
    """Return the sound observations and the groups without which an unknown would be lost, the least wrong first."""
    kept = sound
    for group in reversed(groups):
        more = sorted({*kept, *(each.place for each in group)})
        if rank(whole.design[more]) > rank(whole.design[kept]):
            kept = more
    return tuple(kept)
