"""A simple pilot: rolls to a bank, keeps the ball centred by feet, height by stick, speed by power.

Each loop is as quick as a person's, and its gain is taken from the airplane's own response, so that one pilot flies
them all. He reads bank, height, climb, ball and airspeed; he knows nothing of the rotor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from sim.atmosphere import density_ratio
from sim.errors import NoAnswerError

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.actuation import Wanted
    from sim.flight.motion import Airplane, Controls

BANK_PER_S: Final = 1.8
"""How quickly a bank error is taken out. [1/s]"""
CLIMB_PER_S: Final = 0.9
HEIGHT_PER_S: Final = 0.25
BALL_PER_S: Final = 0.4
YAW_DAMPING_PER_S: Final = 1.0
"""Damping of the yaw rate that the feet add. [1/s]"""
SPEED_PER_S: Final = 0.08
LEAST_ROLL_DAMPING: Final = -0.05
"""A wing that damps rolling less is flown as if it damped by this."""
NEARLY_RAD: Final = 0.1
"""A bank error that he takes for an offset, and not for a roll still to be made."""
STEEPEST_RAD: Final = math.radians(80.0)
DAMPING: Final = 0.15
"""Share of a rate that the hands take out at once."""


@dataclass(frozen=True, slots=True)
class Gains:
    """How much control a pilot gives for an error, from the airplane's response at its speed.

    Attributes
    ----------
    aileron_gain : float
        Aileron for a bank error. [rad/rad]
    elevator_gain : float
        Elevator for a load factor. [rad]
    rudder_gain : float
        Rudder for a sideways load factor. [rad]
    yaw_gain : float
        Rudder for a yaw rate beyond that of the turn. [s]
    rudder_per_aileron : float
        Rudder that goes with the stick against adverse yaw.
    throttle_gain : float
        Throttle for a speed error. [s/m]
    """

    aileron_gain: float
    elevator_gain: float
    rudder_gain: float
    yaw_gain: float
    rudder_per_aileron: float
    throttle_gain: float


def gains(airplane: Airplane, *, speed_m_s: float, altitude_m: float) -> Gains:
    """Return the gains of a pilot for an airplane at a speed and altitude.

    Parameters
    ----------
    airplane : Airplane
        With roll damping, control powers and static stability.
    speed_m_s, altitude_m : float
        [m/s, m]

    Raises
    ------
    NoAnswerError
        Where a control moves nothing, or the airplane the wrong way.

    Notes
    -----
    Roll: a step of aileron makes a steady roll rate. Load factor: the elevator balances stability
    and damping of a steady pull-up. Ball: a step of rudder makes a steady sideslip.
    """
    d, polar = airplane.derivatives, airplane.polar
    powers = {"elevator": d.pitch_elevator, "aileron": d.roll_aileron, "rudder": d.yaw_rudder}
    if weak := [name for name, power in powers.items() if power >= 0.0]:
        move = "moves" if len(weak) == 1 else "move"
        message = f"no pilot holds a turn: {' and '.join(weak)} {move} nothing, or the wrong way; see derivatives"
        raise NoAnswerError(message)
    pressure_area = 0.5 * airplane.sea_level_density_kg_m3 * density_ratio(altitude_m) * speed_m_s**2 * polar.area_m2
    weight = airplane.body.mass_kg * airplane.gravity_m_s2
    roll_rate = d.roll_aileron / min(d.roll_p, LEAST_ROLL_DAMPING) * 2.0 * speed_m_s / polar.span_m
    pull = d.pitch_alpha * weight / (pressure_area * d.lift_alpha)
    pull += d.pitch_q * airplane.gravity_m_s2 * polar.chord_m / (2.0 * speed_m_s**2)
    slip = d.yaw_rudder / -max(d.yaw_beta, 0.01)
    side = pressure_area * (d.side_beta * slip + d.side_rudder) / weight
    yaw = pressure_area * polar.span_m * d.yaw_rudder / airplane.body.inertia_yaw_kg_m2
    return Gains(
        aileron_gain=BANK_PER_S / abs(roll_rate),
        elevator_gain=max(pull / d.pitch_elevator, 0.01),
        rudder_gain=BALL_PER_S / max(abs(side), 0.2),
        yaw_gain=YAW_DAMPING_PER_S / abs(yaw),
        rudder_per_aileron=-d.yaw_aileron / d.yaw_rudder,
        throttle_gain=SPEED_PER_S,
    )


def pilot(
    airplane: Airplane, bank_wanted_rad: Callable[[float], float], *, start: tuple[float, ...], controls: Controls
) -> Wanted:
    """Return what the pilot wants of the controls while he follows a bank in time and holds height, ball and speed.

    Parameters
    ----------
    airplane : Airplane
    bank_wanted_rad : function
        Time in seconds -> bank, right wing down positive. [rad]
    start : tuple of 14 floats
        State whose height and speed he holds.
    controls : Controls
        That he begins from.
    """
    speed0, height0 = math.hypot(*start[7:10]), -start[2]
    k = gains(airplane, speed_m_s=speed0, altitude_m=height0)
    gravity = airplane.gravity_m_s2
    load0 = _level_load(_bank(start))

    def wanted(
        t: float, state: tuple[float, ...], rates: tuple[float, ...], memory: tuple[float, ...]
    ) -> tuple[tuple[float, ...], ...]:
        _, _, down, e0, e1, e2, e3, u, v, w, p, q, r, _ = state
        down_y = 2.0 * (e2 * e3 + e0 * e1)
        bank = _bank(state)
        speed = math.sqrt(u * u + v * v + w * w)
        climb_error = HEIGHT_PER_S * (-down - height0) - rates[2]
        ease = CLIMB_PER_S * (climb_error + 0.3 * memory[0]) / gravity - (_level_load(bank) - load0)
        ball = (rates[8] - p * w + r * u) / gravity - down_y
        turning = gravity * math.sin(bank) / speed
        pitching = turning * math.tan(bank)
        roll_error = bank_wanted_rad(t) - bank
        stick = k.aileron_gain * (DAMPING * p - roll_error - 0.2 * memory[3])
        feet = k.rudder_gain * (0.3 * ball + memory[1]) + k.yaw_gain * (r - turning)
        slow = speed0 - speed
        return (
            controls.elevator_rad + k.elevator_gain * ease + DAMPING * (q - pitching),
            controls.aileron_rad + stick,
            controls.rudder_rad + feet + k.rudder_per_aileron * stick,
            controls.throttle + k.throttle_gain * (slow + 0.15 * memory[2]),
        ), (
            climb_error,
            ball,
            slow if 0.0 < controls.throttle + k.throttle_gain * slow < 1.0 else 0.0,
            roll_error if abs(roll_error) < NEARLY_RAD else 0.0,
        )

    return wanted


def _bank(state: tuple[float, ...]) -> float:
    """Return the bank of a state, kept to 80° either way: beyond it he flies as at it. [rad]."""
    e0, e1, e2, e3 = state[3:7]
    bank = math.atan2(2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3)
    return max(-STEEPEST_RAD, min(STEEPEST_RAD, bank))


def _level_load(bank: float) -> float:
    return 1.0 / math.cos(bank)
