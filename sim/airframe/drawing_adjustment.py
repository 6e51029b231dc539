"""The adjustment of a drawing: one least squares problem for every scale and every dimension at once.

The problem stands in `drawing_network`, the errors of caliper and paper in `drawing_variance`, the tests for
misreadings in `drawing_snooping`; here they are put together.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp, expm1, isnan
from statistics import NormalDist
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing import Check, Contradiction, Dimension, Distortion, Scale, Scaled
from sim.airframe.drawing_advice import advice
from sim.airframe.drawing_network import determined, network, rank, resting_on, solve
from sim.airframe.drawing_repeats import farthest, repeats_apart, repeats_tested
from sim.airframe.drawing_snooping import least_detectable, snoop
from sim.airframe.drawing_variance import guesses, reading_error
from sim.numerics.normal_mixture import half_width

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.drawing import Known, Readings
    from sim.airframe.drawing_network import Network, Solved
    from sim.airframe.drawing_snooping import Residual, Snooped
    from sim.airframe.drawing_variance import Guesses

UNCHECKED = 0.001
"""Redundancy of a reading below which nothing checks it: what does shows a thousandth of an error."""
DOUBT = 1e6
"""Times the variance of an observation that contradicts others and alone gives a size: it gives nothing else."""
COVERED = 0.95
"""Probability that an interval holds, of which a standard error is the 1.96th part of half."""


@dataclass(frozen=True, slots=True)
class _Fit:
    """Sizes of the unknowns, and the observations that others check."""

    sizes: NDArray[np.float64]
    errors: NDArray[np.float64]
    residuals: dict[int, Residual]


def adjust(
    readings: Sequence[Readings],
    known: Mapping[str, Known],
    *,
    one_scale: Sequence[str] = (),
    error_m: float | None = None,
    distortion: float | None = None,
) -> Scaled:
    """Return scales and real dimensions by least squares, without the observations that contradict the others.

    Parameters
    ----------
    readings : sequence of Readings
        Every reading off every view.
    known : mapping of Known
        Documented dimensions by name.
    one_scale : sequence of str
        Views taken as not stretched: one scale for both directions.
    error_m : float or None
        Standard error of a reading that brings none of its own; None takes the scatter of the repeats. [m]
    distortion : float or None
        Local distortion of the paper, a fraction of length, at least 0; None estimates it.

    Raises
    ------
    InputError
        No error to go by, a direction that no known dimension reaches.

    Notes
    -----
    Standard errors hold to first order in (error / length): below 5 % of a reading nothing is lost. Distortion is taken
    as independent from reading to reading: two short lengths side by side, which warp together, are surer than it says.
    A reading of a dimension that is read once and not known cannot be checked by anything and is never named.

    References
    ----------
    Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; Ghilani, Adjustment Computations.
    """
    reading_error(readings, error_m)
    whole, apart = network(readings, known, frozenset(one_scale)), tuple(repeats_apart(readings, error_m))
    alike = [each for k, each in enumerate(readings) if k not in {suspect.place for suspect in apart}]
    guessed = guesses(alike, error_m, distortion)
    variances = guessed.variances(whole.observations)
    snooped = snoop(whole, variances, guessed.log_weight, apart)
    fit = _fit(whole, variances, snooped)
    checks = _checks(whole, variances, snooped, fit.sizes)
    advised = [
        check if check.least_detectable_m else replace(check, advice=advice(whole, readings, known, place))
        for place, check in enumerate(checks)
    ]
    rests = resting_on(whole)
    count, free = len(whole.names), len(whole.observations) - rank(whole.design)
    return Scaled(
        scales=tuple(
            Scale(view, axis, float(fit.sizes[count + k]), float(fit.errors[count + k]), rests[count + k])
            for k, (view, axis) in enumerate(whole.directions)
        ),
        dimensions=tuple(_dimension(name, whole, fit, checks) for name in whole.names),
        contradictions=_contradictions(
            whole, snooped, fit.sizes, {one.place: readings[one.place].values_m for one in apart}
        ),
        reading_error_m=reading_error(alike, error_m),
        checks=tuple(advised[: len(readings)]),
        document_checks={
            each.dimension: check
            for each, check in zip(whole.observations, advised, strict=True)
            if each.direction is None
        },
        distortion=_distortion(guessed, snooped, told=free > 0),
        degrees_of_freedom=free,
        tests=snooped.tests + repeats_tested(readings, error_m),
        unsure=tuple(name for name, error in zip(whole.names, fit.errors.tolist(), strict=False) if isnan(error)),
    )


def _fit(whole: Network, variances: NDArray[np.float64], snooped: Snooped) -> _Fit:
    """Solve without the contradictory observations; those that alone give a size say nothing of any other."""
    kept, sure = list(snooped.kept), determined(whole.design[list(snooped.sound)])
    doubt = np.ones(len(whole.observations))
    doubt[[each.place for each in snooped.suspects]] = DOUBT
    solved = _solved(whole, variances * doubt, snooped, kept)
    centre, half = half_width(solved.log_values, solved.log_errors, snooped.weights, COVERED)
    sizes = np.exp(centre)
    errors = np.where(sure, sizes * half / NormalDist().inv_cdf(0.5 + 0.5 * COVERED), np.nan)
    return _Fit(sizes, errors, {each.place: each for each in (*snooped.passed, *snooped.suspects)})


def _solved(whole: Network, variances: NDArray[np.float64], snooped: Snooped, places: list[int]) -> Solved:
    """Return the least squares of some observations, at hand where these are the sound ones."""
    if places == list(snooped.sound):
        return snooped.solved
    return solve(whole.design[places], whole.logs[places], variances[:, places])


def _checks(
    whole: Network, variances: NDArray[np.float64], snooped: Snooped, sizes: NDArray[np.float64]
) -> tuple[Check, ...]:
    """Return the redundancy of each observation among all, and what its test would find."""
    redundancy = _solved(whole, variances, snooped, list(range(len(whole.observations)))).redundancy
    shares = np.clip(snooped.weights @ redundancy, 0.0, 1.0).tolist()
    least = least_detectable(redundancy, variances, snooped.weights_without).tolist()
    found = []
    for each, share, detectable in zip(whole.observations, shares, least, strict=True):
        blind = np.isinf(detectable) or (each.direction is not None and share < UNCHECKED)
        least_m = None if blind else detectable * float(sizes[whole.names.index(each.dimension)])
        found.append(Check(share, least_m))
    return tuple(found)


def _dimension(name: str, whole: Network, fit: _Fit, checks: Sequence[Check]) -> Dimension:
    place, own = whole.names.index(name), [k for k, o in enumerate(whole.observations) if o.dimension == name]
    value_m, error_m = float(fit.sizes[place]), float(fit.errors[place])
    document = next((k for k in own if whole.observations[k].direction is None), None)
    if document is None:
        best = max(checks[k].redundancy for k in own)
        return Dimension(name, value_m, error_m, None, None, None, best)
    known_m, share = float(np.exp(whole.observations[document].log)), checks[document].redundancy
    if document not in fit.residuals:
        return Dimension(name, value_m, error_m, known_m, None, None, share)
    residual = fit.residuals[document]
    residual_m = -known_m * expm1(-residual.log_residual)
    return Dimension(name, value_m, error_m, known_m, residual_m, residual.normalised_residual, share)


def _contradictions(
    whole: Network, snooped: Snooped, sizes: NDArray[np.float64], apart: Mapping[int, Sequence[float]]
) -> tuple[Contradiction, ...]:
    found = []
    for suspect in snooped.suspects:
        each = whole.observations[suspect.place]
        scale = sizes[len(whole.names) + whole.directions.index(each.direction)] if each.direction else 1.0
        size_m = float(np.exp(each.log) * scale)
        others_m = size_m * exp(-suspect.log_residual)
        if suspect.place in apart:  # one repeat against the mean of the others
            size_m, others_m = (value_m * scale for value_m in farthest(apart[suspect.place]))
        view = each.direction[0] if each.direction else ""
        found.append(
            Contradiction(
                each.dimension,
                view,
                size_m,
                others_m,
                residual_m=size_m - others_m,
                normalised_residual=suspect.normalised_residual,
            )
        )
    return tuple(found)


def _distortion(guessed: Guesses, snooped: Snooped, *, told: bool) -> Distortion:
    """Return the median and the 95 % limits of the distortion."""
    sizes, place = np.unique(guessed.distortion, return_inverse=True)
    if len(sizes) == 1:
        return Distortion(float(sizes[0]), float(sizes[0]), float(sizes[0]), "given")
    share = np.bincount(place.ravel(), weights=snooped.weights)
    edges = np.concatenate([[0.0], 0.5 * (sizes[1:] + sizes[:-1]), sizes[-1:]])
    below = np.concatenate([[0.0], np.cumsum(share)])
    low, middle, high = np.interp([0.5 - 0.5 * COVERED, 0.5, 0.5 + 0.5 * COVERED], below, edges).tolist()
    return Distortion(middle, low, high, "estimated" if told else "assumed")
