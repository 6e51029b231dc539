"""The adjustment of a drawing: one least squares problem for every scale and every dimension at once.

In logarithms each reading says ln(reading) = ln(dimension) − ln(scale) and each document ln(known) = ln(dimension):
linear in the unknowns, which are all dimensions and one scale for each direction of each view. Normalised residuals
name what does not fit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.drawing import Contradiction, Dimension, Scale, Scaled, scatter_m
from sim.errors import Fault, InputError, refuse

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from sim.airframe.drawing import Axis, Direction, Known, Readings

LIMIT = 3.0
"""Normalised residual beyond which a reading contradicts the others (Baarda's test, one in 370 by chance)."""
FEWEST = 4
"""Degrees of freedom below which the scatter of the other repeats is too uncertain for a test."""
EXACT = 1e-5
"""Relative error given to a dimension or reading without one: practically fixed."""


@dataclass(frozen=True, slots=True)
class _Observation:
    dimension: str
    direction: Direction | None
    log: float
    error: float


@dataclass(frozen=True, slots=True)
class _Fit:
    """Least squares of some observations.

    `residual` is each observation less what the *others* say, a share of its value, and `normalised` that over its
    standard error; both are 0 where nothing checks the observation.
    """

    values: NDArray[np.float64]
    errors: NDArray[np.float64]
    residual: NDArray[np.float64]
    normalised: NDArray[np.float64]
    checked: NDArray[np.bool_]


def adjust(
    readings: Sequence[Readings],
    known: Mapping[str, Known],
    *,
    one_scale: Sequence[str] = (),
    error_m: float | None = None,
) -> Scaled:
    """Return scales and real dimensions by least squares.

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

    Raises
    ------
    InputError
        No error to go by, a direction that no known dimension reaches.

    Notes
    -----
    Standard errors hold to first order in (error / length): below 5 % of a reading nothing is lost. A reading of a
    dimension that is read once and not known cannot be checked by anything and is never named.

    References
    ----------
    Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; Ghilani, Adjustment Computations.
    """
    stated_m, error_m = error_m, _reading_error(readings, error_m)
    observations = _observations(readings, known, frozenset(one_scale), error_m)
    names = list(dict.fromkeys(o.dimension for o in observations))
    directions = list(dict.fromkeys(o.direction for o in observations if o.direction))
    design = _design(observations, names, directions)
    _reachable(design, names, directions)
    fit = _fit(design, observations)
    count, sizes_m = len(names), dict(zip(names, fit.values.tolist(), strict=False))
    return Scaled(
        scales=tuple(
            Scale(view, axis, float(fit.values[count + k]), float(fit.errors[count + k]))
            for k, (view, axis) in enumerate(directions)
        ),
        dimensions=tuple(_dimension(name, k, observations, fit) for k, name in enumerate(names)),
        contradictions=(
            *_repeats_apart(readings, sizes_m, stated_m),
            *_contradictions(design, observations, sizes_m),
        ),
        reading_error_m=error_m,
    )


def _dimension(name: str, place: int, observations: Sequence[_Observation], fit: _Fit) -> Dimension:
    value_m, error_m = float(fit.values[place]), float(fit.errors[place])
    document = next((k for k, o in enumerate(observations) if o.dimension == name and o.direction is None), None)
    if document is None:
        return Dimension(name, value_m, error_m, None, None, None)
    known_m = float(np.exp(observations[document].log))
    if not fit.checked[document]:
        return Dimension(name, value_m, error_m, known_m, None, None)
    residual_m = float(fit.residual[document]) * known_m
    return Dimension(name, value_m, error_m, known_m, residual_m, float(fit.normalised[document]))


def _reading_error(readings: Sequence[Readings], error_m: float | None) -> float:
    if error_m is not None:
        return error_m
    pooled_m, spare = scatter_m(readings)
    if spare == 0 and any(reading.error_m is None for reading in readings):
        refuse("reading_error", "is missing: give it, a ± with each reading, or read some dimensions more than once")
    return pooled_m


def _observations(
    readings: Sequence[Readings], known: Mapping[str, Known], one_scale: frozenset[str], error_m: float
) -> list[_Observation]:
    found = []
    for reading in readings:
        value_m = sum(reading.values_m) / len(reading.values_m)
        single_m = error_m if reading.error_m is None else reading.error_m
        axis: Axis = "along" if reading.view in one_scale else reading.axis
        share = max(single_m / len(reading.values_m) ** 0.5 / value_m, EXACT)
        found.append(_Observation(reading.dimension, (reading.view, axis), float(np.log(value_m)), share))
    read = {reading.dimension for reading in readings}
    for name, document in known.items():
        if name in read:
            share = max(document.error_m / document.value_m, EXACT)
            found.append(_Observation(name, None, float(np.log(document.value_m)), share))
    return found


def _design(
    observations: Sequence[_Observation], names: Sequence[str], directions: Sequence[Direction]
) -> NDArray[np.float64]:
    design = np.zeros((len(observations), len(names) + len(directions)))
    for row, observation in enumerate(observations):
        design[row, names.index(observation.dimension)] = 1.0
        if observation.direction:
            design[row, len(names) + directions.index(observation.direction)] = -1.0
    return design


def _reachable(design: NDArray[np.float64], names: Sequence[str], directions: Sequence[Direction]) -> None:
    """Refuse directions whose scale no known dimension fixes, directly or through a dimension seen in two views."""
    tied = set(np.flatnonzero(np.abs(design).sum(axis=1) == 1.0).tolist())
    reached = {int(np.flatnonzero(design[row])[0]) for row in tied}
    while True:
        pairs = [set(np.flatnonzero(row).tolist()) for row in design]
        more = {column for pair in pairs if pair & reached for column in pair} - reached
        if not more:
            break
        reached |= more
    faults = [
        Fault(f"view.{view}", f"no known dimension gives its scale {axis} the sheet; give one, or set one_scale = true")
        for k, (view, axis) in enumerate(directions)
        if len(names) + k not in reached
    ]
    if faults:
        raise InputError(faults)


def _fit(design: NDArray[np.float64], observations: Sequence[_Observation]) -> _Fit:
    """Solve by singular values, so that unknowns without an observation do no harm.

    With the share k of an observation that the others can check, its residual is k times its distance from them.
    """
    errors = np.array([o.error for o in observations])
    logs = np.array([o.log for o in observations])
    inverse = np.linalg.pinv(design / errors[:, None], rcond=1e-12)
    solution, covariance = inverse @ (logs / errors), inverse @ inverse.T
    values = np.exp(solution)
    left = logs - design @ solution
    free = 1.0 - np.einsum("ij,jk,ik->i", design, covariance, design) / errors**2
    checked = free > 1e-7
    safe = np.where(checked, free, 1.0)
    return _Fit(
        values=values,
        errors=values * np.sqrt(np.diag(covariance)),
        residual=np.where(checked, left / safe, 0.0),
        normalised=np.where(checked, left / (errors * np.sqrt(safe)), 0.0),
        checked=checked,
    )


def _repeats_apart(
    readings: Sequence[Readings], sizes_m: Mapping[str, float], stated_m: float | None
) -> Iterator[Contradiction]:
    """Yield the readings whose own repeats differ by more than their error, or the scatter of all others, allows.

    The scatter of few repeats is itself uncertain, and the farthest of many lies farther: the ratio is carried to the
    normal one of the same probability.
    """
    from scipy.special import ndtr, ndtri, stdtr

    for reading in readings:
        middle = sum(reading.values_m) / len(reading.values_m)
        apart = max(abs(value - middle) for value in reading.values_m)
        single_m, spare = (reading.error_m or stated_m), np.inf
        if single_m is None:
            single_m, spare = scatter_m([other for other in readings if other is not reading])
        count = len(reading.values_m)
        if count < 2 or spare < FEWEST or single_m == 0.0:
            continue
        ratio = apart / (single_m * (1.0 - 1.0 / count) ** 0.5)
        chance = float(stdtr(spare, -ratio)) if spare < np.inf else float(ndtr(-ratio))
        normalised = -float(ndtri(min(0.5, chance * (count if count > 2 else 1)) or np.finfo(float).tiny))
        if normalised > LIMIT:
            residual_m = apart / middle * sizes_m[reading.dimension]
            yield Contradiction(reading.dimension, reading.view, residual_m, normalised)


def _contradictions(
    design: NDArray[np.float64], observations: Sequence[_Observation], sizes_m: Mapping[str, float]
) -> tuple[Contradiction, ...]:
    """Return the contradictions: the largest is named and left out, then the rest is adjusted again."""
    left, named = np.arange(len(observations)), []
    while len(left):
        fit = _fit(design[left], [observations[k] for k in left.tolist()])
        size = np.abs(fit.normalised)
        if size.max() <= LIMIT:
            break
        worst = size >= size.max() * (1.0 - 1e-4)
        for place in np.flatnonzero(worst).tolist():
            found = observations[int(left[place])]
            view = found.direction[0] if found.direction else ""
            residual_m = float(fit.residual[place]) * sizes_m[found.dimension]
            named.append(Contradiction(found.dimension, view, residual_m, float(fit.normalised[place])))
        left = left[~worst]
    return tuple(named)
