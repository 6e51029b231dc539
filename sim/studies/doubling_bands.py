"""Bands of the speed at which the rotor's share doubles: that of each airplane drawn, and of its slowest turn."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.flight.many_airplanes import only_of
from sim.flight.turn_limits import limits_met
from sim.studies.bands import DRAWS, ends_of
from sim.studies.rotor_effect import BANK_DEG, SLOWEST_SHARE, rotor_shares
from sim.studies.turns import turns

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.model.airplane import FlyingAirplane
    from sim.studies.rotor_effect import Doubling

    Array = NDArray[np.float64]
    Chosen = NDArray[np.intp]

COARSE: Final = 9
"""Speeds at which every airplane is tried first."""
HALVINGS: Final = 4
"""Of the interval between two of them: each speed is known to half a percent of the fastest, far within the band."""


def banded(doubling: Doubling, many: FlyingAirplane) -> Doubling:
    """Return the doubling with the bands of both its speeds.

    Parameters
    ----------
    doubling : Doubling
        Of the airplane with its most likely numbers: which control, to which side.
    many : FlyingAirplane
        Of `sim.studies.bands.drawn_flying`.

    Notes
    -----
    Of each airplane: the same control in the same turn, twice what it is at the speed of the study. Of those alone that
    balance in that turn; a speed at which it doubles have only those in which no limit is met first.
    """
    doubles, slowest = drawn_doubling_m_s(many, doubling.control, doubling.side)
    held = np.isfinite(slowest)
    ends: dict[str, Any] = ends_of({"slowest_m_s": slowest} | ({"speed_m_s": doubles} if doubling.speed_m_s else {}))
    share = float(np.mean(np.isfinite(doubles[held]))) if held.any() else None
    return replace(doubling, **ends, doubles_probability=share)


def drawn_doubling_m_s(many: FlyingAirplane, control: str, side: str) -> tuple[Array, Array]:
    """Return the speed at which the rotor's share of a control doubles, and the slowest of the turn, of each airplane.

    Returns
    -------
    tuple of two arrays, shape (draws,)
        Not-a-number where it does not double, and where the airplane does not balance in the turn. [m/s]
    """
    flown = _Flown(many, control, np.radians(BANK_DEG if side == "right" else -BANK_DEG))
    every = np.arange(DRAWS)
    grid = np.linspace(many.speed_m_s, SLOWEST_SHARE * many.speed_m_s, COARSE)
    met = np.array([flown.limits(every, speed) for speed in grid])
    start = flown.shares(every, many.speed_m_s)
    able = np.isfinite(start)
    good = np.cumprod((met == "") | (met == met[0]), axis=0).astype(bool) & able
    last = good.sum(axis=0) - 1
    slowest, below = grid[last], grid[np.minimum(last + 1, COARSE - 1)]
    for _ in range(HALVINGS):
        middle = 0.5 * (slowest + below)
        found = flown.limits(every, middle)
        holds = (found == "") | (found == met[0])
        slowest, below = np.where(holds, middle, slowest), np.where(holds, below, middle)
    return _doubled(flown, np.flatnonzero(able), start, slowest), np.where(able, slowest, np.nan)


class _Flown:
    """The turns of many airplanes at speeds of their own."""

    def __init__(self, many: FlyingAirplane, control: str, bank_rad: float) -> None:
        self._many, self._control, self._bank_rad = many, control, bank_rad
        self.fastest_m_s = many.speed_m_s

    def _of(self, chosen: Chosen) -> FlyingAirplane:
        return replace(self._many, airplane=only_of(self._many.airplane, chosen))

    def limits(self, chosen: Chosen, speed_m_s: Array | float) -> NDArray[np.str_]:
        """Return the limit that each turn meets, empty for none."""
        speeds = np.broadcast_to(speed_m_s, chosen.shape)
        return np.array(limits_met(turns(self._of(chosen), self._bank_rad, speed_m_s=speeds), self._many.travel))

    def shares(self, chosen: Chosen, speed_m_s: Array | float) -> Array:
        """Return the size of the rotor's share of the control in each turn."""
        speeds = np.broadcast_to(speed_m_s, chosen.shape)
        found: Array = np.abs(rotor_shares(self._of(chosen), speeds, self._bank_rad)[self._control])
        return found


def _doubled(flown: _Flown, able: Chosen, start: Array, slowest: Array) -> Array:
    """Return the speeds between the fastest and the slowest at which the share is twice that at the fastest."""
    found = np.full(start.shape, np.nan)
    own = able[flown.shares(able, slowest[able]) >= 2.0 * start[able]]
    high, low = np.full(own.shape, flown.fastest_m_s), slowest[own]
    for _ in range(2 * HALVINGS):
        middle = 0.5 * (high + low)
        over = flown.shares(own, middle) >= 2.0 * start[own]
        high, low = np.where(over, high, middle), np.where(over, middle, low)
    found[own] = 0.5 * (high + low)
    return found
