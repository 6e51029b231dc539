"""What is heard: the engine from its speed and cylinders, wind, and a muffled gun, made by numpy piece by piece.

An engine of four strokes fires each cylinder once in two turns. Each shot is a pressure pulse that dies away within the
time to the next; cylinders differ a little, always by the same, which gives the beat of one cycle. The tone is that of
the engine at its speed, however slow the picture runs: slowed 1 : 1300 it could not be heard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

RATE_HZ: Final = 22050
PIECE: Final = 1024
"""Samples made at a time, 46 ms."""
UNEVEN: Final = 0.25
"""How much louder the loudest cylinder is than the mean (drawn once; common practice, no source)."""
PULSE_S: Final = 0.012
"""In which a pulse of pressure dies away by e, no more than half the time to the next."""
LOUD_ENGINE, LOUD_WIND, LOUD_GUN = 0.30, 0.10, 0.5
FULL_WIND_M_S: Final = 60.0
"""Airspeed at which the wind is as loud as it gets; its pressure goes with the square. [m/s]"""
GUN_S: Final = 0.09
"""In which the thump of the gun dies away by e. [s]"""
FADE_S: Final = 0.08
"""In which loudness follows what is asked for: no clicks. [s]"""


@dataclass(frozen=True, slots=True)
class Heard:
    """What there is to hear at one moment.

    Attributes
    ----------
    spin_rad_s : float
        Speed of the shaft, of either sign. [rad/s]
    cylinders : int
        Of the engine.
    fires : bool
        Whether the ignition is on.
    airspeed_m_s : float
        0 in a shed.
    rounds : int or None
        Fired so far: each new one is heard once. None where no gun is heard.
    """

    spin_rad_s: float
    cylinders: int
    fires: bool = True
    airspeed_m_s: float = 0.0
    rounds: int | None = None


SILENCE: Final = Heard(0.0, 1, fires=False)


def firing_hz(spin_rad_s: float, cylinders: int) -> float:
    """Return how often an engine of four strokes fires, in 1/s.

    Examples
    --------
    >>> round(firing_hz(1200.0 * math.tau / 60.0, 9), 6)
    90.0
    """
    return abs(spin_rad_s) / math.tau * cylinders / 2.0


class Voice:
    """Makes one piece after another, without a step between them; the same pieces for the same things heard."""

    def __init__(self) -> None:
        self._random = np.random.default_rng(1)
        self._cycle = 0.0
        self._loud = self._wind = 0.0
        self._low = 0.0
        self._since_s = math.inf
        self._rounds: int | None = None
        self._each = self._random.uniform(-1.0, 1.0, 64)

    def piece(self, heard: Heard) -> NDArray[np.int16]:
        """Return the next piece, -32767..32767."""
        made = self._engine(heard) + self._air(heard) + self._gun(heard)
        return np.asarray(np.rint(32767.0 * np.tanh(made)), dtype=np.int16)

    def _engine(self, heard: Heard) -> NDArray[np.float64]:
        rate = firing_hz(heard.spin_rad_s, heard.cylinders)
        at = self._cycle + rate / RATE_HZ * np.arange(1, PIECE + 1)
        self._cycle = float(at[-1]) % heard.cylinders
        shot = np.floor(at)
        since_s = (at - shot) / max(rate, 1e-9)
        dies_s = min(PULSE_S, 0.5 / max(rate, 1e-9))
        each = 1.0 + UNEVEN * self._each[shot.astype(int) % heard.cylinders]
        pulse = each * (np.exp(-since_s / dies_s) - _mean(rate, dies_s))
        wanted = LOUD_ENGINE if heard.fires and rate > 0.0 else 0.0
        loud, self._loud = _followed(self._loud, wanted)
        return np.asarray(loud * pulse)

    def _air(self, heard: Heard) -> NDArray[np.float64]:
        share = min(heard.airspeed_m_s / FULL_WIND_M_S, 1.0) ** 2
        loud, self._wind = _followed(self._wind, LOUD_WIND * share)
        noise = self._random.uniform(-1.0, 1.0, PIECE)
        made, self._low = _softened(noise, self._low)
        return np.asarray(3.0 * loud * made)

    def _gun(self, heard: Heard) -> NDArray[np.float64]:
        before, self._rounds = self._rounds, heard.rounds
        if before is not None and heard.rounds is not None and heard.rounds > before:
            self._since_s = 0.0
        if self._since_s > 8.0 * GUN_S:
            return np.zeros(PIECE)
        times = self._since_s + np.arange(PIECE) / RATE_HZ
        self._since_s += PIECE / RATE_HZ
        thump = np.sin(math.tau * 70.0 * times) * np.minimum(times / 0.004, 1.0)
        return np.asarray(LOUD_GUN * np.exp(-times / GUN_S) * thump)


def _mean(rate_hz: float, dies_s: float) -> float:
    """Return the mean of a pulse from shot to shot: a tone about zero does not move the membrane aside."""
    return dies_s * rate_hz * (1.0 - math.exp(-1.0 / (dies_s * rate_hz))) if rate_hz > 0.0 else 0.0


def _followed(now: float, wanted: float) -> tuple[NDArray[np.float64], float]:
    """Return loudness over a piece, on its way to what is wanted, and where it ends."""
    times = np.arange(1, PIECE + 1) / RATE_HZ
    way = wanted + (now - wanted) * np.exp(-times / FADE_S)
    return way, float(way[-1])


def _softened(noise: NDArray[np.float64], before: float) -> tuple[NDArray[np.float64], float]:
    """Return noise without its upper tones: a running mean of 16, and its last value."""
    width = 16
    kernel = np.full(width, 1.0 / width)
    made = np.convolve(np.concatenate([np.full(width - 1, before), noise]), kernel, mode="valid")
    return np.asarray(made), float(noise[-width:].mean())
