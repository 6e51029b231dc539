"""A pilot who slows an airplane into the stall, holding bank and ball, and one who recovers from it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.flight.actuation import INTEGRATORS
from sim.flight.autopilot import CLIMB_PER_S, DAMPING, INTEGRATED_BANK_RAD, gains
from sim.flight.pilot_functions import ONE, PilotFunctions

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.flight.actuation import ControlLaw
    from sim.flight.autopilot import Gains
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number

    Numbers = tuple[Number, ...]

SPARED: Final = 0.8
"""Share of the greatest lift that a recovering pilot pulls with: a second stall is kept away from."""
MOST_PULL: Final = 0.5
"""Load factor beyond 1 that a recovering pilot asks for at most, to stop the descent."""


def slowing(
    airplane: Airplane,
    travel: Travel,
    *,
    state: Sequence[Number],
    controls: Controls,
    bank_rad: Number,
    pull_s: float,
    functions: PilotFunctions = ONE,
) -> ControlLaw:
    """Return the law of a pilot who pulls slowly to the stop and holds bank and ball, the throttle left alone.

    Parameters
    ----------
    airplane : Airplane
        Whose derivatives give the pilot's gains.
    travel : Travel
        Stops of the controls.
    state : sequence of 14 floats
        Steady flight at the start.
    controls : Controls
        In it.
    bank_rad : float
        Held, right wing down positive. [rad]
    pull_s : float
        Time in which the stick comes back from trim to its stop. [s]
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.
    """
    wings = wings_held(airplane, state, bank_rad, functions)
    pull = (controls.elevator_rad + travel.elevator_up_rad) / pull_s

    def law(t: float, now: Numbers, rates: Numbers, integrals: Numbers) -> tuple[Numbers, Numbers]:
        aileron, rudder, errors = wings(now, rates, integrals)
        settings = (
            controls.elevator_rad - pull * t,
            controls.aileron_rad + aileron,
            controls.rudder_rad + rudder,
            controls.throttle,
        )
        return settings, errors

    return law


def recovering(
    airplane: Airplane,
    *,
    start: Sequence[Number],
    controls: Controls,
    held: Controls,
    stall_m_s: Number,
    reaction_s: float,
    functions: PilotFunctions = ONE,
) -> ControlLaw:
    """Return the law of a pilot who, after a time of reaction, unloads, opens the throttle, and levels wings and nose.

    Parameters
    ----------
    airplane : Airplane
        Whose derivatives give the pilot's gains.
    start : sequence of 14 floats
        Steady flight from which the stall was entered.
    controls, held : Controls
        In it, and where they were when the wing stalled.
    stall_m_s : float
        Speed of the stall with the wings level. [m/s]
    reaction_s : float
        Time for which the controls stay where they were. [s]
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.
    """
    k, gravity, still = _gains(airplane, start, functions), airplane.gravity_m_s2, (0.0,) * INTEGRATORS
    wings, smaller = wings_held(airplane, start, 0.0, functions), functions.smaller

    def law(t: float, now: Numbers, rates: Numbers, integrals: Numbers) -> tuple[Numbers, Numbers]:
        if t < reaction_s:
            return held[:4], still
        u, v, w, _, q, _ = now[7:13]
        most = SPARED * (u * u + v * v + w * w) / stall_m_s**2
        wished = 1.0 + functions.larger(-MOST_PULL, smaller(MOST_PULL, CLIMB_PER_S * rates[2] / gravity))
        aileron, rudder, errors = wings(now, rates, integrals)
        settings = (
            controls.elevator_rad + k.elevator_gain * (1.0 - smaller(wished, most)) + DAMPING * q,
            controls.aileron_rad + aileron,
            controls.rudder_rad + rudder,
            1.0,
        )
        return settings, errors

    return law


def _gains(airplane: Airplane, state: Sequence[Number], functions: PilotFunctions) -> Gains:
    speed = functions.sqrt(state[7] ** 2 + state[8] ** 2 + state[9] ** 2)
    return gains(airplane, speed_m_s=speed, altitude_m=-state[2], functions=functions)


def wings_held(
    airplane: Airplane, state: Sequence[Number], bank_rad: Number, functions: PilotFunctions
) -> Callable[[Numbers, Numbers, Numbers], tuple[Number, Number, Numbers]]:
    """Return the function (state, rates, integrals) -> aileron, rudder that hold bank and ball, rates of integrals.

    Parameters
    ----------
    airplane : Airplane
        Whose derivatives give the pilot's gains.
    state : sequence of 14 floats
        Steady flight that they are those of.
    bank_rad : float
        Held, right wing down positive. [rad]
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.
    """
    k, gravity = _gains(airplane, state, functions), airplane.gravity_m_s2

    def hold(now: Numbers, rates: Numbers, integrals: Numbers) -> tuple[Number, Number, Numbers]:
        _, _, _, e0, e1, e2, e3, u, v, w, p, _, r, _ = now
        down_y = 2.0 * (e2 * e3 + e0 * e1)
        bank = functions.atan2(down_y, e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3)
        ball = (rates[8] - p * w + r * u) / gravity - down_y
        error = bank_rad - bank
        turning = gravity * functions.sin(bank) / functions.sqrt(u * u + v * v + w * w)
        aileron = k.aileron_gain * (DAMPING * p - error - 0.2 * integrals[3])
        rudder = k.rudder_gain * (0.3 * ball + integrals[1]) + k.yaw_gain * (r - turning)
        near = functions.either(abs(error) < INTEGRATED_BANK_RAD, error, 0.0)
        return aileron, rudder + k.rudder_per_aileron * aileron, (0.0, ball, 0.0, near)

    return hold
