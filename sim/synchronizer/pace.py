"""When the rounds of a burst are fired, on the average: the instants by which a drift of the speed is counted."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.synchronizer.fixed_cycle import endless
from sim.synchronizer.steady import steady_interval_s

if TYPE_CHECKING:
    from sim.synchronizer.timed_gun import TimedGun

MOST_STRETCHES = 40
"""Stretches of a burst within each of which the pace is taken as even."""
SLOWEST = 0.01
"""Least share of the speed at which a pace is asked for; the study refuses propellers that come to a stop."""


@lru_cache(maxsize=64)
def shifts(gun: TimedGun, rounds: int) -> tuple[float, ...]:
    """Return by what share of the nominal speed the propeller has become faster at each round of a burst.

    Parameters
    ----------
    gun : TimedGun
        With its drift; the scatter of its speed does not count.
    rounds : int
        Rounds of a burst.

    Notes
    -----
    Each round is taken at its mean instant, which is reached at the pace of continuous fire at the speed of then. A
    single round is fired some hundredths of a second sooner or later: with a drift of a hundredth a second its speed is
    off by less than 1e-3.
    """
    drift, found = gun.scatter.drift_per_s, [0.0]
    if not drift:
        return (0.0,) * rounds
    stretch, step = -(-rounds // MOST_STRETCHES), 0.0
    for number in range(rounds - 1):
        if number % stretch == 0:
            step = drift * pace_s(gun.at_speed(max(1.0 + found[-1], SLOWEST)))
        found.append(found[-1] + step)
    return tuple(found)


def pace_s(gun: TimedGun) -> float:
    """Return the mean time between rounds in continuous fire at the steady nominal speed, in seconds.

    Where that has no exact form, of rounds that become ready at any place alike.
    """
    if gun.never_shuts:
        return gun.mean_interval_s
    try:
        return steady_interval_s(gun) if gun.scatter.cycle_sd_s > 0.0 else endless(gun).interval_s
    except NoAnswerError:
        return gun.mean_interval_s
