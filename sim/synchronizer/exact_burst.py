"""The exact statistics of a burst as it is fired: from a random instant, at speeds that scatter and drift."""

from __future__ import annotations

from dataclasses import fields, replace
from math import ceil
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.synchronizer.rate import impulse_rate, interrupter_rate
from sim.synchronizer.steady import Steady, interval_s, operator, statistics, steady
from sim.synchronizer.strike_chance import meets
from sim.units.convert import per_min, per_s

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from sim.synchronizer.timed_gun import TimedGun

MOST_POINTS = 100_000
ROUNDING = 1e-13
"""Relative rounding error of speeds converted from rpm: it must not decide on which side of an edge a gun falls."""


def exact_burst(gun: TimedGun, rounds_per_burst: int) -> Steady:
    """Return the mean over the rounds of a burst, over all speeds at which bursts begin.

    Parameters
    ----------
    gun : TimedGun
        Propeller, cam, gun and scatter.
    rounds_per_burst : int
        2 or more.

    Raises
    ------
    NoAnswerError
        Where the cycle scatters too little for a density, or not at all and yet primers hang.

    Notes
    -----
    The scatter of the speed is integrated by Gauss-Hermite quadrature. A drifting speed is taken at the mean instant
    of each round, which leaves out the product of drift and scatter of that instant: below 1e-4 of the speed.
    Without scatter of the cycle the burst is taken as settled from its first round.
    """
    return _over_speeds(gun, lambda each: _drifting(each, rounds_per_burst))


def settled(gun: TimedGun) -> Steady:
    """Return the stationary statistics of continuous fire, over all speeds at which bursts begin, without their drift.

    Raises
    ------
    NoAnswerError
        As `exact_burst`.
    """
    return _over_speeds(gun, _endless)


def _endless(gun: TimedGun) -> Steady:
    if gun.scatter.cycle_sd_s > 0.0:
        return steady(gun)
    if gun.scatter.hang_share > 0.0 and gun.scatter.hang_s > 0.0:
        message = "no exact form: primers hang, and the cycle does not scatter; give it some scatter"
        raise NoAnswerError(message)
    return _pattern(gun)


def _drifting(gun: TimedGun, rounds: int) -> Steady:
    if gun.scatter.cycle_sd_s == 0.0:
        return _endless(gun)
    if gun.scatter.drift_per_s == 0.0:
        return steady(gun, rounds)
    matrix, source = operator(gun)
    density, now, elapsed_s, found = np.zeros_like(source), gun, 0.0, []
    for number in range(rounds):
        if number:
            density = matrix @ density + source
            elapsed_s += interval_s(now, density)
            now = replace(gun, spin_rad_s=gun.spin_rad_s * (1.0 + gun.scatter.drift_per_s * elapsed_s))
            matrix, source = operator(now, source.size // 2)
        found.append((1.0 / rounds, statistics(now, density, density)))
    return replace(_mean(found), interval_s=elapsed_s / (rounds - 1))


def _over_speeds(gun: TimedGun, answer: Callable[[TimedGun], Steady]) -> Steady:
    if gun.scatter.speed_sd == 0.0:
        return answer(gun)
    points, weights = np.polynomial.hermite_e.hermegauss(9 + ceil(100.0 * gun.scatter.speed_sd))
    shares = weights / weights.sum()
    speeds = gun.spin_rad_s * np.maximum(1.0 + gun.scatter.speed_sd * points, 0.05)
    kept = [(float(share), float(speed)) for share, speed in zip(shares, speeds, strict=True) if share > 1e-8]
    return _mean([(share, answer(replace(gun, spin_rad_s=speed))) for share, speed in kept])


def _mean(parts: Iterable[tuple[float, Steady]]) -> Steady:
    kept = list(parts)
    names = [field.name for field in fields(Steady)]
    return Steady(**{name: sum(share * getattr(each, name) for share, each in kept) for name in names})


def _pattern(gun: TimedGun) -> Steady:
    """Return the statistics of a locked pattern: the mean over its points; of a free gun over points spread evenly."""
    openings_per_min, shut = (1.0 - ROUNDING) * per_min(1.0 / gun.interval_s), 1.0 - gun.open_share
    own_per_min = gun.line.gun_rounds_per_min
    late = min(1.0, shut + 1e3 * ROUNDING)  # on the edge itself the window is closed
    found = (
        interrupter_rate(openings_per_min, own_per_min, blocked=late)
        if shut < 1.0
        else impulse_rate(openings_per_min, own_per_min)
    )
    rounds, rate = min(int(found.rounds_per_pattern) or MOST_POINTS, MOST_POINTS), float(found.rounds_per_min)
    phases = np.mod(np.arange(rounds) * (gun.line.cycle_s / gun.interval_s), 1.0) if shut < 1.0 else np.zeros(1)
    strike, wide = (float(meets(gun, phases, gun.half_blocked(margin=margin)).mean()) for margin in (False, True))
    held = 1.0 / rounds if rate < own_per_min * (1.0 - 1e-12) else 0.0
    return Steady(1.0 / per_s(rate), strike, wide - strike, held)
