"""The record of a flight: states, controls and load factors against time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class History:
    """A flight, sampled in time.

    Attributes
    ----------
    time_s : array, shape (m,)
        [s]
    state : array, shape (14, m)
        As in `sim.flight.motion`.
    elevator_rad, aileron_rad, rudder_rad, throttle : array, shape (m,)
        As they stood. [rad]
    load_factor, side_load_factor : array, shape (m,)
        Specific force across the wing, and to the right, in units of gravity.
    rate_limited_s : float
        Time for which some control moved as fast as a limb can. [s]
    """

    time_s: NDArray[np.float64]
    state: NDArray[np.float64]
    elevator_rad: NDArray[np.float64]
    aileron_rad: NDArray[np.float64]
    rudder_rad: NDArray[np.float64]
    throttle: NDArray[np.float64]
    load_factor: NDArray[np.float64]
    side_load_factor: NDArray[np.float64]
    rate_limited_s: float
