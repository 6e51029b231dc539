"""Stall, lift-off, climb, cruise and top speed of many airplanes at once, as `sim.flight.speeds` finds those of one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.speeds import LIFT_OFF
from sim.numerics.bracket import bracketed_roots

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.aerodynamics.polar import Polar

    Array = NDArray[np.float64]
    Power = Callable[[Array], Array]

GOLDEN: Final = 0.5 * (5.0**0.5 - 1.0)
NARROWINGS: Final = 42
"""Golden sections, to 2e-9 of the bracket."""


@dataclass(frozen=True, slots=True)
class ManySpeeds:
    """Speeds of many airplanes, one entry for each; not-a-number where power does not sustain level flight.

    Attributes
    ----------
    stall_m_s, liftoff_m_s, cruise_m_s, top_m_s : array
        As in `sim.flight.speeds.Speeds`. [m/s]
    best_climb_m_s, climb_rate_m_s : array
        Likewise; where full power does not sustain level flight, of the slowest descent, negative. [m/s]
    lift_drag_max : array
        Greatest lift-to-drag ratio.
    """

    stall_m_s: Array
    liftoff_m_s: Array
    cruise_m_s: Array
    top_m_s: Array
    best_climb_m_s: Array
    climb_rate_m_s: Array
    lift_drag_max: Array


def many_speeds(
    polar: Polar, *, weight_n: Array, density_kg_m3: float, full_thrusts_n: Power, cruise_thrusts_n: Power
) -> ManySpeeds:
    """Return the speeds of many airplanes.

    Parameters
    ----------
    polar : Polar
        Whose numbers may be arrays with one entry an airplane.
    weight_n : array, shape (N,)
        [N]
    density_kg_m3 : float
        [kg/m³]
    full_thrusts_n, cruise_thrusts_n : callable
        Airspeeds, one an airplane [m/s] -> thrusts [N], each decreasing with speed.

    Notes
    -----
    The equations of `sim.flight.speeds.speeds`; the greatest excess power by golden section.
    """
    stall = polar.stall_m_s(weight_n, density_kg_m3)

    def excess_w(thrusts_n: Power) -> Power:
        return lambda speed: (thrusts_n(speed) - polar.drag_n(weight_n, density_kg_m3, speed)) * speed

    full, cruise = excess_w(full_thrusts_n), excess_w(cruise_thrusts_n)
    best_climb = _greatest(full, stall)
    return ManySpeeds(
        stall_m_s=stall,
        liftoff_m_s=LIFT_OFF * stall,
        cruise_m_s=_zero_excess(cruise, _greatest(cruise, stall)),
        top_m_s=_zero_excess(full, best_climb),
        best_climb_m_s=best_climb,
        climb_rate_m_s=full(best_climb) / weight_n,
        lift_drag_max=np.broadcast_to(polar.lift_drag_max, weight_n.shape),
    )


def _greatest(excess_w: Power, stall_m_s: Array) -> Array:
    """Return the speeds of greatest excess power at or above the stall; each has a single peak."""
    low, high = stall_m_s, 2.0 * stall_m_s
    while (rising := (excess_w(high) > excess_w(0.5 * high)) & (high < 1e4 * stall_m_s)).any():
        high = np.where(rising, 2.0 * high, high)
    left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_left, at_right = excess_w(left), excess_w(right)
    for _ in range(NARROWINGS):
        to_right = at_left < at_right
        low, high = np.where(to_right, left, low), np.where(to_right, high, right)
        kept, at_kept = np.where(to_right, right, left), np.where(to_right, at_right, at_left)
        new = np.where(to_right, low + GOLDEN * (high - low), high - GOLDEN * (high - low))
        at_new = excess_w(new)
        left, right = np.where(to_right, kept, new), np.where(to_right, new, kept)
        at_left, at_right = np.where(to_right, at_kept, at_new), np.where(to_right, at_new, at_kept)
    middle = 0.5 * (left + right)
    return np.where(excess_w(stall_m_s) > excess_w(middle), stall_m_s, middle)


def _zero_excess(excess_w: Power, from_m_s: Array) -> Array:
    """Return the speeds above the peaks at which the excess power is zero, not-a-number where it never is above."""
    high = 1.01 * from_m_s
    while (over := excess_w(high) > 0.0).any():
        high = np.where(over, 1.5 * high, high)
    sustained = excess_w(from_m_s) >= 0.0
    return np.where(sustained, bracketed_roots(excess_w, from_m_s, high, tolerance=1e-10), np.nan)
