"""What marks on a disc tell: opening, delay and scatter, each with half the width of its 95 % interval.

Each is the mixture of what it is under every guess, weighed by its evidence: no guess is chosen, and the ± say so.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.numerics.normal_mixture import half_width
from sim.synchronizer.disc_guesses import FINE_RAD, guesses, middle_speed
from sim.synchronizer.disc_marks import with_laps

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.synchronizer.disc_guesses import Guess, MarkLine
    from sim.synchronizer.disc_marks import DiscMarks

COVERED: Final = 0.95
"""Probability of a value within its ±."""
NEGLIGIBLE = 1e-4
"""Probability, over that of the best guess, below which a guess is left out."""
HALVINGS = 45
KNOWN = 1_000_000
"""Degrees of freedom of a variance that is known."""


@dataclass(frozen=True, slots=True)
class DiscFit:
    """What marks tell.

    Attributes
    ----------
    angle_rad : array
        Of the marks, with their laps. [rad]
    middle_rad_s : float
        Speed at which the scatter is told, the geometric mean of the marks'. [rad/s]
    values, half_widths : array
        Propeller angle at which the cam lets go, and delay; of marks at one speed their mean angle alone; and half the
        width of the 95 % interval of each. [rad, s]
    line_covariance : array
        Of these. [rad, s]
    scatter_rad, scatter_error_rad : float
        Standard deviation of a mark at the middle speed, odd marks left out, and half the width of its 95 % interval,
        which ends at 0. [rad]
    guesses : tuple of Guess
        That count.
    weights : array
        Their probabilities.
    """

    angle_rad: NDArray[np.float64]
    middle_rad_s: float
    values: NDArray[np.float64]
    half_widths: NDArray[np.float64]
    line_covariance: NDArray[np.float64]
    scatter_rad: float
    scatter_error_rad: float
    guesses: tuple[Guess, ...]
    weights: NDArray[np.float64]

    @property
    def scatters(self) -> bool:
        """Whether the marks lie off the line by more than rounded arithmetic does."""
        return self.scatter_rad > FINE_RAD

    def probability(self, share: Callable[[Guess], float]) -> float:
        """Return the probability of what holds in such a share of each guess."""
        return float(self.weights @ np.array([share(guess) for guess in self.guesses]))

    def band_rad(self, spin_rad_s: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the angle of the line at each speed and half the width of its 95 % interval, in radians."""
        return _interval(self.guesses, self.weights, np.vander(spin_rad_s, len(self.values), increasing=True))


def disc_fit(marks: DiscMarks, longest_s: float, reading_sd_rad: float = 0.0) -> DiscFit:
    """Return what marks tell.

    Parameters
    ----------
    marks : DiscMarks
        Three or more, or one more than speeds make values.
    longest_s : float
        Longest delay that is tried. [s]
    reading_sd_rad : float
        Standard deviation of reading an angle, which alone makes the ± where all marks lie on one line: a few of them
        read to whole degrees may do so by chance. [rad]

    Raises
    ------
    NoAnswerError
        Where the laps cannot be counted; see `with_laps`.

    Notes
    -----
    Valid where the delay is the same at every speed but for an angle, each round is let go as the cam opens, and odd
    marks are at most a quarter of all. Where no mark is odd and the kind of scatter is known, each ± is exact; else it
    covers what it says in simulated discs (see the tests).
    """
    angle_rad = with_laps(marks, longest_s)
    every = tuple(guesses(marks.spin_rad_s, angle_rad, marks.speeds, marks.period_rad))
    logs = np.array([guess.log_weight for guess in every])
    kept = np.flatnonzero(logs > logs.max() + np.log(NEGLIGIBLE))
    weights = np.exp(logs[kept] - logs.max())
    weights /= weights.sum()
    best = tuple(every[one] for one in kept)
    scatter_rad, scatter_error_rad = _scatter(best, weights)
    if scatter_rad <= FINE_RAD:
        best = tuple(replace(guess, line=_read_only(guess.line, reading_sd_rad)) for guess in best)
        scatter_error_rad = reading_sd_rad
    values, half_widths = _interval(best, weights, np.eye(len(best[0].line.values)))
    return DiscFit(
        angle_rad=angle_rad,
        middle_rad_s=middle_speed(marks.spin_rad_s),
        values=values,
        half_widths=half_widths,
        line_covariance=_covariance(best, weights, values),
        scatter_rad=scatter_rad,
        scatter_error_rad=scatter_error_rad,
        guesses=best,
        weights=weights,
    )


def _read_only(line: MarkLine, reading_sd_rad: float) -> MarkLine:
    """Return a line whose marks scatter by reading alone, which is known."""
    return replace(line, squares_rad2=KNOWN * reading_sd_rad**2, freedoms=KNOWN)


def _interval(
    best: Sequence[Guess], weights: NDArray[np.float64], sums: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return centre and half width of weighted sums of the values, a row of factors each."""
    lines = [guess.line for guess in best]
    means = np.array([sums @ line.values for line in lines])
    errors = np.array(
        [np.sqrt(line.variance_rad2 * np.einsum("ij,jk,ik->i", sums, line.line_covariance, sums)) for line in lines]
    )
    freedoms = np.array([float(line.freedoms) for line in lines])
    return half_width(means, errors, weights, COVERED, freedoms=freedoms)


def _covariance(
    best: Sequence[Guess], weights: NDArray[np.float64], centre: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the covariance of the values over all guesses."""
    parts = (
        guess.line.variance_rad2 * guess.line.line_covariance
        + np.outer(guess.line.values - centre, guess.line.values - centre)
        for guess in best
    )
    return np.asarray(sum(weight * part for weight, part in zip(weights, parts, strict=True)))


def _scatter(best: Sequence[Guess], weights: NDArray[np.float64]) -> tuple[float, float]:
    """Return the standard deviation at the middle speed, and how far to either side of it 95 % of its probability lie.

    Under one guess squares over variance follow chi-square; so the interval is exact, and symmetrical by choice.
    """
    from scipy.special import chdtr, chdtrc

    lines = [guess.line for guess in best]
    squares, freedoms = np.array([line.squares_rad2 for line in lines]), np.array([line.freedoms for line in lines])
    centre = float(weights @ np.sqrt(squares / freedoms))
    if centre <= FINE_RAD:
        return centre, 0.0
    least, most = 0.0, 1e3 * centre
    for _ in range(HALVINGS):
        half = 0.5 * (least + most)
        above = chdtrc(freedoms, squares / max(centre - half, 1e-9 * centre) ** 2)
        below = chdtr(freedoms, squares / (centre + half) ** 2)
        least, most = (half, most) if weights @ (above + below) > 1.0 - COVERED else (least, half)
    return centre, 0.5 * (least + most)
