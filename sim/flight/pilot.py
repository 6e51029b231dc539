"""A simple pilot: rolls to a bank, keeps the ball centred by feet, height by stick, speed by power.

Each loop is as quick as a person's, and its gain is taken from the airplane's own response, so that one pilot flies
them all. He reads bank, height, climb, ball and airspeed; he knows nothing of the rotor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from sim.atmosphere import density_ratio

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.hands import Wanted
    from sim.flight.motion import Airplane, Controls

BANK_PER_S: Final = 1.8
"""How quickly a bank error is taken out. [1/s]"""
CLIMB_PER_S: Final = 0.9
HEIGHT_PER_S: Final = 0.25
BALL_PER_S: Final = 1.2
SPEED_PER_S: Final = 0.2
DAMPING: Final = 0.15
"""Share of a rate that the hands take out at once."""


@dataclass(frozen=True, slots=True)
class Gains:
    """How much control a pilot gives for an error, from the airplane's response at its speed.

    Attributes
    ----------
    aileron_per_rad : float
        Aileron for a bank error. [rad/rad]
    elevator_per_m_s : float
        Elevator for a climb error. [rad s/m]
    rudder_per_g : float
        Rudder for a sideways load factor. [rad]
    throttle_per_m_s : float
        Throttle for a speed error. [s/m]
    """

    aileron_per_rad: float
    elevator_per_m_s: float
    rudder_per_g: float
    throttle_per_m_s: float


def gains(airplane: Airplane, *, speed_m_s: float, altitude_m: float) -> Gains:
    """Return the gains of a pilot for an airplane at a speed and altitude.

    Parameters
    ----------
    airplane : Airplane
        With roll damping, control powers and static stability.
    speed_m_s, altitude_m : float
        [m/s, m]

    Notes
    -----
    Roll: a step of aileron makes a steady roll rate. Climb: a step of elevator makes a change of incidence and so of
    load factor; of a nearly neutral airplane no more than a fortieth of a radian of static margin is believed. Ball:
    a step of rudder makes a steady sideslip.
    """
    d, wing = airplane.derivatives, airplane.wing
    pressure_area = 0.5 * airplane.sea_level_density_kg_m3 * density_ratio(altitude_m) * speed_m_s**2 * wing.area_m2
    weight = airplane.body.mass_kg * airplane.gravity_m_s2
    roll_rate = d.roll_aileron / d.roll_p * 2.0 * speed_m_s / wing.span_m
    incidence = d.pitch_elevator / min(d.pitch_alpha, -0.1)
    climb = airplane.gravity_m_s2 * pressure_area * d.lift_alpha * incidence / weight
    slip = d.yaw_rudder / -max(d.yaw_beta, 0.01)
    side = pressure_area * (d.side_beta * slip + d.side_rudder) / weight
    return Gains(
        aileron_per_rad=BANK_PER_S / abs(roll_rate),
        elevator_per_m_s=CLIMB_PER_S / abs(climb),
        rudder_per_g=BALL_PER_S / max(abs(side), 0.2),
        throttle_per_m_s=SPEED_PER_S,
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

    def wanted(
        t: float, state: tuple[float, ...], rates: tuple[float, ...], memory: tuple[float, ...]
    ) -> tuple[tuple[float, ...], ...]:
        _, _, down, e0, e1, e2, e3, u, v, w, p, q, r, _ = state
        down_y, down_z = 2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3
        bank = math.atan2(down_y, down_z)
        speed = math.sqrt(u * u + v * v + w * w)
        climb_error = HEIGHT_PER_S * (-down - height0) + -rates[2]
        ball = (rates[8] - p * w + r * u) / gravity - down_y
        turning = gravity * math.sin(bank) * math.tan(max(-1.4, min(1.4, bank))) / speed
        roll_error = bank_wanted_rad(t) - bank
        slow = speed0 - speed
        return (
            controls.elevator_rad + k.elevator_per_m_s * (climb_error + 0.5 * memory[0]) + DAMPING * (q - turning),
            controls.aileron_rad - k.aileron_per_rad * roll_error + DAMPING * k.aileron_per_rad * p,
            controls.rudder_rad + k.rudder_per_g * (0.3 * ball + memory[1]),
            controls.throttle + k.throttle_per_m_s * (slow + 0.15 * memory[2]),
        ), (climb_error, ball, slow if 0.0 < controls.throttle + k.throttle_per_m_s * slow < 1.0 else 0.0)

    return wanted
