"""Exact statistics of a timed gun whose cycle scatters: a Markov chain on the circle of the cam.

What moves from round to round is the density of the phase at which the gun becomes ready. It is held as Fourier
coefficients, which the scatter of the cycle damps quickly: one small linear system gives the stationary density, and
repeated application that of any round of a burst. Rates and strike probabilities follow as integrals, also
probabilities too small to be found by counting.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.synchronizer.cycle_law import characteristic
from sim.synchronizer.strike_chance import strike_chances
from sim.synchronizer.timed_gun import INSTANT
from sim.units.text import brief

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Complexes = NDArray[np.complex128]

MOST_WAVES = 600
"""Largest number of waves of the density: a scatter of the cycle below 1/400 of a step would need more."""
LEFT_OUT = 1e-16
"""Size of the waves that are left out."""


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


@dataclass(frozen=True, slots=True)
class WaveChain:
    """The map from one round's density to the next one's, at one propeller speed.

    A density is 1 + 2 Re Σ cₖ exp(2πikφ), its coefficients c₁ to cₙ; all 0 is an even one.

    Attributes
    ----------
    gun : TimedGun
        Propeller, cam and gun.
    cycle : numpy.ndarray
        Characteristic function of the cycle, hang-fires in it, at waves 1 to n.
    window : numpy.ndarray
        Integrals of exp(−2πikφ) over the open windows, k from −2n to 2n.
    shut : numpy.ndarray
        The same over the shut arc before each opening, k from −n to n, shape (openings, 2n + 1).
    """

    gun: TimedGun
    cycle: Complexes
    window: Complexes
    shut: Complexes

    @property
    def even(self) -> Complexes:
        """The even density."""
        return np.zeros(self.cycle.size, dtype=complex)

    def next(self, density: Complexes) -> Complexes:
        """Return the density of the next round."""
        waves = self.cycle.size
        both = _both(density)
        released = _product(self.window, both)[3 * waves + 1 : 4 * waves + 1]
        number = np.arange(1, waves + 1)
        gathered = np.exp(-2j * pi * np.outer(number, self.gun.opens)) @ self.held(density)
        return np.asarray(self.cycle * (released + gathered))

    def held(self, density: Complexes) -> NDArray[np.float64]:
        """Return the share of rounds that waits for each opening."""
        return np.asarray(np.real(self.shut[:, ::-1] @ _both(density)))

    def settled(self) -> Complexes:
        """Return the stationary density: the one that the map leaves unchanged."""
        n = self.cycle.size
        k = np.arange(1, n + 1)
        gather = np.exp(-2j * pi * np.outer(k, self.gun.opens))

        def entry(column: NDArray[np.int64]) -> Complexes:
            window = self.window[k[:, None] - column[None, :] + 2 * n]
            return np.asarray(self.cycle[:, None] * (window + gather @ self.shut[:, n - column]))

        plus, minus = entry(k), entry(-k)
        constant = self.cycle * (self.window[k + 2 * n] + gather @ self.shut[:, n])
        real, imaginary = plus + minus, 1j * (plus - minus)
        matrix = np.block([[real.real, imaginary.real], [real.imag, imaginary.imag]])
        source = np.concatenate([constant.real, constant.imag])
        parts = np.linalg.solve(np.eye(2 * n) - matrix, source)
        return np.asarray(parts[:n] + 1j * parts[n:])

    def interval_s(self, density: Complexes) -> float:
        """Return the mean time from the round before to rounds whose "ready" has this density, in seconds."""
        scatter, interval_s = self.gun.scatter, self.gun.interval_s
        number = 2j * pi * np.arange(1, self.cycle.size + 1)
        wait = 0.0
        for start, end in self.gun.shut_arcs:
            length = end - start
            waves = (np.exp(number * end) - np.exp(number * start)) / number**2 - length * np.exp(
                number * start
            ) / number
            wait += length**2 / 2.0 + 2.0 * float(np.real(density @ waves))
        return self.gun.line.cycle_s + scatter.hang_share * scatter.hang_s + wait * interval_s

    def strikes(self, density: Complexes) -> tuple[float, float]:
        """Return the probability to meet a blade, and to pass nearer than the margin, by the density of "ready"."""
        strike = wide = 0.0
        held = self.held(density)

        def smooth(phase: NDArray[np.float64]) -> NDArray[np.float64]:
            turn, value = np.exp(2j * pi * phase), np.zeros(phase.size, dtype=complex)
            for wave in density[::-1]:
                value += wave
                value *= turn
            return np.asarray(1.0 + 2.0 * value.real)

        for opens, shuts, share in zip(self.gun.opens, self.gun.shuts, held, strict=True):
            start = np.array([opens])
            if shuts - opens > INSTANT:
                edges = np.linspace(opens, shuts, max(4, int(np.ceil((shuts - opens) * self.cycle.size))) + 1)
                mass = np.array([share])
            else:
                edges, mass = np.zeros(0), share + (shuts - opens) * smooth(start)
            found = strike_chances(self.gun, start, mass, edges=edges, density=smooth)
            strike, wide = strike + found[0], wide + found[1]
        return strike, wide


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
        When the cycle scatters so little that the density is not smooth.

    Notes
    -----
    Known error: the waves left out, below 1e-14 of the density.

    References
    ----------
    Lasota & Mackey, Chaos, Fractals, and Noise, 2nd ed. 1994, chapter 10, for the operator of a map with noise.
    """
    chain = wave_chain(gun)
    if rounds_per_burst is None:
        density = later = chain.settled()
    else:
        each = [chain.even]
        for _ in range(rounds_per_burst - 1):
            each.append(chain.next(each[-1]))
        density, later = np.mean(each, axis=0), np.mean(each[1:], axis=0)
    strike, wide = chain.strikes(density)
    return Steady(chain.interval_s(later), strike, wide - strike, float(chain.held(density).sum()))


