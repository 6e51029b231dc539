"""Exact statistics of a timed gun: the phase at which it becomes ready is a Markov chain on the circle of the cam.

Its transfer operator is written in Fourier coefficients, which the scatter of the cycle damps quickly: one small
linear system gives the stationary density, and repeated application gives that of any round of a burst. Rates and
strike probabilities follow as integrals, also probabilities too small to be found by counting.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, pi, sqrt
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.synchronizer.strike_chance import strike_chances
from sim.units.text import brief

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Complexes = NDArray[np.complex128]

MOST_WAVES = 600
"""Largest number of waves of the density: a scatter of the cycle below 1/400 of an interval would need more."""


@dataclass(frozen=True, slots=True)
class Steady:
    """Stationary statistics of continuous fire, or the mean over the rounds of a burst.

    Attributes
    ----------
    interval_s : float
        Mean time from round to round. [s]
    strike_share, near_share : float
        Probability that a round meets a blade, and that it passes within the margin without meeting it.
    held_share : float
        Share of rounds that find the window closed and wait.
    """

    interval_s: float
    strike_share: float
    near_share: float
    held_share: float


def steady(gun: TimedGun, rounds_per_burst: int | None = None) -> Steady:
    """Return the exact statistics of a timed gun at a steady propeller speed.

    Parameters
    ----------
    gun : TimedGun
        Its cycle must scatter; scatter and drift of the speed are left out: the speed is steady.
    rounds_per_burst : int, optional
        Mean over the rounds of bursts so long, the trigger pulled at a random instant; without it the stationary
        state of continuous fire.

    Raises
    ------
    NoAnswerError
        When the cycle scatters so little that the density is not smooth; `rate` is then the answer.

    Notes
    -----
    Known error: the waves left out, below 1e-14 of the density. The normal law is not cut off at the cycle's
    length, which is right while its scatter is below a fifth of it.

    References
    ----------
    Lasota & Mackey, Chaos, Fractals, and Noise, 2nd ed. 1994, chapter 10, for the operator of a map with noise.
    """
    if rounds_per_burst is None:
        settled = _settled(gun)
        return statistics(gun, settled, settled)
    matrix, source = operator(gun)
    densities = np.zeros((rounds_per_burst, source.size))
    for number in range(1, rounds_per_burst):
        densities[number] = matrix @ densities[number - 1] + source
    return statistics(gun, *(part.sum(axis=0) / len(part) for part in (densities, densities[1:])))


def steady_interval_s(gun: TimedGun) -> float:
    """Return the mean time from round to round in continuous fire, in seconds; raises as `steady`."""
    return interval_s(gun, _settled(gun))


def _settled(gun: TimedGun) -> NDArray[np.float64]:
    """Return the stationary density: the one that the operator leaves unchanged."""
    matrix, source = operator(gun)
    return np.asarray(np.linalg.solve(np.eye(source.size) - matrix, source), dtype=float)


def _waves(gun: TimedGun) -> int:
    """Return how many waves the scatter of the cycle leaves above 1e-16."""
    scatter = gun.scatter.cycle_sd_s / gun.interval_s
    waves = ceil(6.1 * sqrt(2.0) / (2.0 * pi * max(scatter, 1e-9)))
    if waves > MOST_WAVES:
        cycle = brief("cycle_sd_s", gun.scatter.cycle_sd_s, digits=3)
        between = brief("interval_s", gun.interval_s, digits=3)
        message = (
            f"no smooth density: the cycle scatters by {cycle}, too little beside the {between} between openings; "
        )
        raise NoAnswerError(message + "take more, or none at all")
    return max(waves, 4)


def operator(gun: TimedGun, waves: int = 0) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return matrix and source of the map from one round's density to the next one's.

    A density is held as its waves 1 to n, real parts first, then imaginary parts; all 0 is an even one.

    Parameters
    ----------
    gun : TimedGun
        With scatter of the cycle.
    waves : int
        How many waves to keep; as many as the scatter leaves where not given.

    Raises
    ------
    NoAnswerError
        As `steady`.
    """
    waves = waves or _waves(gun)
    k = np.arange(1, waves + 1)
    open_share = gun.open_share
    window = _open_waves(np.arange(-2 * waves, 2 * waves + 1), open_share)

    def entry(row: NDArray[np.int64], column: NDArray[np.int64]) -> Complexes:
        return np.asarray(window[row - column + 2 * waves] - window[-column + 2 * waves])

    turn = _cycle_waves(gun, k)
    plus = turn[:, None] * entry(k[:, None], k[None, :])
    minus = turn[:, None] * entry(k[:, None], -k[None, :])
    constant = turn * (1.0 + window[k + 2 * waves] - window[2 * waves])
    real, imaginary = plus + minus, 1j * (plus - minus)
    return (
        np.block([[real.real, imaginary.real], [real.imag, imaginary.imag]]),
        np.concatenate([constant.real, constant.imag]),
    )


