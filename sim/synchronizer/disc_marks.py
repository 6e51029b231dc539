"""Marks of single rounds on a disc that turned with the propeller, and the laps that they passed since the cam opened.

The mark is where the round passed: propeller angle, 0 with blade 1 on the bore line, read on the disc from the line of
blade 1 against the direction of rotation. A round let go as the cam opens passes at the angle of the opening, and later
by what the propeller turns during the delay: angle = opening + speed · delay, of which the disc shows whole laps less.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.units.text import fixed

if TYPE_CHECKING:
    from numpy.typing import NDArray

EARLIEST_S = -1e-3
"""Delay from which on laps are tried: a delay of nothing, read with an error, comes out below 0."""
STEPS_A_LAP = 24
"""Delays tried while the fastest mark moves past the slowest by a lap."""
MOST_TRIED = 200_000
BLOCK = 2000
"""Delays tried at once, so that memory stays small."""
RIVAL = 0.75
"""Share of the best agreement at which another delay has to be tried as well."""
AS_GOOD = 2.0
"""Ratio of mean absolute residuals below which the second best count of laps cannot be told from the best."""
ALL_ROUND = 0.15
"""Mean absolute residual over the period from which on marks follow no line: marks anywhere have a quarter."""
WORSE = 3.0
"""Ratio of mean absolute residuals from which on the line that falls with speed is the better one."""
SURE = 4.0
"""Fall over all speeds, in mean absolute residuals, from which on it is none of chance."""
NEEDLESS_RAD = math.radians(0.05)
"""Residuals smaller than this count alike: no disc is read better."""


@dataclass(frozen=True, slots=True)
class DiscMarks:
    """Marks on a disc.

    Attributes
    ----------
    spin_rad_s : array
        Propeller speed at each, above 0. [rad/s]
    angle_rad : array
        Propeller angle at passage, whole laps left out. [rad]
    period_rad : float
        Angle from one opening of the cam to the next, by which marks cannot be told apart: 2π over the openings.
    """

    spin_rad_s: NDArray[np.float64]
    angle_rad: NDArray[np.float64]
    period_rad: float

    @property
    def speeds(self) -> NDArray[np.int64]:
        """Number of the speed of each mark, from 0; marks whose speeds were read alike share one."""
        return np.asarray(np.unique(self.spin_rad_s, return_inverse=True)[1], dtype=np.int64)


def wrapped(angle_rad: NDArray[np.float64], period_rad: float) -> NDArray[np.float64]:
    """Return angles in half a period to either side of 0."""
    return np.asarray(angle_rad - period_rad * np.round(angle_rad / period_rad), dtype=float)


def with_laps(marks: DiscMarks, longest_s: float) -> NDArray[np.float64]:
    """Return the angles with their laps, as they lie nearest to the line that most of them agree with, from 0 up.

    Parameters
    ----------
    marks : DiscMarks
        At one speed at least; at a single one each lies within half a period of their mean.
    longest_s : float
        Longest delay that is tried. [s]

    Raises
    ------
    NoAnswerError
        Where two counts of laps fit alike, where none brings the marks together, and where the angles fall with speed,
        as when they are read the other way.

    Notes
    -----
    The delay is that of greatest agreement |Σ exp(2πi (angle − speed · delay) / period)|, which marks far from the
    line hardly move.
    """
    tried = [_Laps(marks, delay_s) for delay_s in _delays(marks, EARLIEST_S, longest_s)]
    first, *others = sorted(tried, key=lambda one: one.lack_rad)
    if first.lack_rad > ALL_ROUND * marks.period_rad:
        message = (
            "the marks lie all round the disc, and no delay that was tried brings them together; check speeds and "
        )
        raise NoAnswerError(message + "angles, the number of openings, and the longest delay")
    if others and others[0].lack_rad < AS_GOOD * first.lack_rad:
        both = " and ".join(fixed("delay_s", one.slope_s, "si", 1) for one in sorted((first, others[0]), key=_slope))
        message = f"the laps between speeds cannot be counted: delays of {both} fit alike; "
        raise NoAnswerError(message + "mark the disc at speeds closer together, or give a shorter longest delay")
    backwards = [_Laps(marks, delay_s) for delay_s in _delays(marks, -longest_s, EARLIEST_S)]
    if first.falls or any(one.falls and WORSE * one.lack_rad < first.lack_rad for one in backwards):
        message = "the angles fall as the propeller turns faster, as if rounds passed before their release; "
        raise NoAnswerError(
            message + "read them on the disc from the line of blade 1 against the direction of rotation"
        )
    return first.angle_rad - math.tau * math.floor(float(np.median(first.angle_rad)) / math.tau)


class _Laps:
    """The angles with the laps of one delay, the line of medians through them, and how far they lie from it."""

    def __init__(self, marks: DiscMarks, delay_s: float) -> None:
        turned = marks.spin_rad_s * delay_s
        ahead = np.exp(_turns(marks) - 1j * (math.tau / marks.period_rad) * turned).sum()
        line = turned + float(np.angle(ahead)) * marks.period_rad / math.tau
        self.angle_rad = np.asarray(line + wrapped(marks.angle_rad - line, marks.period_rad), dtype=float)
        level_rad, self.slope_s = line_of_medians(marks.spin_rad_s, self.angle_rad)
        off = np.abs(self.angle_rad - level_rad - self.slope_s * marks.spin_rad_s)
        self.lack_rad = float(off.mean()) + NEEDLESS_RAD
        self.falls = self.slope_s < EARLIEST_S and -self.slope_s * np.ptp(marks.spin_rad_s) > SURE * self.lack_rad


def _slope(laps: _Laps) -> float:
    return laps.slope_s


def line_of_medians(spin_rad_s: NDArray[np.float64], angle_rad: NDArray[np.float64]) -> tuple[float, float]:
    """Return angle at no speed and slope: the median slope of all pairs, and the median of what it leaves.

    Of marks at one speed the slope is 0. Up to a quarter of the marks may be anywhere.

    References
    ----------
    Theil 1950; Sen 1968 (from memory).
    """
    one, other = np.triu_indices(len(angle_rad), 1)
    steps = spin_rad_s[one] - spin_rad_s[other]
    apart = steps != 0.0
    slope_s = float(np.median((angle_rad[one] - angle_rad[other])[apart] / steps[apart])) if apart.any() else 0.0
    return float(np.median(angle_rad - slope_s * spin_rad_s)), slope_s


def _delays(marks: DiscMarks, least_s: float, most_s: float) -> list[float]:
    """Return the delays of greatest agreement, the best first and those that come near it."""
    range_rad_s = float(np.ptp(marks.spin_rad_s))
    if range_rad_s <= 0.0:
        return [0.0]
    laps = range_rad_s * (most_s - least_s) / marks.period_rad
    tried = np.linspace(least_s, most_s, min(MOST_TRIED, 2 + math.ceil(STEPS_A_LAP * max(1.0, laps))))
    agreement = np.concatenate([_agreement(marks, block) for block in np.array_split(tried, 1 + len(tried) // BLOCK)])
    inner = np.pad(agreement, 1, constant_values=-1.0)
    highest = (agreement >= inner[:-2]) & (agreement > inner[2:]) & (agreement > RIVAL * agreement.max())
    peaks = np.flatnonzero(highest)
    return [float(tried[peak]) for peak in peaks[np.argsort(-agreement[peaks])]]


def _agreement(marks: DiscMarks, delays_s: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the length of the sum of all marks turned back by each delay, at most their number."""
    turned = np.outer(delays_s, marks.spin_rad_s) * (math.tau / marks.period_rad)
    return np.asarray(np.abs(np.exp(_turns(marks) - 1j * turned).sum(axis=1)))


def _turns(marks: DiscMarks) -> NDArray[np.complex128]:
    return np.asarray(1j * (math.tau / marks.period_rad) * marks.angle_rad)
