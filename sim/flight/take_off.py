"""Take-off and landing run of a tail-wheel airplane: tail down, coming up, on the main wheels, over an obstacle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.flight.motion import Controls
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.control_travel import Travel
    from sim.flight.on_wheels import Gear, OnWheels, Rolling

STEPS = 60
"""Speeds of each part of a run; the distance of 60 is within 0.01 % of that of 600."""
STAND_M_S = 0.1
"""Ground speed at which a run begins or ends: with less the last step would never end."""


@dataclass(frozen=True, slots=True)
class Run:
    """A run along the ground.

    Attributes
    ----------
    distance_m, time_s : float
        [m, s]
    speeds_m_s, distances_m : tuple of float
        Airspeed, and distance from where it began, step by step. [m/s, m]
    """

    distance_m: float
    time_s: float
    speeds_m_s: tuple[float, ...]
    distances_m: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Swing:
    """The rudder that holds the nose at one instant.

    Attributes
    ----------
    speed_m_s : float
        Airspeed. [m/s]
    rudder_share : float
        Of the travel, left positive; beyond 1 the rudder does not hold it.
    raising_share : float
        Likewise, while the tail comes up.
    """

    speed_m_s: float
    rudder_share: float
    raising_share: float


def tail_up_m_s(wheels: OnWheels, gear: Gear, travel: Travel, most_m_s: float) -> float | None:
    """Return the airspeed at which full down elevator lifts the tail at full power; None for none up to `most_m_s`."""
    down = Controls(elevator_rad=travel.elevator_down_rad, throttle=1.0)

    def load_n(speed_m_s: float) -> float:
        return wheels.rolling(speed_m_s, gear.tail_down_rad, down).tail_load_n

    from scipy.optimize import brentq

    if load_n(STAND_M_S) <= 0.0:
        return STAND_M_S
    return float(brentq(load_n, STAND_M_S, most_m_s, xtol=1e-9)) if load_n(most_m_s) < 0.0 else None


def swing(wheels: OnWheels, gear: Gear, travel: Travel, speed_m_s: float, *, raising_s: float) -> Swing:
    """Return the rudder that holds the nose straight at an airspeed, and while the tail comes up in `raising_s`.

    Parameters
    ----------
    wheels, gear, travel : OnWheels, Gear, Travel
    speed_m_s, raising_s : float
        [m/s, s]

    Notes
    -----
    Torque, disc, swirl on the fin and the gyroscopic moment of all that turns, by the equations of motion; wheels hold
    nothing sideways.
    """
    rate = -gear.tail_down_rad / raising_s

    def share(pitching_rad_s: float) -> float:
        straight, turned = (
            wheels.rolling(
                speed_m_s,
                gear.tail_down_rad,
                Controls(elevator_rad=travel.elevator_down_rad, rudder_rad=rudder, throttle=1.0),
                pitching_rad_s=pitching_rad_s,
            ).yaw_rad_s2
            for rudder in (0.0, travel.rudder_rad)
        )
        return straight / (straight - turned)

    return Swing(speed_m_s, share(0.0), share(rate))


def accelerated(
    rolling: Callable[[float], Rolling],
    friction: tuple[float, float],
    *,
    mass_kg: float,
    from_m_s: float,
    to_m_s: float,
    headwind_m_s: float,
) -> Run:
    """Return a run from one airspeed to another, in one attitude.

    Parameters
    ----------
    rolling : callable
        Airspeed [m/s] -> what acts.
    friction : tuple of float
        Of the main wheels, and of the tail: over their loads.
    mass_kg, from_m_s, to_m_s, headwind_m_s : float
        Mass, airspeeds, and wind against it. [kg, m/s]

    Raises
    ------
    NoAnswerError
        When the airplane does not reach that speed.

    Notes
    -----
    ds = (V − wind) dV / a and dt = dV / a by Simpson's rule.
    """
    from scipy.integrate import cumulative_simpson

    speeds = np.linspace(from_m_s, to_m_s, STEPS + 1)
    pulls = np.array([_net_n(rolling(float(speed)), friction) for speed in speeds]) / mass_kg
    towards = pulls * math.copysign(1.0, to_m_s - from_m_s)
    if (towards <= 0.0).any():
        stuck = float(speeds[int(np.argmax(towards <= 0.0))])
        raise NoAnswerError(_stuck(stuck))
    gained = np.abs(speeds - from_m_s)
    distances = cumulative_simpson((speeds - headwind_m_s) / towards, x=gained, initial=0.0)
    times = cumulative_simpson(1.0 / towards, x=gained, initial=0.0)
    return Run(float(distances[-1]), float(times[-1]), tuple(speeds.tolist()), tuple(distances.tolist()))


def _net_n(now: Rolling, friction: tuple[float, float]) -> float:
    """Return the force that changes the speed, friction of wheels and tail taken off [N]."""
    load, tail = max(now.load_n, 0.0), min(max(now.tail_load_n, 0.0), max(now.load_n, 0.0))
    return now.pull_n - friction[0] * (load - tail) - friction[1] * tail


def raised(
    rolling: Callable[[float, float], Rolling],
    friction: tuple[float, float],
    *,
    mass_kg: float,
    from_m_s: float,
    to_m_s: float,
    headwind_m_s: float,
    gear: Gear,
    raising_s: float,
) -> Run:
    """Return the run while the tail comes up at an even rate, to its end or to an airspeed if that comes sooner.

    Parameters
    ----------
    rolling : callable
        Airspeed [m/s] and attitude [rad] -> what acts.
    friction, mass_kg, from_m_s, to_m_s, headwind_m_s
        As `accelerated` takes them.
    gear : Gear
        With the attitude from which the tail comes up to level.
    raising_s : float
        Time that this takes. [s]

    Notes
    -----
    Steps of the midpoint rule in time; the last one ends at `to_m_s`.
    """
    step_s = raising_s / STEPS
    speeds, distances, time_s = [from_m_s], [0.0], 0.0

    def gain(speed_m_s: float, at_s: float) -> float:
        pitch_rad = gear.tail_down_rad * (1.0 - at_s / raising_s)
        return _net_n(rolling(speed_m_s, pitch_rad), friction) / mass_kg

    for number in range(STEPS):
        speed, at_s = speeds[-1], number * step_s
        middle = speed + 0.5 * step_s * gain(speed, at_s)
        more = step_s * gain(middle, at_s + 0.5 * step_s)
        if more <= 0.0:
            raise NoAnswerError(_stuck(speed))
        part = min((to_m_s - speed) / more, 1.0)
        speeds.append(speed + part * more)
        distances.append(distances[-1] + part * step_s * (0.5 * (speed + speeds[-1]) - headwind_m_s))
        time_s += part * step_s
        if part < 1.0:
            break
    return Run(distances[-1], time_s, tuple(speeds), tuple(distances))


def _stuck(speed_m_s: float) -> str:
    if speed_m_s <= STAND_M_S:
        return "full power does not start it rolling on this ground"
    return f"the airplane does not get faster than {in_both('speed_m_s', speed_m_s)} on this ground"


def over_obstacle_m(
    *, height_m: float, from_m_s: float, to_m_s: float, gradients: tuple[float, float], gravity_m_s2: float
) -> float:
    """Return the distance in the air to a height, by the energy that is gained or lost.

    Parameters
    ----------
    height_m, from_m_s, to_m_s : float
        Height gained, and airspeeds at both ends; below 0 where it is lost. [m, m/s]
    gradients : tuple of float
        Excess thrust over weight at both ends; their mean serves.
    gravity_m_s2 : float
        [m/s²]
    """
    energy_m = height_m + 0.5 * (to_m_s**2 - from_m_s**2) / gravity_m_s2
    return energy_m / (0.5 * math.fsum(gradients))
