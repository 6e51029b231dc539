"""The exact statistics of a burst as it is fired: from a random instant, at speeds that scatter and drift."""

from __future__ import annotations

from dataclasses import astuple, dataclass
from itertools import pairwise
from math import degrees, erf, exp, pi, sqrt
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.synchronizer import fixed_cycle
from sim.synchronizer.leaky_range import crossings, turning_point
from sim.synchronizer.pace import shifts
from sim.synchronizer.phases import even, release, turned
from sim.synchronizer.steady import Steady, steady, wave_chain
from sim.synchronizer.strike_chance import edges, untimed_chance
from sim.synchronizer.timed_gun import MOST_SPEED_SDS
from sim.units.convert import rpm
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

RELATIVE = 1e-6
"""Error of the integral over the speed that is asked for, of the largest value of each quantity."""
MOST_PARTS = 200
"""Parts of the integral over the speed, times rounds that differ: some seconds of work."""
MOST_WAVES_OVER_SPEEDS = 150
"""Waves of the density up to which it is computed at many speeds."""
ROUNDING = 1e-12
"""Bound on the error of probabilities where nothing is integrated over the speed."""
PIECES = 1e-9
"""The same where hang-fires are polynomials on pieces."""
WHOLE = sqrt(2.0 * pi) * erf(MOST_SPEED_SDS / sqrt(2.0))
"""Integral of the law of the speed before it is divided by this."""


@dataclass(frozen=True, slots=True)
class ExactMean:
    """Statistics over all speeds at which bursts begin.

    Attributes
    ----------
    mean : Steady
        Over the rounds.
    error_share : float
        Bound on the error of the probabilities: that of the integral over the speed, and of rounding.
    """

    mean: Steady
    error_share: float