def steady_interval_s(gun: TimedGun) -> float:
    """Return the mean time from round to round in continuous fire, in seconds; raises as `steady`."""
    chain = wave_chain(gun)
    return chain.interval_s(chain.settled())


def wave_chain(gun: TimedGun, waves: int = 0) -> WaveChain:
    """Return the map from round to round.

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
    cycle = _cycle(gun, waves or MOST_WAVES + 1)
    if not waves:
        waves = max(int(np.count_nonzero(np.abs(cycle) > LEFT_OUT)), 4)
        if waves > MOST_WAVES:
            sd, between = (
                brief(name, time_s, digits=3)
                for name, time_s in (("cycle_sd_s", gun.scatter.cycle_sd_s), ("interval_s", gun.interval_s))
            )
            message = (
                f"no smooth density: the cycle scatters by {sd}, too little beside the {between} between openings; "
            )
            raise NoAnswerError(message + "take more, or none at all")
    far = np.arange(-2 * waves, 2 * waves + 1)
    shut = np.array([_over(far[waves : 3 * waves + 1], start, end) for start, end in gun.shut_arcs])
    window = sum(_over(far, start, end) for start, end in zip(gun.opens, gun.shuts, strict=True))
    return WaveChain(gun, cycle[:waves], np.asarray(window), shut)


def _cycle(gun: TimedGun, waves: int) -> Complexes:
    """Return the characteristic function of the cycle, hang-fires in it, at waves 1 to so many."""
    frequency, scatter = 2.0 * pi / gun.interval_s * np.arange(1.0, waves + 1.0), gun.scatter
    hanging = 1.0 - scatter.hang_share + scatter.hang_share / (1.0 + 1j * frequency * scatter.hang_s)
    return np.asarray(characteristic(gun.line.cycle_s, scatter.cycle_sd_s, frequency) * hanging)


def _over(k: NDArray[np.int64], start: float, end: float) -> Complexes:
    """Return the integral of exp(−2πikφ) from start to end."""
    safe = 2j * pi * np.where(k == 0, 1, k)
    return np.where(k == 0, end - start, (np.exp(-safe * start) - np.exp(-safe * end)) / safe)


def _both(density: Complexes) -> Complexes:
    """Return the coefficients −n to n."""
    return np.concatenate([density[::-1].conj(), [1.0], density])


def _product(first: Complexes, second: Complexes) -> Complexes:
    """Return the convolution, by the quicker way."""
    if second.size < 100:
        return np.convolve(first, second)
    size = first.size + second.size - 1
    return np.fft.ifft(np.fft.fft(first, size) * np.fft.fft(second, size))