def _cycle_waves(gun: TimedGun, k: NDArray[np.int64]) -> Complexes:
    """Return the characteristic function of the cycle, hang-fires in it, at the waves k."""
    angle, scatter = 2.0 * pi * k / gun.interval_s, gun.scatter
    normal = np.exp(-0.5 * (angle * scatter.cycle_sd_s) ** 2 - 1j * angle * gun.line.cycle_s)
    return np.asarray(normal * (1.0 - scatter.hang_share + scatter.hang_share / (1.0 + 1j * angle * scatter.hang_s)))


def _open_waves(n: NDArray[np.int64], open_share: float) -> Complexes:
    """Return the integral of exp(−2πi n φ) over the open window."""
    safe = np.where(n == 0, 1, n)
    return np.where(n == 0, open_share, (1.0 - np.exp(-2j * pi * safe * open_share)) / (2j * pi * safe))


def _complex(parts: NDArray[np.float64]) -> Complexes:
    real, imaginary = np.split(parts, 2)
    return real + 1j * imaginary


def statistics(gun: TimedGun, parts: NDArray[np.float64], later: NDArray[np.float64]) -> Steady:
    """Return rate and probabilities from the density of all rounds and from that of the rounds after the first."""
    density = _complex(parts)
    held = 1.0 - _mean(density, _open_waves(_numbers(density), gun.open_share).conj(), gun.open_share)

    def open_density(phase: NDArray[np.float64]) -> NDArray[np.float64]:
        waves = np.exp(2j * pi * np.outer(phase, _numbers(density)))
        return np.asarray(1.0 + 2.0 * np.real(waves @ density))

    strike, wide = strike_chances(gun, held, open_density)
    return Steady(interval_s(gun, later), strike, wide - strike, held)


def interval_s(gun: TimedGun, parts: NDArray[np.float64]) -> float:
    """Return the mean time from the round before to rounds whose "ready" has this density, in seconds."""
    density = _complex(parts)
    wait = _mean(density, *_wait_waves(_numbers(density), gun.open_share))
    return gun.line.cycle_s + gun.scatter.hang_share * gun.scatter.hang_s + wait * gun.interval_s


def _numbers(density: Complexes) -> NDArray[np.int64]:
    return np.arange(1, density.size + 1)


def _mean(density: Complexes, waves: Complexes, constant: float) -> float:
    """Return the mean of a function of the phase, its waves given as integrals of it with exp(2πi k φ)."""
    return float(constant + 2.0 * np.real(density @ waves))


def _wait_waves(k: NDArray[np.int64], open_share: float) -> tuple[Complexes, float]:
    """Return the integrals of the wait 1 − φ over the closed part with exp(2πi k φ), and without."""
    shut, turn = 1.0 - open_share, 2j * pi * k
    return (1.0 - np.exp(turn * open_share)) / turn**2 - shut * np.exp(turn * open_share) / turn, shut**2 / 2.0
