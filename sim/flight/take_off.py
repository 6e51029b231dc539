"""Take-off and landing run of a tail-wheel airplane: tail down, coming up, on the main wheels, over an obstacle.

Of one airplane or of many: every speed is an array with an entry for each.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.flight.motion import Controls
from sim.numerics.bracket import bracketed_roots

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.flight.on_wheels import Gear, OnWheels, Rolling
    from sim.numerics.number import Number

    Array = NDArray[np.float64]

STEPS = 60
"""Speeds of each part of a run; the distance of 60 is within 0.01 % of that of 600."""
STAND_M_S = 0.1
"""Ground speed at which a run begins or ends: with less the last step would never end."""
REPEATS, SETTLED_M_S = 60, 1e-10
"""Of the speeds while the tail comes up: passes at most, and the change of any speed after which they end."""


@dataclass(frozen=True, slots=True)
class Run:
    """A run along the ground of each of n airplanes.

    Attributes
    ----------
    distance_m, time_s : array, shape (n,)
        Not-a-number where it is not run to its end. [m, s]
    stuck_m_s : array, shape (n,)
        Airspeed at which it gets no faster, or no slower; not-a-number where it ends. [m/s]
    speeds_m_s, distances_m : array, shape (m, n)
        Airspeed, and distance from where it began, step by step. [m/s, m]
    pitch_rad : array, shape (m, n)
        Attitude, nose up. [rad]
    """

    distance_m: Array
    time_s: Array
    stuck_m_s: Array
    speeds_m_s: Array
    distances_m: Array
    pitch_rad: Array


def tail_up_m_s(wheels: OnWheels, gear: Gear, travel: Travel, most_m_s: Array) -> Array:
    """Return the airspeed at which full down elevator lifts the tail at full power.

    Parameters
    ----------
    wheels, gear, travel : OnWheels, Gear, Travel
    most_m_s : array, shape (n,)
        At which it is up at the latest. [m/s]

    Returns
    -------
    array, shape (n,)
        Not-a-number where it is not up by then. [m/s]
    """
    down = Controls(elevator_rad=travel.elevator_down_rad, throttle=1.0)

    def load_n(speed_m_s: Array) -> Array:
        found: Array = wheels.rolling(speed_m_s, gear.tail_down_rad, down).tail_load_n
        return found

    least = np.full_like(most_m_s, STAND_M_S)
    found = bracketed_roots(load_n, least, most_m_s, tolerance=1e-9)
    return np.where(load_n(least) <= 0.0, least, np.where(load_n(most_m_s) < 0.0, found, np.nan))


def accelerated(
    rolling: Callable[[Array], Rolling],
    *,
    mass_kg: Number,
    from_m_s: Array,
    to_m_s: Array,
    headwind_m_s: float,
    pitch_rad: float = 0.0,
) -> Run:
    """Return a run from one airspeed to another, in one attitude.

    Parameters
    ----------
    rolling : callable
        Airspeeds, shape (m, n) [m/s] -> what acts.
    mass_kg, from_m_s, to_m_s, headwind_m_s : float or array
        Mass, airspeeds, and wind against it. [kg, m/s]
    pitch_rad : float
        That attitude. [rad]

    Notes
    -----
    ds = (V − wind) dV / a and dt = dV / a by Simpson's rule.
    """
    speeds = np.linspace(from_m_s, to_m_s, STEPS + 1)
    side = np.where(to_m_s >= from_m_s, 1.0, -1.0)
    towards = side * rolling(speeds).pull_n / mass_kg
    held = towards <= 0.0
    first = np.take_along_axis(speeds, np.argmax(held, axis=0)[None], axis=0)[0]
    stuck = np.where(held.any(axis=0), first, np.nan)
    towards = np.where(np.isnan(stuck), towards, np.nan)
    step = np.abs(to_m_s - from_m_s) / STEPS
    distances = step * _simpson((speeds - headwind_m_s) / towards)
    times = step * _simpson(1.0 / towards)
    return Run(distances[-1], times[-1], stuck, speeds, distances, np.full_like(speeds, pitch_rad))


def _simpson(rates: Array) -> Array:
    """Return the integral from the first row to each, a row a step of 1."""
    from scipy.integrate import cumulative_simpson

    found: Array = cumulative_simpson(rates, dx=1.0, axis=0, initial=0.0)
    return found


def raised(
    rolling: Callable[[Array, Array], Rolling],
    *,
    mass_kg: Number,
    from_m_s: Array,
    to_m_s: Array,
    headwind_m_s: float,
    gear: Gear,
    raising_s: float,
) -> Run:
    """Return the run while the tail comes up at an even rate, to its end or to an airspeed if that comes sooner.

    Parameters
    ----------
    rolling : callable
        Airspeeds [m/s] and attitudes [rad], shape (m, n) and (m, 1) -> what acts.
    mass_kg, from_m_s, to_m_s, headwind_m_s
        As `accelerated` takes them.
    gear : Gear
        With the attitude from which the tail comes up to level.
    raising_s : float
        Time that this takes. [s]

    Notes
    -----
    Speeds at even times by Picard's iteration, whose integrals are Simpson's; beyond `to_m_s` they are cut off there.
    """
    share = np.linspace(0.0, 1.0, STEPS + 1)[:, None]
    pitch, step_s = gear.tail_down_rad * (1.0 - share), raising_s / STEPS
    speeds, gains = np.repeat(from_m_s[None], STEPS + 1, axis=0), np.zeros(())
    for _ in range(REPEATS):
        gains = rolling(np.minimum(speeds, to_m_s), pitch).pull_n / mass_kg  # faster ones are cut off
        new = np.maximum(from_m_s + step_s * _simpson(gains), STAND_M_S)
        settled = np.max(np.abs(new - speeds)) < SETTLED_M_S
        speeds = new
        if settled:
            break
    held = (gains <= 0.0) & ~np.logical_or.accumulate(speeds >= to_m_s)
    first = np.take_along_axis(speeds, np.argmax(held, axis=0)[None], axis=0)[0]
    stuck = np.where(held.any(axis=0), first, np.nan)
    distances = step_s * _simpson(speeds - headwind_m_s)
    whole = Run(distances[-1], np.full_like(from_m_s, raising_s), stuck, speeds, distances, pitch + 0.0 * speeds)
    return _cut(whole, to_m_s)


def _cut(run: Run, to_m_s: Array) -> Run:
    """Return the run cut off where it reaches an airspeed."""
    speeds, number = run.speeds_m_s, np.arange(run.speeds_m_s.shape[1])
    over = speeds >= to_m_s
    last = np.maximum(np.argmax(over, axis=0), 1)
    before, after = speeds[last - 1, number], speeds[last, number]
    ends = over.any(axis=0)
    with np.errstate(divide="ignore", invalid="ignore"):
        part = np.where(ends, (to_m_s - before) / (after - before), 1.0)

    def at_end(values: Array) -> Array:
        earlier, later = values[last - 1, number], values[last, number]
        found: Array = np.where(ends, earlier + part * (later - earlier), values[-1])
        return found

    time_s = np.where(ends, (last - 1.0 + part) / STEPS, 1.0) * run.time_s
    beyond = over & ends
    stuck = np.isnan(run.stuck_m_s)
    end = {name: at_end(getattr(run, name)) for name in ("speeds_m_s", "distances_m", "pitch_rad")}
    end["speeds_m_s"] = np.where(ends, to_m_s, end["speeds_m_s"])  # exactly
    cut = {name: np.where(beyond, value, getattr(run, name)) for name, value in end.items()}
    return Run(np.where(stuck, end["distances_m"], np.nan), np.where(stuck, time_s, np.nan), run.stuck_m_s, **cut)


def joined(*parts: Run) -> Run:
    """Return runs one after the other."""
    at_m = np.cumsum([np.zeros_like(parts[0].distance_m), *(part.distance_m for part in parts[:-1])], axis=0)
    stuck = np.array([part.stuck_m_s for part in parts])
    first = np.argmax(~np.isnan(stuck), axis=0)[None]
    return Run(
        distance_m=sum(part.distance_m for part in parts),  # type: ignore[arg-type]
        time_s=sum(part.time_s for part in parts),  # type: ignore[arg-type]
        stuck_m_s=np.take_along_axis(stuck, first, axis=0)[0],
        speeds_m_s=np.concatenate([part.speeds_m_s for part in parts]),
        distances_m=np.concatenate([start + part.distances_m for start, part in zip(at_m, parts, strict=True)]),
        pitch_rad=np.concatenate([part.pitch_rad for part in parts]),
    )


def over_obstacle_m(
    *, height_m: float, from_m_s: Number, to_m_s: Number, gradients: tuple[Number, Number], gravity_m_s2: float
) -> Number:
    """Return the distance in the air to a height, by the energy that is gained or lost.

    Parameters
    ----------
    height_m, from_m_s, to_m_s : float or array
        Height gained, and airspeeds at both ends; below 0 where it is lost. [m, m/s]
    gradients : tuple of float or array
        Excess thrust over weight at both ends; their mean serves.
    gravity_m_s2 : float
        [m/s²]
    """
    energy_m = height_m + 0.5 * (to_m_s**2 - from_m_s**2) / gravity_m_s2
    return energy_m / (0.5 * (gradients[0] + gradients[1]))
