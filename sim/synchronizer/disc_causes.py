"""Which causes marks on a disc speak for: of scatter, of marks off the line, of a line that is not the stated one.

A cause is tested only where the marks can tell it: kinds of scatter need several speeds, a line that differs needs one
that was stated.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.synchronizer.disc_guesses import FINE_RAD, HANGS, MISREADS, SPEED_SHARES, TIME_SHARES
from sim.synchronizer.disc_marks import wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from sim.synchronizer.disc_fit import DiscFit
    from sim.synchronizer.disc_guesses import Guess

LIKELY: Final = 0.8
"""Probability from which on a cause is named."""
OF_THE_LINE: Final = ("cam setting", "speed reading or stated delay")
"""What makes the angle at no speed, and the slope, another than the stated one: two causes of a slope look alike."""
LINE_WRONG: Final = (0.15, 0.15)
"""Probability of each before the marks are seen."""
CAM_SD_RAD: Final = math.radians(6.0)
"""Error of a cam that is set wrong."""
SLOPE_SD = 0.1
"""Error of a slope that is not the stated one, as a share of it."""
ROUNDING = 1e-9
UNKNOWN = 1e6
"""Standard deviation of what was not stated, over any that occurs."""
READING = 2.0
"""Reading errors that scatter of an angle must exceed to be slack."""


@dataclass(frozen=True, slots=True)
class DiscCause:
    """A cause.

    Attributes
    ----------
    name : str
        In words.
    probability : float
        With the marks seen.
    prior_probability : float
        Before they were.
    """

    name: str
    probability: float
    prior_probability: float


@dataclass(frozen=True, slots=True)
class StatedLine:
    """What the marks would show if everything were as stated.

    Attributes
    ----------
    opens_rad : float or None
        Propeller angle at which rounds of no delay pass; None where it is not stated. [rad]
    delay_s, delay_sd_s : float or None, float
        Delay, and its standard deviation. [s]
    """

    opens_rad: float | None = None
    delay_s: float | None = None
    delay_sd_s: float = 0.0


def causes(
    fit: DiscFit, stated: StatedLine, *, speeds: int, period_rad: float, reading_sd_rad: float
) -> tuple[DiscCause, ...]:
    """Return every cause that the marks can tell, the most probable first.

    Parameters
    ----------
    fit : DiscFit
        What the marks tell.
    stated : StatedLine
        What they would show.
    speeds : int
        Number of different speeds.
    period_rad : float
        Angle from one opening of the cam to the next. [rad]
    reading_sd_rad : float
        Standard deviation of reading an angle off the disc. [rad]
    """
    found = [
        *(_of_scatter(fit, reading_sd_rad) if speeds > 1 and fit.scatters else ()),
        *(_of_odd_marks(fit) if any(guess.odd for guess in fit.guesses) or fit.scatters else ()),
        *(_of_the_line(fit, stated, period_rad) if speeds > 1 else ()),
    ]
    return tuple(sorted(found, key=lambda cause: -cause.probability))


def _of_scatter(fit: DiscFit, reading_sd_rad: float) -> Iterator[DiscCause]:
    """Yield the kinds of scatter: an angle is alike at every speed, a time is an angle that grows with it."""
    from scipy.special import chdtr

    def beyond_reading(guess: Guess) -> float:
        if reading_sd_rad <= 0.0:
            return 1.0
        squares = guess.line.squares_rad2 * (1.0 - guess.time_share)
        return float(chdtr(guess.line.freedoms, squares / (READING * reading_sd_rad) ** 2))

    before = sum(prior * _of_angle(share) for share, prior in TIME_SHARES.items())
    slack = fit.probability(lambda guess: _of_angle(guess.time_share) * beyond_reading(guess))
    angle = fit.probability(lambda guess: _of_angle(guess.time_share))
    yield DiscCause("gear slack", slack, before)
    yield DiscCause("ammunition or lock", 1.0 - angle, 1.0 - before)
    if any(guess.speed_share > 0.0 for guess in fit.guesses):
        shared = fit.probability(lambda guess: float(guess.speed_share > 0.0))
        yield DiscCause("speed reading", shared, 1.0 - SPEED_SHARES[0.0])


def _of_angle(time_share: float) -> float:
    """Return whether an angle makes most of the scatter; a half where a time makes as much."""
    return 1.0 if time_share < 0.5 else 0.5 if time_share == 0.5 else 0.0


def _of_odd_marks(fit: DiscFit) -> Iterator[DiscCause]:
    yield DiscCause("hang-fires", fit.probability(lambda guess: guess.hang_share), HANGS)
    misread = fit.probability(lambda guess: 1.0 - guess.hang_share if guess.odd else 0.0)
    yield DiscCause("misread mark", misread, MISREADS)


def _of_the_line(fit: DiscFit, stated: StatedLine, period_rad: float) -> Iterator[DiscCause]:
    """Yield what may make the line another than the stated one: its angle at no speed, its slope, or both."""
    if stated.opens_rad is None and stated.delay_s is None:
        return
    off = np.zeros(2)
    spread = fit.line_covariance + np.diag([FINE_RAD**2, stated.delay_sd_s**2 + (FINE_RAD / fit.middle_rad_s) ** 2])
    if stated.opens_rad is None:
        spread[0, 0] += UNKNOWN**2
    else:
        off[0] = wrapped(fit.values[:1] - stated.opens_rad, period_rad)[0]
    if stated.delay_s is None:
        spread[1, 1] += UNKNOWN**2
    else:
        off[1] = fit.values[1] - stated.delay_s
    wrong = np.array([CAM_SD_RAD, SLOPE_SD * (stated.delay_s or 0.0)])
    freedoms = fit.probability(lambda guess: float(guess.line.freedoms))
    cases = np.array(list(product((0.0, 1.0), repeat=2)))
    before = np.log(np.where(cases > 0.0, LINE_WRONG, 1.0 - np.array(LINE_WRONG))).sum(axis=1)
    logs = before + [_log_density(off, spread + np.diag((wrong * case) ** 2), freedoms) for case in cases]
    chances = np.exp(logs - logs.max()) @ cases / np.exp(logs - logs.max()).sum()
    for place, value in enumerate((stated.opens_rad, stated.delay_s)):
        if value is not None:
            yield DiscCause(OF_THE_LINE[place], float(chances[place]), LINE_WRONG[place])


def _log_density(off: NDArray[np.float64], spread: NDArray[np.float64], freedoms: float) -> float:
    """Return the logarithm of the density of a deviation as of Student's t in two dimensions, but for a constant."""
    scale = np.sqrt(np.diag(spread))
    alike = spread / np.outer(scale, scale) + ROUNDING * np.eye(len(off))
    far = float(off / scale @ np.linalg.solve(alike, off / scale))
    size = 0.5 * float(np.log(np.linalg.det(alike))) + float(np.log(scale).sum())
    return -0.5 * (freedoms + len(off)) * math.log1p(far / freedoms) - size
