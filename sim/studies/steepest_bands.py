"""Bands of the steepest bank: that of each airplane drawn, halved down between a bank that it holds and one not."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.turn_limits import MAX_BANK_RAD, limits_met
from sim.studies.bands import DRAWS, drawn_turns
from sim.studies.turns import turns

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.model.airplane import FlyingAirplane
    from sim.studies.turns import Power

    Array = NDArray[np.float64]

COARSE_RAD: Final = np.radians([0.0, 15.0, 30.0, 45.0, 60.0, 75.0])
HALVINGS: Final = 4
"""Of 15°: each bank is known to half a degree, far within the band."""


def drawn_steepest_rad(many: FlyingAirplane, side: float, power: Power | None) -> Array:
    """Return the steepest bank that each of many airplanes can hold on one side, 0 where not even straight flight.

    Parameters
    ----------
    many : FlyingAirplane
        Of `sim.studies.bands.drawn_flying`.
    side : float
        +1 for right turns, −1 for left.
    power : str or None
        As in `sim.studies.turns.turns`.

    Returns
    -------
    array, shape (draws,)
        With its sign. [rad]

    Notes
    -----
    The first limit met, from straight flight on, in steps of 15°, as `sim.flight.turn_limits.steepest_bank` in finer
    ones.
    """
    every = drawn_turns(many, side * COARSE_RAD, power)
    held = np.array([not limit for limit in limits_met(every, many.travel)]).reshape(DRAWS, -1)
    first = np.where(held.all(axis=1), len(COARSE_RAD), held.argmin(axis=1))
    ends = np.append(COARSE_RAD, float(MAX_BANK_RAD))
    low, high = ends[np.maximum(first - 1, 0)], ends[first]
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        holds = np.array([not limit for limit in limits_met(turns(many, side * middle, power=power), many.travel)])
        low, high = np.where(holds, middle, low), np.where(holds, high, middle)
    return np.where(first > 0, side * 0.5 * (low + high), 0.0)
