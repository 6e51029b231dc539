"""Steady rate of fire through the propeller, without scatter: exact, for many speeds at once.

The gun becomes ready, fires if the window is open, and waits for the next opening if it is not. Measured in blade
intervals, the instant "ready" moves by T/τ each round: a rotation of the circle. The rate is set by the first round
that finds the window closed, and that is found as Euclid's algorithm finds a common measure: in a few steps, not by
counting rounds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import degrees
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.gun_line import neat
from sim.synchronizer.uneven_rate import uneven_pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from sim.synchronizer.cam import Cam
    from sim.synchronizer.gun_line import GunLine

    Floats = NDArray[np.float64]

LONGEST_PATTERN = 1_000_000
"""Rounds beyond which a pattern comes from rounding errors: no mechanism repeats itself so closely."""

BLOCK = 8192
"""Speeds computed together: their arrays stay in the processor's cache, which halves the time."""


@dataclass(frozen=True, slots=True)
class SteadyRate:
    """Rate of fire at each speed and the pattern behind it; arrays of one shape.

    Attributes
    ----------
    rounds_per_min : numpy.ndarray
        Rounds a minute; 0 where there is no window.
    rounds_per_pattern, intervals_per_pattern : numpy.ndarray
        Whole numbers: so many rounds in so many openings, over and over; 0 where nothing repeats.
    """

    rounds_per_min: Floats
    rounds_per_pattern: NDArray[np.int64]
    intervals_per_pattern: NDArray[np.int64]


def steady_rate(line: GunLine) -> SteadyRate:
    """Return the rate of a gun line at each of its speeds, its patterns counted in openings of the cam.

    Parameters
    ----------
    line : GunLine
        The gun's own rate known.

    Notes
    -----
    Exact where speeds, rate and angles are decimal fractions of few digits: they are then counted in whole numbers.
    """
    if line.cam is not None and not line.cam.is_even:
        return _uneven_rate(line, line.cam)
    count, turns = line.openings.as_integer_ratio()
    unit, speeds = _whole([line.gun_rounds_per_min, *line.rpm])
    own_per_unit, openings_per_unit = float(speeds[0]) * turns, speeds[1:] * count
    _, (closed, interval) = _whole(line.closed_part())
    if line.clear_deg < 0.0:
        found = interrupter_rate(openings_per_unit, own_per_unit, blocked=1.0, interval=0.0)
    elif line.action == "impulse" or closed == interval:
        found = impulse_rate(openings_per_unit, own_per_unit)
    else:
        found = interrupter_rate(openings_per_unit, own_per_unit, blocked=closed, interval=interval)
    return replace(found, rounds_per_min=found.rounds_per_min / (unit * turns))


def _whole(numbers: Sequence[float]) -> tuple[float, Floats]:
    """Return the numbers times the power of ten that makes all of them whole, and that power.

    It is 1, and they stay as they are, where more than three decimals would be needed.
    """
    given = np.array(numbers, dtype=float)
    for unit in (1.0, 10.0, 100.0, 1000.0):
        whole = np.rint(given * unit)
        if np.all(whole / unit == given):
            return unit, whole
    return 1.0, given


def _uneven_rate(line: GunLine, cam: Cam) -> SteadyRate:
    """Return the rate behind a cam with windows at uneven angles, speed by speed."""
    own = Fraction(str(line.gun_rounds_per_min))
    windows, step = exact_windows(cam)
    speeds = [Fraction(str(rpm)) for rpm in line.rpm]
    rings = [uneven_pattern(windows, step, 360 * rpm / own) for rpm in speeds]
    per_turn = [Fraction(ring.rounds, ring.periods) * 360 / step if ring else None for ring in rings]
    per_min = [float(each * rpm) if each else float(own) for each, rpm in zip(per_turn, speeds, strict=True)]
    return SteadyRate(
        rounds_per_min=np.array(per_min),
        rounds_per_pattern=np.array([ring.rounds if ring else 0 for ring in rings]),
        intervals_per_pattern=np.array([ring.periods * len(windows) if ring else 0 for ring in rings]),
    )


def exact_windows(cam: Cam) -> tuple[list[tuple[Fraction, Fraction]], Fraction]:
    """Return the windows of a cam before they come again, and the turn until then, in decimals of a degree."""
    windows = [
        (Fraction(str(neat(degrees(each.opens_rad)))), Fraction(str(neat(degrees(each.closes_rad)))))
        for each in cam.in_one_turn()
    ]
    return windows[: len(cam.step_windows)], Fraction(360 * cam.period_turns, cam.repeats)


