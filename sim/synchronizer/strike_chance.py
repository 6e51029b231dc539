"""The probability that a round meets a blade, given where it is released and how its delay scatters."""

from __future__ import annotations

from functools import cache
from math import ceil
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]

LEAST_SD = 1e-9
"""Standard deviation of the passage, in blade intervals, below which it is set to this: in effect a step."""

EVEN_SD = 2.0
"""Standard deviation in blade intervals beyond which passages are spread evenly, to 1e-30."""
_STEPS = np.array([-12.0, -8.0, -6.0, -4.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0])


def strike_chances(gun: TimedGun, held: float, density: Callable[[Floats], Floats]) -> tuple[float, float]:
    """Return the probability that a round meets a blade, and that it passes nearer to one than the margin.

    Parameters
    ----------
    gun : TimedGun
        Propeller, cam, gun and the scatter of the delay; the speed is steady.
    held : float
        Share of the rounds that are released as the cam opens.
    density : callable
        Density of the release of the others over the window, by phase in openings of the cam.

    Notes
    -----
    Gauss-Legendre over pieces that narrow towards both ends of the window, where the probability changes
    within a standard deviation of the delay. Known error: 1e-12, and 1e-9 of the probability itself.
    """
    phase, weight = _quadrature(gun)
    weight[1:] *= density(phase[1:])
    weight[0] = held
    chances = (float(weight @ meets(gun, phase, gun.half_blocked(margin=margin))) for margin in (False, True))
    strike, near = (min(max(chance, 0.0), 1.0) for chance in chances)
    return strike, near


def meets(gun: TimedGun, phase: Floats, half: float) -> Floats:
    """Return the probability to pass within `half` blade intervals of a blade's centre, by the phase of the release."""
    if half >= 0.5:
        return np.ones_like(phase)
    mean = gun.aim + gun.blades_per_opening * phase
    sd, tail = max(gun.scatter.delay_sd_s / gun.blade_s, LEAST_SD), gun.scatter.hang_s / gun.blade_s
    if sd > EVEN_SD:
        return np.full_like(phase, 2.0 * half)
    hangs = gun.scatter.hang_share > 0.0 and tail > 1e-3 * sd
    reach = ceil(9.0 * sd + (sd * sd / tail if hangs else 0.0))
    place = mean - np.floor(mean)
    blades = np.arange(-reach, reach + 2)
    low, high = (blades[:, None] + side * half - place for side in (-1.0, 1.0))
    chance = np.sum(_normal_between(low / sd, high / sd), axis=0)
    if hangs:
        chance += gun.scatter.hang_share * _tail_between(low, high, sd, tail)
    return np.asarray(chance)


def _normal_between(low: Floats, high: Floats) -> Floats:
    """Return the probability that a standard normal number lies between two bounds, to full digits in either tail."""
    from scipy.special import ndtr

    flip = low > 0.0
    return np.asarray(ndtr(np.where(flip, -low, high)) - ndtr(np.where(flip, -high, low)))


def _tail_between(low: Floats, high: Floats, sd: float, tail: float) -> Floats:
    """Return what an exponential delay adds to the probability to lie between the bounds, over all blades in rows.

    Past the last row only the exponential is left, and its blades are summed as a geometric series.
    """
    from scipy.special import log_ndtr

    def above(bound: Floats) -> Floats:
        return np.asarray(np.exp(0.5 * (sd / tail) ** 2 - bound / tail + log_ndtr(bound / sd - sd / tail)))

    rows = above(low) - above(high)
    rows[-1] /= -np.expm1(-1.0 / tail)
    return np.asarray(np.sum(rows, axis=0))


@cache
def _legendre() -> tuple[Floats, Floats]:
    points, weights = np.polynomial.legendre.leggauss(10)
    return points, weights


def _quadrature(gun: TimedGun) -> tuple[Floats, Floats]:
    """Return points and weights over the open window; the first point is the opening itself.

    The pieces are fine, in standard deviations of the delay, round the window's ends and round every phase whose
    round just grazes a blade.
    """
    width, per_opening = gun.open_share, gun.blades_per_opening
    blades = np.arange(np.floor(gun.aim) - 1.0, np.ceil(gun.aim + per_opening * width) + 2.0)
    grazes = [
        (blades + side * gun.half_blocked(margin=margin) - gun.aim) / per_opening
        for side in (-1.0, 1.0)
        for margin in (False, True)
    ]
    centres = np.concatenate([[0.0, width], *grazes])
    centres = centres[(centres >= 0.0) & (centres <= width)]
    steps = _STEPS * max(gun.scatter.delay_sd_s / gun.blade_s, LEAST_SD) / per_opening
    fine = np.clip((centres[:, None] + steps).ravel(), 0.0, width)
    edges = np.unique(np.concatenate([fine, np.linspace(0.0, width, 9)]))
    points, weights = _legendre()
    middle, reach = 0.5 * (edges[1:] + edges[:-1]), 0.5 * (edges[1:] - edges[:-1])
    phase = (middle[:, None] + reach[:, None] * points).ravel()
    return np.concatenate([[0.0], phase]), np.concatenate([[0.0], (reach[:, None] * weights).ravel()])
