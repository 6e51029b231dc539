"""The probability that a round meets a blade, given where it is released and how its delay scatters."""

from __future__ import annotations

from math import ceil, floor
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.phases import gauss
from sim.synchronizer.timed_gun import GRAZE

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]

LEAST_SD = 1e-12
"""Standard deviation of the passage, in blade intervals, up to which the edge of the blocked arc is sharp."""
EVEN_SD = 2.0
"""Standard deviation in blade intervals beyond which passages are spread evenly, to 1e-30."""
SHORT_TAIL = 1e-3
"""Mean hang-fire over the standard deviation below which both together are a normal law, to 1e-9 of the share hung."""
_STEPS = np.array([-12.0, -8.0, -6.0, -4.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0])
_TAIL_STEPS = np.array([0.0, -1.0, -3.0, -7.0, -15.0, -36.0])
NODES = 10
INSTANTS = 65


def strike_chances(
    gun: TimedGun, points: Floats, masses: Floats, *, edges: Floats, density: Callable[[Floats], Floats]
) -> tuple[float, float]:
    """Return the probability that a round meets a blade, and that it passes nearer to one than the margin.

    Parameters
    ----------
    gun : TimedGun
        Propeller, cam, gun and the scatter of the delay; the speed is steady.
    points, masses : numpy.ndarray
        Phases at which a share of the rounds is released, and that share, shape (N,).
    edges : numpy.ndarray
        Phases between which the density of the others is smooth, ascending; fewer than two where there is none.
    density : callable
        That density, by phase in steps of the cam; 0 where none is released.

    Notes
    -----
    Gauss-Legendre over pieces split where a round just grazes a blade: at a sharp edge the split is the edge itself,
    beside one that the delay blurs the pieces narrow with its standard deviation and the mean hang-fire. Known error:
    1e-12, and 1e-9 of the probability itself.
    """
    phase, weight = _quadrature(gun, edges)
    weight *= density(phase)
    found = [
        float(masses @ meets(gun, points, margin=margin) + weight @ meets(gun, phase, margin=margin))
        for margin in ((False, True) if gun.line.margin_rad else (False,))
    ]
    strike, near = (min(max(chance, 0.0), 1.0) for chance in (found[0], found[-1]))
    return strike, near


def meets(gun: TimedGun, phase: Floats, *, margin: bool = False) -> Floats:
    """Return the probability to meet a blade, or to pass nearer than the margin, by the phase of the release.

    A round that passes just so far away is clear; see `sim.synchronizer.blocked_arc`. Where a cam meets the blades
    at several places, it is the mean over them, which all come alike.
    """
    if gun.half_blocked(margin=margin) >= 0.5:
        return np.ones_like(phase)
    arcs, steps, per_step = gun.blocked_arcs(margin=margin), gun.meetings, gun.blades_per_opening
    means = [gun.aim + (phase + step) * per_step for step in range(steps)]
    return np.asarray(
        sum(_meets(gun, mean - centre, half, len(arcs)) for mean in means for centre, half in arcs) / steps
    )


def worst_chance(gun: TimedGun, *, margin: bool = False) -> float:
    """Return the probability of the round released at the worst instant of the cam's windows; raises nothing.

    Known error: the worst of `INSTANTS` instants in each window, its ends among them, where it nearly always is.
    """
    if gun.half_blocked(margin=margin) >= 0.5:
        return 1.0
    arcs, per_step = gun.blocked_arcs(margin=margin), gun.blades_per_opening
    phase = np.concatenate([np.linspace(*window, INSTANTS) for window in gun.windows])
    found = [
        np.sum([_meets(gun, gun.aim + (phase + step) * per_step - at, half, len(arcs)) for at, half in arcs], axis=0)
        for step in range(gun.meetings)
    ]
    return float(min(1.0, np.max(found)))


def untimed_chance(gun: TimedGun, *, margin: bool = False) -> float:
    """Return the probability that a round fired at any instant alike meets a blade, or passes within its margin."""
    arcs = gun.blocked_arcs(margin=margin)
    return min(1.0, 2.0 * sum(half + GRAZE for _, half in arcs) / len(arcs))