def exact_burst(gun: TimedGun, rounds_per_burst: int) -> ExactMean:
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
        Where there is no exact form: the cycle scatters too little for a density; the speed scatters, and the cycle
        does not; speed scatters and drifts, and the delay scatters too little; the speed ripples and the link leaks.

    Notes
    -----
    With scatter of the cycle by the waves of the density, without it by pieces of constant density. The scatter of the
    speed is integrated by adaptive Gauss-Kronrod quadrature, split where the edge of a blade makes it jump; the bound
    on the error is the quadrature's own.
    """
    if gun.never_shuts:
        return _free(gun)
    _must_leak_evenly(gun)
    moved = shifts(gun, rounds_per_burst)
    return _over_speeds(gun, lambda share: _at(gun, share, moved), moved if any(moved) else (0.0,))


def settled(gun: TimedGun) -> ExactMean:
    """Return the statistics of continuous fire, over all speeds at which it begins, without their drift.

    Raises
    ------
    NoAnswerError
        As `exact_burst`, and where fire takes too long to settle.
    """
    if gun.never_shuts:
        return _free(gun)
    _must_leak_evenly(gun)
    way = steady if gun.scatter.cycle_sd_s > 0.0 else fixed_cycle.endless
    return _over_speeds(gun, lambda share: way(gun.at_speed(share)), (0.0,))


def _free(gun: TimedGun) -> ExactMean:
    """Return what a gun comes to that is never held: its rounds pass at any angle alike."""
    strike, wide = (untimed_chance(gun, margin=margin) for margin in (False, True))
    return ExactMean(Steady(gun.mean_interval_s, strike, wide - strike, 0.0), ROUNDING)


def _at(gun: TimedGun, share: float, moved: Sequence[float]) -> Steady:
    """Return the mean over a burst that begins at a share of the speed, which then moves from round to round."""
    if gun.scatter.cycle_sd_s > 0.0 and not any(moved):
        return steady(gun.at_speed(share), len(moved))
    guns = [gun.at_speed(share + each) for each in moved]
    return (_by_waves if gun.scatter.cycle_sd_s > 0.0 else _by_pieces)(guns)


def _by_waves(guns: Sequence[TimedGun]) -> Steady:
    chain = wave_chain(guns[0])
    waves, density, leaked = chain.cycle.size, chain.even, _leaked(guns)
    sums = np.zeros(4)
    for number, gun in enumerate(guns):
        if number:
            density = chain.next(density) * _turn(leaked[number - 1], waves)
            sums[0] += chain.interval_s(density)
            chain = wave_chain(gun, waves)
        strike, wide = chain.strikes(density)
        sums[1:] += strike, wide - strike, chain.held(density).sum()
    return _mean(sums, len(guns))


def _by_pieces(guns: Sequence[TimedGun]) -> Steady:
    found, sums, leaked = release(guns[0], even(fixed_cycle.nodes(guns[0]))), np.zeros(4), _leaked(guns)
    for number, gun in enumerate(guns):
        if number:
            before = guns[number - 1]
            found = release(gun, turned(fixed_cycle.next_ready(before, found.joined(before)), leaked[number - 1]))
            sums[0] += fixed_cycle.interval_s(before, found)
        strike, wide = fixed_cycle.strikes(gun, found.joined(gun))
        sums[1:] += strike, wide - strike, found.held.sum()
    return _mean(sums, len(guns))


def _leaked(guns: Sequence[TimedGun]) -> list[float]:
    """Return by how many steps sooner each round but the first is let go than if the link leaked as for that before."""
    first = guns[0].spin_rad_s
    return [float(guns[0].leaked_steps(one.spin_rad_s / first, two.spin_rad_s / first)) for one, two in pairwise(guns)]


def _turn(steps: float, waves: int) -> NDArray[np.complex128]:
    """Return the factors that turn so many waves of a density forward."""
    return np.asarray(np.exp(-2j * pi * steps * np.arange(1, waves + 1)))


def _mean(sums: NDArray[np.float64], rounds: int) -> Steady:
    return Steady(float(sums[0]) / (rounds - 1), *(sums[1:] / rounds).tolist())


def _over_speeds(gun: TimedGun, answer: Callable[[float], Steady], moved: Sequence[float]) -> ExactMean:
    """Return the mean of an answer, which takes the share of the nominal speed, over the law of that speed."""
    from scipy.integrate import quad_vec

    sd = gun.scatter.speed_sd
    if sd == 0.0:
        by_pieces = gun.scatter.cycle_sd_s == 0.0 and gun.scatter.hang_share > 0.0
        return ExactMean(answer(1.0), PIECES if by_pieces else ROUNDING)
    _must_be_smooth(gun)

    def weighed(deviation: float) -> NDArray[np.float64]:
        return np.array(astuple(answer(1.0 + sd * deviation))) * (exp(-0.5 * deviation**2) / WHOLE)

    ends = np.linspace(-MOST_SPEED_SDS, MOST_SPEED_SDS, 7)
    scale = np.maximum(np.max([weighed(end) for end in ends], axis=0), 1e-300)
    found, error = quad_vec(
        lambda deviation: weighed(deviation) / scale,
        -MOST_SPEED_SDS,
        MOST_SPEED_SDS,
        points=_splits(gun, moved),
        epsabs=RELATIVE,
        epsrel=0.0,
        norm="max",
        quadrature="gk21",
        limit=400,
    )
    return ExactMean(Steady(*(found * scale).tolist()), max(ROUNDING, error * float(scale[1:3].max())))


def _must_leak_evenly(gun: TimedGun) -> None:
    """Raise `NoAnswerError` where what leaks changes within a turn, which the law of the link leaves out."""
    most_rad = gun.line.leak.most_off_rad(gun.spin_rad_s, gun.ripple.depth)
    if most_rad:
        message = (
            "no exact form: the speed ripples and the link leaks, which is taken at the mean speed of a turn, so that "
            f"at {brief('rpm', rpm(gun.spin_rad_s), digits=6)} each release and passage may be "
            f"{brief('turn_deg', degrees(most_rad), digits=2)} off; "
        )
        raise NoAnswerError(message + "make the ripple or the leak 0")


def _must_be_smooth(gun: TimedGun) -> None:
    """Raise `NoAnswerError` where the integral over the speed would be one over jumps."""
    if gun.scatter.cycle_sd_s == 0.0:
        message = "no exact form: the speed scatters and the cycle does not, so that the pattern jumps with the speed; "
        raise NoAnswerError(message + "give the cycle some scatter, or the speed none")
    if wave_chain(gun).cycle.size > MOST_WAVES_OVER_SPEEDS:
        message = "no exact form: the speed scatters, and the cycle too little beside the time between openings; "
        raise NoAnswerError(message + "give the cycle more scatter, or the speed none")


def _splits(gun: TimedGun, moved: Sequence[float]) -> list[float]:
    """Return the deviations of the speed at which a round of an opening or a closing grazes the edge of a blade.

    Only where the delay scatters less than the speed moves the rounds; in smoother cases there is nothing to split.
    """
    sd, spread = gun.scatter.speed_sd, MOST_SPEED_SDS
    if gun.line.leak.counts:
        return _leaky_splits(gun, moved)
    per_speed = 2.0 * (gun.at_speed(1.5).aim - gun.aim)
    if gun.passage_sd > 0.5 * sd * abs(per_speed):
        return []
    still, found = gun.aim - per_speed, []
    for phase in (step + each for step in range(gun.meetings) for each in (*gun.opens, *gun.shuts)):
        from_place, to_place = (
            still + gun.blades_per_opening * phase + per_speed * (1.0 + shift + side * sd * spread)
            for shift, side in ((min(moved), -1.0), (max(moved), 1.0))
        )
        low, high = min(from_place, to_place), max(from_place, to_place)
        for edge in edges(gun, low, high) if per_speed else ():
            share = (edge - still - gun.blades_per_opening * phase) / per_speed
            found += [(share - 1.0 - shift) / sd for shift in moved]
    return _few(found, moved)


def _leaky_splits(gun: TimedGun, moved: Sequence[float]) -> list[float]:
    """Return the same where the link leaks: the aim falls as the speed grows, and then grows."""
    sd, leak, blades_per_rad = gun.scatter.speed_sd, gun.line.leak, gun.line.blades / (2.0 * pi)
    low, high = (1.0 + shift + side * sd * MOST_SPEED_SDS for shift, side in ((min(moved), -1.0), (max(moved), 1.0)))

    def slope(share: float) -> float:
        return blades_per_rad * gun.spin_rad_s * (gun.line.delay_s + leak.slope_s(gun.spin_rad_s * share))

    if gun.passage_sd > 0.5 * sd * max(abs(slope(low)), abs(slope(high))):
        return []
    least, found = turning_point(slope, low, high), []
    ends = [gun.at_speed(share).aim for share in (low, least, high)]
    for phase in (step + each for step in range(gun.meetings) for each in (*gun.opens, *gun.shuts)):
        ahead = gun.blades_per_opening * phase
        for edge in edges(gun, min(ends) + ahead, max(ends) + ahead):
            shares = crossings(lambda share: gun.at_speed(share).aim, edge - ahead, low=low, least=least, high=high)
            found += [(share - 1.0 - shift) / sd for share in shares if share is not None for shift in moved]
    return _few(found, moved)


def _few(found: Sequence[float], moved: Sequence[float]) -> list[float]:
    """Return those within the law of the speed, ascending, or raise where they are too many."""
    inside = sorted({point for point in found if abs(point) < MOST_SPEED_SDS})
    if (len(inside) + 1) * len(moved) > MOST_PARTS:
        message = "no exact form: the speed scatters and drifts, and the delay too little; "
        raise NoAnswerError(message + "give the delay more scatter, or the speed no drift")
    return inside
