"""The worst hand: the greatest speed that a visitor can give the display, who turns it as hard as he can for ever.

A slip clutch passes no more than its setting, whatever the hand does; a drag brake on the crank shaft takes a torque
in proportion to speed. The two alone decide the speed at which the torque of the clutch is used up. A centrifugal brake
was left out: at the speed of a crank its shoes would press with about their own weight.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.display.rise_laws import FloatArray

CLUTCH_FACTOR = 1.5
"""Setting of the slip clutch over the largest torque of a turn: common practice, no source."""
CLUTCH_SCATTER = 0.25
"""Band of the setting of the clutch: own limit, tested by the builder with a weight at the grip."""
BRAKE_SCATTER = 0.40
"""Band of the drag of the brake: field of the magnets to 20 %, squared. Own estimate, tested with a weight."""
CONDUCTIVITY_S_PER_M = 2.5e7
"""Of aluminium alloy 6061, 43 % of annealed copper: handbook value. [S/m]"""
FIELD_T = 0.40
"""Flux density in a gap of 7 mm between N35 discs of 20 × 5 mm with steel behind them: own estimate. [T]"""
MOST_PAIRS = 3
"""Pairs of magnets that the brake has room for."""
FLASH_PAUSE_S = 0.55
"""Least time from the start of one flash to that of the next, which the lamp's timer sets. [s]"""
RIPPLE = 1.05
"""Allowance for the ripple of the cam over the mean speed, when magnets are chosen; the simulation decides."""
LAGS = 8.0
"""Time constants of the brake after which the speed has settled to 0.03 %."""
SETTLED_S = 20.0
STEPS_PER_S = 500


@dataclass(frozen=True, slots=True)
class WorstHand:
    """What the display does at the hardest hand, clutch and brake at the worse end of their bands, without friction.

    Attributes
    ----------
    rpm : float
        Greatest speed of the propeller. [rpm]
    flashes_per_s : float
        Most flashes of the lamp in any second. [1/s]
    tip_m_s : float
        Greatest speed of a blade tip. [m/s]
    energy_j : float
        Greatest energy of all that turns. [J]
    """

    rpm: float
    flashes_per_s: float
    tip_m_s: float
    energy_j: float


def drag_of_pair(*, disc_m: float, thickness_m: float, magnet_m: float, radius_m: float) -> float:
    """Return the drag of one pair of round magnets on a turning disc, torque over speed. [N m s].

    Parameters
    ----------
    disc_m, thickness_m : float
        Radius and thickness of the disc. [m]
    magnet_m, radius_m : float
        Diameter of the magnets, and their distance from the axis. [m]

    Notes
    -----
    F/v = π/4 σ D² t B² c, c = ½ (1 − ¼ [(1 + r/R)² ((R − r)/D)²]⁻¹), far below the speed of greatest drag.

    References
    ----------
    Wouterse, Critical torque and speed of eddy current brake with widely separated soft iron poles, IEE Proceedings B
    138 (1991).

    Examples
    --------
    >>> round(drag_of_pair(disc_m=0.045, thickness_m=0.004, magnet_m=0.020, radius_m=0.033), 5)
    0.0021
    """
    room = (1.0 + radius_m / disc_m) ** 2 * ((disc_m - radius_m) / magnet_m) ** 2
    share = 0.5 * (1.0 - 0.25 / room)
    force = math.pi / 4.0 * CONDUCTIVITY_S_PER_M * magnet_m**2 * thickness_m * FIELD_T**2 * share
    return force * radius_m**2


def clutch_torque(friction_n_m: float | FloatArray, cam_n_m: float | FloatArray) -> FloatArray:
    """Return the setting of the slip clutch from friction and largest cam torque, at the propeller shaft. [N m]."""
    return np.asarray(CLUTCH_FACTOR * (friction_n_m + np.asarray(cam_n_m)))


def worst_speed(clutch_n_m: float | FloatArray, drag_n_m_s: float) -> FloatArray:
    """Return the speed at which the brake takes all that the clutch passes, at the propeller shaft. [rad/s].

    Both are taken at the worse end of their bands.
    """
    return np.asarray((1.0 + CLUTCH_SCATTER) * np.asarray(clutch_n_m) / ((1.0 - BRAKE_SCATTER) * drag_n_m_s))


def pairs_needed(clutch_n_m: float, pair_n_m_s: float, most_rad_s: float) -> int:
    """Return how many pairs of magnets keep the worst hand below a speed, at most `MOST_PAIRS`."""
    needed = RIPPLE * float(worst_speed(clutch_n_m, pair_n_m_s)) / most_rad_s
    return min(MOST_PAIRS, max(1, math.ceil(needed - 1e-9)))


def spun(
    *,
    clutch_n_m: float,
    drag_n_m_s: float,
    inertia_kg_m2: float,
    load_n_m: Callable[[float], float],
) -> tuple[FloatArray, FloatArray]:
    """Return propeller angle and speed while the clutch slips, from rest. [rad], [rad/s].

    Parameters
    ----------
    clutch_n_m, drag_n_m_s : float
        Torque of the clutch, and torque of the brake over speed, at the propeller shaft. [N m], [N m s]
    inertia_kg_m2 : float
        Of all that turns, at the propeller shaft. [kg m²]
    load_n_m : callable
        Torque that the cam takes at a propeller angle; its mean over a turn is zero. [N m]

    Notes
    -----
    Fourth-order Runge-Kutta at 2 ms; without a cam it agrees with the first-order lag to 1e-6. Friction is left out: it
    only slows.
    """
    settled_s = max(SETTLED_S, LAGS * inertia_kg_m2 / drag_n_m_s)
    step, count = 1.0 / STEPS_PER_S, round(settled_s * STEPS_PER_S)

    def rate(angle: float, speed: float) -> float:
        return (clutch_n_m - drag_n_m_s * speed - load_n_m(angle)) / inertia_kg_m2

    angles, speeds = np.zeros(count + 1), np.zeros(count + 1)
    for index in range(count):
        angle, speed = float(angles[index]), float(speeds[index])
        one = rate(angle, speed)
        two = rate(angle + speed * step / 2.0, speed + one * step / 2.0)
        three = rate(angle + (speed + one * step / 2.0) * step / 2.0, speed + two * step / 2.0)
        four = rate(angle + (speed + two * step / 2.0) * step, speed + three * step)
        angles[index + 1] = angle + speed * step + (one + two + three) * step**2 / 6.0
        speeds[index + 1] = speed + (one + 2.0 * two + 2.0 * three + four) * step / 6.0
    return angles, speeds


def flashes(angles_rad: FloatArray, *, from_rad: float, period_rad: float) -> FloatArray:
    """Return when the lamp flashes, at an angle of every period but never sooner than its timer lets it. [s]."""
    turns = np.floor((angles_rad - from_rad) / period_rad)
    starts = np.flatnonzero(np.diff(turns) > 0) / STEPS_PER_S
    lit: list[float] = []
    for start in starts.tolist():
        if not lit or start - lit[-1] >= FLASH_PAUSE_S - 1e-9:
            lit.append(start)
    return np.array(lit)


def most_in_a_second(starts_s: FloatArray) -> int:
    """Return the most flashes that start within any second, its ends included."""
    return max((int(np.sum((starts_s >= first) & (starts_s <= first + 1.0))) for first in starts_s), default=0)
