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
PITCH_GAIN, PITCH_DAMPING_S, PITCH_PER_S = 1.5, 0.4, 1.0
"""Elevator per error of attitude, per rate, and per error and second."""
HEADING_GAIN, YAW_DAMPING_S, HEADING_PER_S = 2.0, 0.8, 1.0
"""Rudder likewise per error of heading."""
ROLL_DAMPING_S: Final = 0.15
"""Aileron per rate of roll."""
ROTATING_S: Final = 3.0
"""Time in which the nose comes up to the climb."""
CLIMB_GAIN: Final = 0.015
"""Attitude per airspeed beyond that of the climb. [rad s/m]"""
MOST_CHANGE_RAD: Final = 0.05
"""Of attitude for airspeed."""


@dataclass(frozen=True, slots=True)
class TakeOffSpeeds:
    """What a pilot takes off by.

    Attributes
    ----------
    tail_up_m_s, lift_off_m_s, climb_m_s : float
        Airspeeds at which the tail is raised and the nose comes up, and that of the climb. [m/s]
    raising_s : float
        Time in which the tail comes up. [s]
    tail_down_rad, climb_rad : float
        Attitudes on all wheels and of the climb, nose up. [rad]
    """

    tail_up_m_s: float
    lift_off_m_s: float
    climb_m_s: float
    raising_s: float
    tail_down_rad: float
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
    aileron_gain = gains(airplane, speed_m_s=by.lift_off_m_s, altitude_m=altitude_m).aileron_gain

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
        rising, rotating = min(up_s / by.raising_s, 1.0), min(off_s / ROTATING_S, 1.0)
        faster = max(-MOST_CHANGE_RAD, min(MOST_CHANGE_RAD, CLIMB_GAIN * (speed - by.climb_m_s)))
        wanted = (1.0 - rotating) * (1.0 - rising) * by.tail_down_rad + rotating * (by.climb_rad + faster)
        begun = up_s > 0.0 or off_s > 0.0
        error = pitch - wanted if begun else 0.0
        moved = PITCH_GAIN * error + PITCH_DAMPING_S * q + PITCH_PER_S * summed
        elevator = moved if begun else -HELD_BACK * travel.elevator_up_rad
        aileron = aileron_gain * bank + ROLL_DAMPING_S * p
        rudder = HEADING_GAIN * heading + YAW_DAMPING_S * r + HEADING_PER_S * turned
        timers = float(speed >= by.lift_off_m_s or off_s > 0.0), float(speed >= by.tail_up_m_s or up_s > 0.0)
        return (elevator, aileron, rudder, 1.0), (error, heading, *timers)

    return law


def _angles(state: tuple[float, ...]) -> tuple[float, float, float]:
    """Return pitch, bank and heading [rad]."""
    e0, e1, e2, e3 = state[3:7]
    return (
        math.asin(max(-1.0, min(1.0, 2.0 * (e0 * e2 - e1 * e3)))),
        math.atan2(2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3),
        math.atan2(2.0 * (e1 * e2 + e0 * e3), e0 * e0 + e1 * e1 - e2 * e2 - e3 * e3),
    )