def interrupter_rate(
    openings_per_min: ArrayLike, gun_rounds_per_min: float, *, blocked: float, interval: float = 1.0
) -> SteadyRate:
    """Return the rate of a gun that cycles freely while a cam holds the sear over each blade.

    Parameters
    ----------
    openings_per_min : array_like
        Windows that pass in a minute: blades x rpm, or lobes x rpm for a cam with fewer lobes. Above 0. [1/min]
    gun_rounds_per_min : float
        The gun's own rate, above 0. [1/min]
    blocked : float
        Length of the closed part of one interval, in the unit of `interval`; with `interval` left out, the closed
        share. The window is closed from its closing instant on, and open from its opening instant on.
    interval : float
        Length of one interval from opening to opening, for example 180 for two blades in degrees.

    Notes
    -----
    With T the gun's cycle, τ the interval, x = T/τ mod 1 and open share w: n is the first n ≥ 1 with n x mod 1 ≥ w,
    and the rate is n / (τ ⌈n T/τ⌉); without such an n it is the gun's own. Exact where rates, blocked and interval
    are whole numbers (any multiples of a power of two): every step below is then without rounding. Otherwise right
    except within 1e-15 of a plateau's edge. ``blocked == interval`` is the limit of a window that is an instant.

    References
    ----------
    Świątek 1988, Commun. Math. Phys. 119: a rate locked to the blades is rational for almost every speed.

    Examples
    --------
    >>> interrupter_rate(2400.0, 500.0, blocked=0.25).rounds_per_min.tolist()
    480.0
    """
    openings = np.asarray(openings_per_min, dtype=float)
    flat = openings.ravel()
    rate, rounds, intervals = np.empty(flat.size), np.empty(flat.size, np.int64), np.empty(flat.size, np.int64)
    for start in range(0, flat.size, BLOCK):
        part = slice(start, start + BLOCK)
        rate[part], rounds[part], intervals[part] = _rates(flat[part], gun_rounds_per_min, blocked, interval)
    shape = openings.shape
    return SteadyRate(rate.reshape(shape), rounds.reshape(shape), intervals.reshape(shape))


def _rates(openings: Floats, gun: float, blocked: float, interval: float) -> tuple[Floats, Floats, Floats]:
    if blocked > interval:
        none = np.zeros_like(openings)
        return none, none, none
    rounds, held = first_shut(np.fmod(openings, gun) * interval, gun, blocked, interval)
    laps = rounds * openings
    intervals = laps / gun
    np.rint(intervals, out=intervals, where=~held)
    np.ceil(intervals, out=intervals)
    rate = np.divide(laps, intervals, out=np.full_like(laps, gun), where=held)
    endless = rounds > LONGEST_PATTERN
    rounds[endless] = intervals[endless] = 0.0
    return rate, rounds, intervals


def impulse_rate(impulses_per_min: ArrayLike, gun_rounds_per_min: float) -> SteadyRate:
    """Return the rate of a gun that fires one round an impulse, if it is ready: f / ⌈T f⌉.

    Parameters
    ----------
    impulses_per_min : array_like
        Impulses of the cam, above 0. [1/min]
    gun_rounds_per_min : float
        Rate at which the gun could be made ready again, above 0. [1/min]

    Examples
    --------
    >>> impulse_rate([600.0, 601.0, 1400.0], 600.0).rounds_per_min.round(2).tolist()
    [600.0, 300.5, 466.67]
    """
    impulses = np.asarray(impulses_per_min, dtype=float)
    intervals = np.ceil(impulses / gun_rounds_per_min)
    return SteadyRate(impulses / intervals, np.ones_like(intervals, dtype=np.int64), intervals.astype(np.int64))


def first_shut(
    advance: Floats, gun_rounds_per_min: float, blocked: float, interval: float
) -> tuple[Floats, NDArray[np.bool_]]:
    """Return the number of the first round that finds the window closed, and whether there is one.

    Parameters
    ----------
    advance : numpy.ndarray
        How far "ready" moves past the openings each round, times the gun's rate: in [0, whole), one-dimensional.
    gun_rounds_per_min, blocked, interval : float
        As in `interrupter_rate`; whole = rate x interval and shut = rate x blocked are the same lengths scaled.

    Returns
    -------
    tuple of numpy.ndarray
        The round's number n, or, where no round is ever held, the n after which the phase repeats; and True where
        a round is held.

    Notes
    -----
    After n_v rounds the phase lies `before` an opening, after n_u rounds `past` one, each the nearest so far. The
    nearer one is added to the other as often as it goes; the first `before` of at most `shut` is the answer. These
    are the one-sided convergents of T/τ.
    """
    whole, shut = gun_rounds_per_min * interval, gun_rounds_per_min * blocked
    with np.errstate(divide="ignore", invalid="ignore"):
        rounds = np.maximum(np.ceil((whole - shut) / advance), 1.0)
        held = rounds * advance < whole
    still = advance == 0.0
    rounds[still] = 1.0
    active = np.flatnonzero(~(held | still))
    past = advance[active]
    n_past = np.ones_like(past)
    n_before, before = _approach(np.zeros_like(past), np.full_like(past, whole), n_past, past)
    while active.size:
        left = np.fmod(past, before)
        n_past += np.rint((past - left) / before) * n_before
        closed = left == 0.0
        rounds[active[closed]] = n_past[closed]
        going = ~closed
        active, past, n_past = active[going], left[going], n_past[going]
        before, n_before = before[going], n_before[going]
        needed = np.maximum(np.ceil((before - shut) / past), 0.0)  # 0 where a rounding hid it before
        hit = needed * past < before
        found = active[hit]
        rounds[found] = n_before[hit] + needed[hit] * n_past[hit]
        held[found] = True
        going = ~hit
        active, past, n_past = active[going], past[going], n_past[going]
        n_before, before = _approach(n_before[going], before[going], n_past, past)
    return rounds, held


def _approach(n_before: Floats, before: Floats, n_past: Floats, past: Floats) -> tuple[Floats, Floats]:
    """Bring `before` as near to the opening as whole steps of `past` allow, without reaching it."""
    left = np.fmod(before, past)
    left[left == 0.0] = past[left == 0.0]
    return n_before + np.rint((before - left) / past) * n_past, left
