"""Statistics of a gun whose cycle does not scatter: each round moves the phase by one and the same rotation.

What the cam holds is gathered on its next opening, so that single phases and pieces of constant density say all: exact.
With hang-fires the delayed share is a smooth density on pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.synchronizer.hang_fires import NODES, delayed
from sim.synchronizer.phases import even, release, single, turned
from sim.synchronizer.steady import Steady
from sim.synchronizer.strike_chance import strike_chances
from sim.synchronizer.timed_gun import READY

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.phases import Phases, Released
    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]

MOST_ROUNDS = 2000
"""Rounds within which all guns must have been held, or be known never to be, for what continuous fire comes to."""
MOST_ROUNDS_HANGING = 200
"""The same where primers hang, which takes longer to compute."""
REPEATS = 500
"""Longest rotation, in rounds, that is taken as coming back to itself exactly."""
ALL = 1e-12
"""Share of the guns that may be left over."""
SHORTEST_HANG = 1e-3
"""Mean hang-fire, in steps, below which its density would need too many pieces."""


def nodes(gun: TimedGun) -> int:
    """Return how many Gauss points a piece of density needs.

    Raises
    ------
    NoAnswerError
        Where hang-fires are too short beside the time between openings.
    """
    if not _hangs(gun):
        return 1
    if gun.scatter.hang_s < SHORTEST_HANG * gun.interval_s:
        message = "no exact form: hang-fires are shorter than a thousandth of the time between openings; leave them out"
        raise NoAnswerError(message)
    return NODES


def next_ready(gun: TimedGun, released: Phases) -> Phases:
    """Return where guns are ready again after a cycle."""
    scatter = gun.scatter
    if _hangs(gun):
        released = delayed(released, scatter.hang_share, scatter.hang_s / gun.interval_s)
    return turned(released, gun.line.cycle_s / gun.interval_s)


def strikes(gun: TimedGun, released: Phases) -> tuple[float, float]:
    """Return the probability that released rounds meet a blade, and that they pass nearer than the margin."""
    edges = np.unique(np.concatenate([released.low, released.high]))
    return strike_chances(gun, released.points, released.masses, edges=edges, density=released.at)


def interval_s(gun: TimedGun, found: Released) -> float:
    """Return the mean time from the round before, in seconds, for guns all of which were released."""
    scatter = gun.scatter
    return gun.line.cycle_s + scatter.hang_share * scatter.hang_s + found.wait * gun.interval_s


def endless(gun: TimedGun) -> Steady:
    """Return the statistics of continuous fire, over all phases at which it begins.

    Raises
    ------
    NoAnswerError
        Where fire takes too many rounds to settle.

    Notes
    -----
    Between two holds a gun forgets where it began: from each opening the rounds up to the next hold are followed, and
    what they come to is weighed by how often they are begun. Guns that are never held keep to a rotation that comes
    back to itself.
    """
    stretches = [_stretch(gun, single(phase, nodes(gun))) for phase in gun.opens]
    onward = np.array([each.ends for each in stretches])
    chain = onward + np.diag(1.0 - onward.sum(axis=1))
    for _ in range(50):
        chain = 0.5 * (chain + chain @ chain)
        chain /= chain.sum(axis=1, keepdims=True)
    sums = chain @ np.array([each.sums for each in stretches])
    settled = sums[:, 1:] / sums[:, :1]
    if _hangs(gun):
        return Steady(*settled[0].tolist())
    begun = _stretch(gun, even(1))
    mean = begun.ends @ settled
    if begun.ends.sum() < 1.0 - ALL:
        mean += begun.sums[1:] / begun.sums[0] * (1.0 - begun.ends.sum())
    return Steady(*mean.tolist())


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Rounds from a start until the cam holds the gun.

    Attributes
    ----------
    sums : numpy.ndarray
        Over those rounds, or where some are never held over the rotation that these keep to: number of rounds, time
        taken, strikes, near misses, holds.
    ends : numpy.ndarray
        Share held for each opening.
    """

    sums: Floats
    ends: Floats


def _stretch(gun: TimedGun, alive: Phases) -> _Stretch:
    ends, repeat = np.zeros(len(gun.opens)), _repeat(gun)
    sums = np.array([0.0, 0.0, 0.0, 0.0, 1.0 if alive.points.size else 0.0])
    for number in range(MOST_ROUNDS_HANGING if _hangs(gun) else MOST_ROUNDS):
        sums[:4] += _sums(gun, alive)
        found = release(gun, next_ready(gun, alive))
        sums[1] += found.wait * gun.interval_s
        ends += found.held
        alive = found.at_once
        if alive.share < ALL:
            return _Stretch(sums, ends)
        if number + 1 == repeat:
            return _Stretch(_rotation(gun, alive, repeat), ends)
    message = "no exact form of continuous fire: the gun is held so seldom that fire does not settle"
    raise NoAnswerError(message)


def _rotation(gun: TimedGun, alive: Phases, repeat: int) -> Floats:
    """Return the sums over a rotation of guns that are never held."""
    sums = np.zeros(5)
    for _ in range(repeat):
        sums[:4] += _sums(gun, alive)
        alive = release(gun, next_ready(gun, alive)).at_once
    return sums


def _sums(gun: TimedGun, alive: Phases) -> Floats:
    share, (strike, wide) = alive.share, strikes(gun, alive)
    cycle_s = gun.line.cycle_s + gun.scatter.hang_share * gun.scatter.hang_s
    return np.array([share, share * cycle_s, strike, wide - strike])


def _repeat(gun: TimedGun) -> int:
    """Return after how many rounds a gun that is never held is back at the same phase; 0 where not soon."""
    if _hangs(gun):
        return 0
    turns = gun.line.cycle_s / gun.interval_s
    near = Fraction(turns).limit_denominator(REPEATS)
    return near.denominator if abs(turns - float(near)) < READY / MOST_ROUNDS else 0


def _hangs(gun: TimedGun) -> bool:
    return gun.scatter.hang_share > 0.0 and gun.scatter.hang_s > 0.0
