"""The line through marks of a disc under each guess of what scatters them and of which marks are no part of it.

A guess is a share of time in the scatter, a size of errors that all marks of one speed share, and a number of odd
marks. Under each the line follows by generalised least squares, and its evidence, the probability density of the marks
with line and scatter integrated out, in closed form.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.synchronizer.disc_marks import line_of_medians

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

TIME_SHARES: Final = {0.0: 0.4, 1.0: 0.4} | dict.fromkeys((0.1, 0.3, 0.5, 0.7, 0.9), 0.04)
"""Part of the variance at the middle speed that is of a time -> its probability before the marks are seen."""
SPEED_SHARES: Final = {0.0: 0.9} | dict.fromkeys((0.5, 2.0, 8.0, 32.0), 0.025)
"""Variance that the marks of a speed share, over that of each, at the middle speed -> its probability, likewise."""
HANGS, MISREADS = 0.15, 0.05
"""Probability, before the marks are seen, that some rounds hang fire, and that some marks are misread."""
RARE = 9.0
"""Of a share of odd marks s the density before the marks are seen is 9 (1 - s)^8: a tenth of them at the mean."""
HANG_TIMES_S: Final = tuple(1e-3 * 1.5**power for power in range(13))
"""Mean delays of a primer that hangs, alike in their logarithm: 1 to 130 ms."""
LEAST_SPEEDS, LEAST_REPEATS = 4, 2.0
"""Speeds and marks a speed from which on errors shared by the marks of a speed can be told from those of each."""
MOST_ODD = 12
STEPS = 10
LEAST_FREEDOMS = 3
HOPELESS = 14.0
"""Log evidence below that of the best odd marks from which on others are left out: their probability is 1e-6 of it."""
FINE_RAD = 1e-7
"""Scatter of rounded arithmetic, below which all marks lie on the line."""


@dataclass(frozen=True, slots=True)
class MarkLine:
    """A line through marks.

    Attributes
    ----------
    values : array
        Angle at no speed and slope; of marks at one speed their mean angle alone. [rad, s]
    line_covariance : array
        Of these, for a variance of 1 rad². [1, s, s²]
    squares_rad2 : float
        Weighted sum of squared residuals. [rad²]
    freedoms : int
        Marks less values.
    log_evidence : float
        Logarithm of the probability density of the marks, line and scatter integrated out.
    """

    values: NDArray[np.float64]
    line_covariance: NDArray[np.float64]
    squares_rad2: float
    freedoms: int
    log_evidence: float

    @property
    def variance_rad2(self) -> float:
        """Variance of a mark for a spread of 1, as the residuals tell it. [rad²]."""
        return self.squares_rad2 / self.freedoms


@dataclass(frozen=True, slots=True)
class Guess:
    """What may scatter the marks, which are odd, and the line that follows.

    Attributes
    ----------
    log_weight : float
        Logarithm of its probability, but for a constant.
    time_share, speed_share : float
        Part of the variance of each mark at the middle speed that is of a time; and the variance that marks of a speed
        share, over it.
    odd : tuple of int
        Marks that are no part of the line.
    hang_share : float
        Probability that these hung fire, and were not misread.
    line : MarkLine
        Through the others.
    """

    log_weight: float
    time_share: float
    speed_share: float
    odd: tuple[int, ...]
    hang_share: float
    line: MarkLine


def middle_speed(spin_rad_s: NDArray[np.float64]) -> float:
    """Return the speed at which scatter is told, the geometric mean of those of the marks, in rad/s."""
    return float(np.exp(np.log(spin_rad_s).mean()))


def guesses(
    spin_rad_s: NDArray[np.float64], angle_rad: NDArray[np.float64], speeds: NDArray[np.int64], period_rad: float
) -> Iterator[Guess]:
    """Yield every guess.

    Parameters
    ----------
    spin_rad_s, angle_rad : array
        Speed and angle of each mark, three or more, laps counted. [rad/s, rad]
    speeds : array of int
        Number of the speed of each mark.
    period_rad : float
        Angle in which a mark that was misread may lie anywhere. [rad]
    """
    count, several = len(angle_rad), int(speeds.max()) + 1
    told = several >= LEAST_SPEEDS and count >= LEAST_REPEATS * several
    design = np.vander(spin_rad_s, min(several, 2), increasing=True)
    kinds, log_priors, spreads = _kinds(spin_rad_s, speeds, shared=told)
    sets = [
        (odd, list(_lines_without(odd, design, angle_rad, spreads[:1], period_rad=period_rad)))
        for odd in _odd_ones(design, angle_rad)
    ]
    best = max(first[0][0] for _, first in sets)
    for odd, first in sets:
        if first[0][0] < best - HOPELESS:
            continue
        found = _lines_without(odd, design, angle_rad, spreads, period_rad=period_rad)
        for (weight, hung, line), prior, (speed_share, time_share) in zip(found, log_priors, kinds, strict=True):
            yield Guess(weight + prior, time_share, speed_share, odd, hung, line)


def _kinds(
    spin_rad_s: NDArray[np.float64], speeds: NDArray[np.int64], *, shared: bool
) -> tuple[list[tuple[float, float]], list[float], NDArray[np.float64]]:
    """Return every speed share and time share, the logarithm of their probability, and the spread of marks under them.

    The first has as much of a time as of an angle, and nothing that marks of a speed share.
    """
    relative = spin_rad_s / middle_speed(spin_rad_s)
    together = np.equal.outer(speeds, speeds) * np.outer(relative, relative)
    priors = product((SPEED_SHARES if shared else {0.0: 1.0}).items(), TIME_SHARES.items())
    every = sorted(priors, key=lambda pair: (pair[0][0], abs(pair[1][0] - 0.5)))
    kinds = [(speed_share, time_share) for (speed_share, _), (time_share, _) in every]
    logs = [math.log(one * other) for (_, one), (_, other) in every]
    spreads = [np.diag(time * relative**2 + 1.0 - time) + speed * together for speed, time in kinds]
    return kinds, logs, np.array(spreads)


def _lines_without(
    odd: tuple[int, ...],
    design: NDArray[np.float64],
    angle_rad: NDArray[np.float64],
    spreads: NDArray[np.float64],
    *,
    period_rad: float,
) -> Iterator[tuple[float, float, MarkLine]]:
    """Yield for each spread the log evidence of all marks, the share of hang-fires in it, and the line of the rest."""
    count = len(angle_rad)
    rest, left_out = np.setdiff1d(np.arange(count), odd), list(odd)
    for line in mark_lines(design[rest], angle_rad[rest], spreads[:, rest[:, None], rest]):
        off = (angle_rad - design @ line.values)[left_out]
        chance, hung = _odd_chance(off, design[left_out, -1], count, period_rad)
        yield line.log_evidence + chance, hung, line


def mark_lines(
    design: NDArray[np.float64], angle_rad: NDArray[np.float64], spreads: NDArray[np.float64]
) -> list[MarkLine]:
    """Return the line of generalised least squares under each spread.

    Parameters
    ----------
    design : array of shape (marks, values)
        A column of ones, and one of speeds. [1, rad/s]
    angle_rad : array
        Angles. [rad]
    spreads : array of shape (spreads, marks, marks)
        Covariances of the angles but for a factor.

    Notes
    -----
    Line and logarithm of the scatter are taken as alike likely everywhere, so that each value follows Student's t.
    """
    freedoms = design.shape[0] - design.shape[1]
    roots = np.linalg.cholesky(spreads)
    whitened = np.linalg.solve(roots, np.column_stack((design, angle_rad)))
    matrices, right = whitened[:, :, :-1], whitened[:, :, -1:]
    orthogonal, upper = np.linalg.qr(matrices)
    inverses = np.linalg.inv(upper)
    values = inverses @ orthogonal.swapaxes(1, 2) @ right
    squares = ((right - matrices @ values) ** 2).sum(axis=(1, 2))
    sizes = (np.log(np.abs(np.diagonal(part, axis1=1, axis2=2))).sum(axis=1) for part in (roots, upper))
    known = np.log(math.pi * (squares + freedoms * FINE_RAD**2))
    evidence = math.lgamma(0.5 * freedoms) - 0.5 * freedoms * known - sum(sizes)
    covariances = inverses @ inverses.swapaxes(1, 2)
    return [
        MarkLine(value[:, 0], covariance, float(square), freedoms, float(log))
        for value, covariance, square, log in zip(values, covariances, squares, evidence, strict=True)
    ]


def _odd_ones(design: NDArray[np.float64], angle_rad: NDArray[np.float64]) -> Iterator[tuple[int, ...]]:
    """Yield the marks farthest from the line through the others: none, one, two ..., as far as enough are left.

    Each set is found by turns of line and choice, from the line through the middle of the marks.
    """
    count, several = design.shape
    most = min(count // 4, MOST_ODD, count - several - LEAST_FREEDOMS)
    start = np.array(line_of_medians(design[:, -1], angle_rad))[:several]
    for odd in range(max(most, 0) + 1):
        values, chosen = start, np.arange(0)
        for _ in range(STEPS):
            off = np.abs(angle_rad - design @ values) / design[:, -1] ** 0.5
            before, chosen = chosen, np.sort(np.argsort(off, kind="stable")[count - odd :])
            rest = np.setdiff1d(np.arange(count), chosen)
            if np.array_equal(before, chosen) or np.linalg.matrix_rank(design[rest]) < several:
                break
            values = np.asarray(np.linalg.lstsq(design[rest], angle_rad[rest], rcond=None)[0], dtype=float)
        rest = np.setdiff1d(np.arange(count), chosen)
        if np.linalg.matrix_rank(design[rest]) == several:
            yield tuple(int(one) for one in chosen)


def _odd_chance(
    off_rad: NDArray[np.float64], spin_rad_s: NDArray[np.float64], count: int, period_rad: float
) -> tuple[float, float]:
    """Return the logarithm of the probability of the odd marks where they lie, and that of hang-fires among it."""
    odd = len(off_rad)
    if not odd:
        return math.log(1.0 - HANGS - MISREADS), 0.0
    few = math.lgamma(odd + 1.0) + math.lgamma(count - odd + RARE) - math.lgamma(count + RARE + 1.0) + math.log(RARE)
    mean_rad = np.outer(HANG_TIMES_S, spin_rad_s)
    late = -(off_rad % period_rad) / mean_rad - np.log(mean_rad) - np.log(-np.expm1(-period_rad / mean_rad))
    hung = math.log(HANGS) + float(np.logaddexp.reduce(late.sum(axis=1))) - math.log(len(HANG_TIMES_S))
    misread = math.log(MISREADS) - odd * math.log(period_rad)
    both = float(np.logaddexp(hung, misread))
    return few + both, math.exp(hung - both)
