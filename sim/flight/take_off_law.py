"""A pilot who takes off: run held straight, wings level, tail up, lift-off and climb at one airspeed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from sim.flight.autopilot import gains

if TYPE_CHECKING:
    from sim.flight.actuation import ControlLaw
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane

HELD_BACK: Final = 0.3
"""Of the travel, stick back, that keeps the tail down."""
PITCH_GAIN, PITCH_DAMPING_S, PITCH_PER_S = 3.0, 1.2, 1.0
"""Elevator per error of attitude, of its rate, and per error and second."""
HEADING_GAIN, YAW_DAMPING_S, HEADING_PER_S = 4.0, 2.5, 2.0
"""Rudder likewise per error of heading: quick feet, which meet the swing as it begins."""
ROLL_DAMPING_S: Final = 0.15
"""Aileron per rate of roll."""
RAISING_S: Final = 2.0
"""Time in which the tail comes up: common practice, no source."""
ROTATING_S: Final = 1.5
"""Time in which the nose comes up to the attitude of lift-off."""
CLIMBING_S: Final = 3.0
"""Time in which it comes up from there to the climb."""
CLIMB_GAIN: Final = 0.015
"""Attitude per airspeed beyond that of the climb. [rad s/m]"""
MOST_CHANGE_RAD: Final = 0.05
"""Of attitude for airspeed."""


@dataclass(frozen=True, slots=True)
class TakeOffSpeeds:
    """What a pilot takes off by.

    Attributes
    ----------
    tail_up_m_s, rotate_m_s, climb_m_s : float
        Airspeeds at which the tail is raised, infinite where it is not, at which the nose comes up, and that of the
        climb. [m/s]
    raising_s : float
        Time in which the tail comes up. [s]
    tail_down_rad, lift_off_rad, climb_rad : float
        Attitudes on all wheels, at lift-off and of the climb, nose up. [rad]
    """

    tail_up_m_s: float
    rotate_m_s: float
    climb_m_s: float
    raising_s: float
    tail_down_rad: float
    lift_off_rad: float
    climb_rad: float


def take_off_law(airplane: Airplane, travel: Travel, by: TakeOffSpeeds, altitude_m: float) -> ControlLaw:
    """Return the control law of a take-off towards north at full throttle.

    Parameters
    ----------
    airplane, travel : Airplane, Travel
    by : TakeOffSpeeds
    altitude_m : float
        Of the field. [m]

    Raises
    ------
    NoAnswerError
        Where a control has no effect or the wrong sign.

    Notes
    -----
    Proportional to errors of attitude, heading and bank, to rates and to the first two errors summed; bandwidths of a
    person (common practice, no source). The pilot does not know of the rotor.
    """
    aileron_gain = gains(airplane, speed_m_s=by.rotate_m_s, altitude_m=altitude_m).aileron_gain

    def law(
        t: float,  # noqa: ARG001
        state: tuple[float, ...],
        rates: tuple[float, ...],  # noqa: ARG001
        integrals: tuple[float, ...],
    ) -> tuple[tuple[float, ...], tuple[float, ...]]:
        pitch, bank, heading = _angles(state)
        u, v, w, p, q, r = state[7:13]
        speed = math.sqrt(u * u + v * v + w * w)
        summed, turned, off_s, up_s = integrals
        begun = up_s > 0.0 or off_s > 0.0
        wanted, turning = _attitude(by, speed, up_s, off_s)
        error = pitch - wanted if begun else 0.0
        moved = PITCH_GAIN * error + PITCH_DAMPING_S * (q - turning) + PITCH_PER_S * summed
        elevator = moved if begun else -HELD_BACK * travel.elevator_up_rad
        aileron = aileron_gain * bank + ROLL_DAMPING_S * p
        rudder = HEADING_GAIN * heading + YAW_DAMPING_S * r + HEADING_PER_S * turned
        timers = float(speed >= by.rotate_m_s or off_s > 0.0), float(speed >= by.tail_up_m_s or up_s > 0.0)
        return (elevator, aileron, rudder, 1.0), (error, heading, *timers)

    return law


def _attitude(by: TakeOffSpeeds, speed_m_s: float, up_s: float, off_s: float) -> tuple[float, float]:
    """Return the attitude wanted and its rate [rad, rad/s], from the times since tail and nose began to come up."""
    faster = max(-MOST_CHANGE_RAD, min(MOST_CHANGE_RAD, CLIMB_GAIN * (speed_m_s - by.climb_m_s)))
    ramps = (
        (up_s, by.raising_s, 0.0),
        (off_s, ROTATING_S, by.lift_off_rad),
        (off_s - ROTATING_S, CLIMBING_S, by.climb_rad + faster),
    )
    wanted, turning = by.tail_down_rad, 0.0
    for since_s, takes_s, to_rad in ramps:
        share = max(0.0, min(1.0, since_s / takes_s))
        moving = (to_rad - wanted) / takes_s if 0.0 < share < 1.0 else 0.0
        wanted, turning = wanted + share * (to_rad - wanted), (1.0 - share) * turning + moving
    return wanted, turning


def _angles(state: tuple[float, ...]) -> tuple[float, float, float]:
    """Return pitch, bank and heading [rad]."""
    e0, e1, e2, e3 = state[3:7]
    return (
        math.asin(max(-1.0, min(1.0, 2.0 * (e0 * e2 - e1 * e3)))),
        math.atan2(2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3),
        math.atan2(2.0 * (e1 * e2 + e0 * e3), e0 * e0 + e1 * e1 - e2 * e2 - e3 * e3),
    )