def _meets(gun: TimedGun, mean: Floats, half: float, unit: int) -> Floats:
    """Return the chance to pass within `half` of the arc that comes once in so many blade intervals, the unit."""
    mean, half = mean / unit, half / unit
    sd, tail = gun.passage_sd / unit, gun.scatter.hang_s / gun.blade_s / unit
    if sd > EVEN_SD:
        return np.full_like(mean, 2.0 * half)
    place = mean - np.floor(mean)
    hangs = gun.scatter.hang_share if tail > 0.0 else 0.0
    if sd <= LEAST_SD:
        return _sharp(place, half, hangs, tail)
    if hangs and tail > SHORT_TAIL * sd:
        return _blurred(place, half, sd, reach=ceil(9.0 * sd + sd * sd / tail), hangs=hangs, tail=tail)
    chance = _blurred(place, half, sd, reach=ceil(9.0 * sd))
    if hangs:
        late = (place + tail) % 1.0
        chance = (1.0 - hangs) * chance + hangs * _blurred(late, half, float(np.hypot(sd, tail)), reach=ceil(9.0 * sd))
    return chance


def _sharp(place: Floats, half: float, hangs: float, tail: float) -> Floats:
    """Return the chance without scatter: 1 within the blocked arc, 0 beyond; of a hanging round that of its law."""
    chance = np.where(np.minimum(place, 1.0 - place) < half, 1.0, 0.0)
    if not hangs:
        return chance
    blades = np.arange(3.0)[:, None]
    low, high = (np.clip(blades + side * half - place, 0.0, 1.0) for side in (-1.0, 1.0))
    late = np.sum(np.exp(-low / tail) * -np.expm1((low - high) / tail), axis=0) / -np.expm1(-1.0 / tail)
    return np.asarray((1.0 - hangs) * chance + hangs * late)


def _blurred(place: Floats, half: float, sd: float, *, reach: int, hangs: float = 0.0, tail: float = 0.0) -> Floats:
    blades = np.arange(-reach, reach + 2)
    low, high = (blades[:, None] + side * half - place for side in (-1.0, 1.0))
    chance = np.sum(_normal_between(low / sd, high / sd), axis=0)
    if hangs:
        chance += hangs * _tail_between(low, high, sd, tail)
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


def _quadrature(gun: TimedGun, edges: Floats) -> tuple[Floats, Floats]:
    """Return points and weights between the first and the last edge."""
    if edges.size < 2:
        return np.zeros(0), np.zeros(0)
    low, high, per_step = edges[0], edges[-1], gun.blades_per_opening
    grazes = np.concatenate([_grazes(gun.aim + step * per_step, per_step, gun) for step in range(gun.meetings)])
    steps = _STEPS * gun.passage_sd / per_step
    if gun.scatter.hang_share > 0.0:
        steps = np.concatenate([steps, _TAIL_STEPS * gun.scatter.hang_s / gun.interval_s])
    fine = (grazes[:, None] + np.unique(steps)).ravel()
    every = np.unique(np.concatenate([edges, fine[(fine > low) & (fine < high)]]))
    points, weights = gauss(NODES)
    width = np.diff(every)
    phase = (every[:-1, None] + width[:, None] * points).ravel()
    return phase, (width[:, None] * weights).ravel()


def _grazes(aim: float, per_step: float, gun: TimedGun) -> Floats:
    """Return the phases at which a round aimed at the edge of a blade, or of its margin, is released."""
    return (np.array(edges(gun, aim, aim + per_step)) - aim) / per_step


def edges(gun: TimedGun, low: float, high: float) -> list[float]:
    """Return the edges of blocked arcs, of margins too, between two places and a little beyond, in blade intervals."""
    unit = gun.unlike_blades
    return [
        unit * turn + centre + side * half
        for margin in ((False, True) if gun.line.margin_rad else (False,))
        for centre, half in gun.blocked_arcs(margin=margin)
        for turn in range(floor(low / unit) - 1, ceil(high / unit) + 2)
        for side in (-1.0, 1.0)
    ]
