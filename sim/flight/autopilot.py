"""A pilot model that holds bank, height, speed and zero sideslip.

Ailerons control bank, rudder the ball, elevator the height and throttle the speed. The bandwidth of each loop is that
of a person; the gains follow from the airplane's own derivatives, so that the same model flies every airplane. It
measures bank, height, climb, ball, rates and airspeed, and does not compensate for the rotor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.atmosphere import density_ratio
from sim.errors import NoAnswerError
from sim.flight.pilot_functions import MANY, ONE, PilotFunctions

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.flight.actuation import ControlLaw
    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number

BANK_PER_S: Final = 1.8
"""Bandwidth of the bank loop. [1/s]"""
CLIMB_PER_S: Final = 0.9
"""Bandwidth of the climb loop. [1/s]"""
HEIGHT_PER_S: Final = 0.25
"""Climb rate asked for per height error. [1/s]"""
BALL_PER_S: Final = 0.4
"""Bandwidth of the ball loop. [1/s]"""
YAW_DAMPING_PER_S: Final = 1.0
"""Yaw damping added by the rudder. [1/s]"""
SPEED_PER_S: Final = 0.08
"""Throttle per speed error. [s/m]"""
LEAST_ROLL_DAMPING: Final = -0.05
"""Roll damping derivative assumed for the gain where the airplane has less."""
INTEGRATED_BANK_RAD: Final = 0.1
"""Bank errors beyond this are not integrated: the roll is still under way."""
MAX_BANK_RAD: Final = math.radians(80.0)
DAMPING: Final = 0.15
"""Deflection per angular rate, against pitching and rolling. [s]"""


@dataclass(frozen=True, slots=True)
class Gains:
    """Control deflection per error, from the airplane's response at one speed.

    Attributes
    ----------
    aileron_gain : float
        Aileron per bank error. [rad/rad]
    elevator_gain : float
        Elevator per load factor. [rad]
    rudder_gain : float
        Rudder per sideways load factor. [rad]
    yaw_gain : float
        Rudder per yaw rate beyond that of the turn. [s]
    rudder_per_aileron : float
        Rudder per aileron against adverse yaw.
    throttle_gain : float
        Throttle per speed error. [s/m]
    """

    aileron_gain: Number
    elevator_gain: Number
    rudder_gain: Number
    yaw_gain: Number
    rudder_per_aileron: Number
    throttle_gain: float


def gains(airplane: Airplane, *, speed_m_s: Number, altitude_m: Number, functions: PilotFunctions = ONE) -> Gains:
    """Return the gains of the pilot model for an airplane at a speed and altitude.

    Parameters
    ----------
    airplane : Airplane
        With roll damping, control effectiveness and static stability.
    speed_m_s, altitude_m : float
        [m/s, m]
    functions : PilotFunctions
        `ONE`, or `MANY` for an airplane whose numbers are arrays.

    Raises
    ------
    NoAnswerError
        Where a control has no effect or the wrong sign; of many airplanes such a one has gains that are not-a-number.

    Notes
    -----
    Roll: a step of aileron gives a steady roll rate. Load factor: the elevator balances stability and damping in a
    steady pull-up. Ball: a step of rudder gives a steady sideslip.
    """
    d, polar = airplane.derivatives, airplane.polar
    effects = {"elevator": d.pitch_elevator, "aileron": d.roll_aileron, "rudder": d.yaw_rudder}
    larger, smaller = functions.larger, functions.smaller
    works: Number = 1.0
    if functions is MANY:
        weakest = np.max(np.broadcast_arrays(*effects.values()), axis=0)
        works = np.where(weakest < 0.0, 1.0, np.nan)
    elif weak := [name for name, effect in effects.items() if effect >= 0.0]:
        verb = "has" if len(weak) == 1 else "have"
        fault = f"{' and '.join(weak)} {verb} no effect or the wrong sign"
        message = f"the pilot cannot hold a turn: {fault}; see derivatives"
        raise NoAnswerError(message)
    pressure_area = 0.5 * airplane.sea_level_density_kg_m3 * density_ratio(altitude_m) * speed_m_s**2 * polar.area_m2
    weight = airplane.body.mass_kg * airplane.gravity_m_s2
    roll_rate = d.roll_aileron / smaller(d.roll_p, LEAST_ROLL_DAMPING) * 2.0 * speed_m_s / polar.span_m
    pull = d.pitch_alpha * weight / (pressure_area * d.lift_alpha)
    pull += d.pitch_q * airplane.gravity_m_s2 * polar.chord_m / (2.0 * speed_m_s**2)
    slip = d.yaw_rudder / -larger(d.yaw_beta, 0.01)
    side = pressure_area * (d.side_beta * slip + d.side_rudder) / weight
    yaw = pressure_area * polar.span_m * d.yaw_rudder / airplane.body.inertia_yaw_kg_m2
    return Gains(
        aileron_gain=works * (BANK_PER_S / abs(roll_rate)),
        elevator_gain=larger(pull / d.pitch_elevator, 0.01),
        rudder_gain=BALL_PER_S / larger(abs(side), 0.2),
        yaw_gain=YAW_DAMPING_PER_S / abs(yaw),
        rudder_per_aileron=-d.yaw_aileron / d.yaw_rudder,
        throttle_gain=SPEED_PER_S,
    )


def pilot_law(
    airplane: Airplane,
    bank_rad: Callable[[float], Number],
    *,
    start: Sequence[Number],
    controls: Controls,
    functions: PilotFunctions = ONE,
) -> ControlLaw:
    """Return the control law of a pilot who follows a bank angle in time and holds height, ball and speed.

    Parameters
    ----------
    airplane : Airplane
    bank_rad : function
        Time in seconds -> bank commanded, right wing down positive. [rad]
    start : tuple of 14 floats
        State whose height and speed are held.
    controls : Controls
        In that state.
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.
    """
    sqrt, sin, tan, cos, either = functions.sqrt, functions.sin, functions.tan, functions.cos, functions.either
    speed0, height0 = sqrt(start[7] ** 2 + start[8] ** 2 + start[9] ** 2), -start[2]
    k = gains(airplane, speed_m_s=speed0, altitude_m=height0, functions=functions)
    gravity = airplane.gravity_m_s2
    load0 = 1.0 / cos(_bank(start, functions))

    def law(
        t: float, state: tuple[float, ...], rates: tuple[float, ...], integrals: tuple[float, ...]
    ) -> tuple[tuple[float, ...], tuple[float, ...]]:
        _, _, down, e0, e1, e2, e3, u, v, w, p, q, r, _ = state
        down_y = 2.0 * (e2 * e3 + e0 * e1)
        bank = _bank(state, functions)
        speed = sqrt(u * u + v * v + w * w)
        climb_error = HEIGHT_PER_S * (-down - height0) - rates[2]
        unload = CLIMB_PER_S * (climb_error + 0.3 * integrals[0]) / gravity - (1.0 / cos(bank) - load0)
        ball = (rates[8] - p * w + r * u) / gravity - down_y
        turn_rate = gravity * sin(bank) / speed
        pitch_rate = turn_rate * tan(bank)
        bank_error = bank_rad(t) - bank
        aileron = k.aileron_gain * (DAMPING * p - bank_error - 0.2 * integrals[3])
        rudder = k.rudder_gain * (0.3 * ball + integrals[1]) + k.yaw_gain * (r - turn_rate)
        speed_error = speed0 - speed
        return (
            controls.elevator_rad + k.elevator_gain * unload + DAMPING * (q - pitch_rate),
            controls.aileron_rad + aileron,
            controls.rudder_rad + rudder + k.rudder_per_aileron * aileron,
            controls.throttle + k.throttle_gain * (speed_error + 0.15 * integrals[2]),
        ), (
            climb_error,
            ball,
            either(abs(controls.throttle + k.throttle_gain * speed_error - 0.5) < 0.5, speed_error, 0.0),
            either(abs(bank_error) < INTEGRATED_BANK_RAD, bank_error, 0.0),
        )

    return law


def _bank(state: Sequence[Number], functions: PilotFunctions) -> Number:
    """Return the bank of a state, limited to 80° either way. [rad]."""
    e0, e1, e2, e3 = state[3:7]
    bank = functions.atan2(2.0 * (e2 * e3 + e0 * e1), e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3)
    return functions.larger(-MAX_BANK_RAD, functions.smaller(MAX_BANK_RAD, bank))
