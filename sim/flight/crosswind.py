"""Rudder and ailerons on a run along the ground: what holds it straight, and how much wind across it they hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.flight.motion import Controls
from sim.numerics.bracket import bracketed_roots

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.flight.on_wheels import Gear, OnWheels
    from sim.numerics.number import Number

    Array = NDArray[np.float64]

MOST_M_S = 40.0
"""Of the wind searched; no such airplane is out in it."""


@dataclass(frozen=True, slots=True)
class Swing:
    """The rudder that holds the nose at one instant, of each of many airplanes.

    Attributes
    ----------
    rudder_share : float or array
        Of the travel, left positive; beyond 1 the rudder does not hold it.
    raising_share : float or array
        Likewise, while the tail comes up.
    """

    rudder_share: Number
    raising_share: Number


def swing(wheels: OnWheels, gear: Gear, travel: Travel, speed_m_s: Number, *, raising_s: float) -> Swing:
    """Return the rudder that holds the nose straight at an airspeed, and while the tail comes up in `raising_s`.

    Parameters
    ----------
    wheels, gear, travel : OnWheels, Gear, Travel
    speed_m_s, raising_s : float or array, float
        [m/s, s]

    Notes
    -----
    Torque, disc, swirl on the fin and the gyroscopic moment of all that turns, by the equations of motion, about the
    main wheels, of which torque loads one more.
    """

    def share(pitching_rad_s: float) -> Number:
        return rudder_share(
            wheels,
            travel,
            Controls(elevator_rad=travel.elevator_down_rad, throttle=1.0),
            speed_m_s=speed_m_s,
            pitch_rad=gear.tail_down_rad,
            pitching_rad_s=pitching_rad_s,
        )

    return Swing(share(0.0), share(-gear.tail_down_rad / raising_s))


def rudder_share(wheels: OnWheels, travel: Travel, controls: Controls, **rolls: Number) -> Number:
    """Return the rudder of its travel, left positive, that holds the nose.

    Parameters
    ----------
    wheels, travel, controls : OnWheels, Travel, Controls
        The controls with the rudder neutral.
    **rolls : float or array
        Speed, attitude and what else `OnWheels.rolling` takes, by name.
    """
    straight, turned = (
        wheels.rolling(controls=controls._replace(rudder_rad=rudder), **rolls).swing_n_m
        for rudder in (0.0, travel.rudder_rad)
    )
    return straight / (straight - turned)


@dataclass(frozen=True, slots=True)
class Held:
    """Wind across a run that is held at each of its instants, from one side.

    Attributes
    ----------
    rudder_m_s : array, shape (m, n)
        That full rudder holds, at least 0. [m/s]
    ailerons_m_s : array, shape (m, n)
        That full ailerons hold before the wheel to windward lifts, at least 0. [m/s]
    """

    rudder_m_s: Array
    ailerons_m_s: Array


def held(
    wheels: OnWheels,
    travel: Travel,
    speed_m_s: Array,
    pitch_rad: Array,
    *,
    pitching_rad_s: Array,
    throttle: float,
    side: float,
) -> Held:
    """Return the steady wind across a run that full controls hold.

    Parameters
    ----------
    wheels, travel : OnWheels, Travel
    speed_m_s, pitch_rad, pitching_rad_s : array, shape (m, n)
        Airspeed along the run, attitude and its rate at each instant. [m/s, rad, rad/s]
    throttle : float
        0 is the ignition cut, 1 full throttle.
    side : float
        From which the wind comes: +1 right, −1 left.

    Notes
    -----
    The nose turns into the wind, the wing to windward rises: full rudder away from it, with the ailerons neutral, and
    full ailerons towards it, with that rudder. 0 where they do not hold the run without any wind.
    """
    rudder, into = side * travel.rudder_rad, -side * travel.aileron_rad

    def left_over(wind_m_s: Array, *, ailerons: bool) -> Array:
        controls = Controls(aileron_rad=into if ailerons else 0.0, rudder_rad=rudder, throttle=throttle)
        now = wheels.rolling(speed_m_s, pitch_rad, controls, pitching_rad_s=pitching_rad_s, across_m_s=side * wind_m_s)
        found: Array = now.held_n_m + side * now.tilt_n_m if ailerons else -side * now.swing_n_m
        return found

    def most_held(*, ailerons: bool) -> Array:
        none, most = np.zeros_like(speed_m_s), np.full_like(speed_m_s, MOST_M_S)
        found = bracketed_roots(lambda wind_m_s: left_over(wind_m_s, ailerons=ailerons), none, most, tolerance=1e-8)
        found = np.where(left_over(most, ailerons=ailerons) > 0.0, most, found)
        return np.where(left_over(none, ailerons=ailerons) <= 0.0, none, found)

    return Held(most_held(ailerons=False), most_held(ailerons=True))
