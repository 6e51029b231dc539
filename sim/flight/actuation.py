"""Flight with moving controls: each follows its command with a lag, at a limited rate and between its stops."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.history import History, load_factors
from sim.flight.motion import Airplane, Controls, motion_of_floats
from sim.flight.pilot_functions import ONE
from sim.numerics.ode import march

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.flight.pilot_functions import PilotFunctions
    from sim.numerics.number import Number

    Numbers = tuple[float, ...]
    Rates = Callable[[Number, Controls], tuple[Number, ...]]
    ControlLaw = Callable[[float, Numbers, Numbers, Numbers], tuple[Numbers, Numbers]]
    """(t, state, rates, integrals) -> (commanded elevator, aileron, rudder, throttle), (rates of the integrals)."""

LAG_S: Final = 0.1
"""Time constant of the pilot's arms and legs, after the decision: common practice is 0.1 to 0.2 s."""
STOP_TO_STOP_S: Final = 0.8
"""Least time of a stick or pedal movement from stop to stop: common practice for unboosted controls in flight."""
THROTTLE_LAG_S: Final = 0.02
THROTTLE_TRAVEL_S: Final = 0.1
"""Least time from closed to open throttle; an ignition cut is as quick."""
LOOKED_AT: Final = 20
INTEGRATORS: Final = 4
"""Integrals available to a control law: of the errors in height, sideslip, speed and bank."""


def fly(
    airplane: Airplane,
    travel: Travel,
    law: ControlLaw,
    *,
    state: Sequence[float],
    controls: Controls,
    times_s: NDArray[np.float64],
    breakpoints_s: Sequence[float] = (),
    rates: Rates | None = None,
    enough: Callable[[NDArray[np.float64]], bool] | None = None,
) -> History:
    """Return the flight in which the controls follow the commands of a control law.

    Parameters
    ----------
    airplane : Airplane
    travel : Travel
        Stops of the controls; a movement from one to the other takes at least `STOP_TO_STOP_S`.
    law : function
        (t, state, rates, integrals) -> (elevator, aileron, rudder, throttle), (rates of the integrals).
    state : sequence of 14 floats
        At the start.
    controls : Controls
        At the start.
    times_s : array
        Ascending, beginning with the start. [s]
    breakpoints_s : sequence of float
        Times at which the commands are discontinuous. [s]
    rates : function
        (state, controls) -> rates of the state; None for those of free flight.
    enough : function
        (states so far, a row each time) -> whether the flight may end here, before the last of the times. Asked every
        `LOOKED_AT` times; the rows begin with 14 of the airplane and 4 controls.

    Raises
    ------
    NoAnswerError
        Where the state diverges; names the time reached.
    """
    moves = motion_of_floats(airplane) if rates is None else rates
    f = closed_loop(airplane, travel, law, moves)
    start = initial_state(state, controls)
    states = []
    for state_then in march(f, start, times_s, rtol=1e-7, atol=1e-7, breakpoints_s=breakpoints_s):
        states.append(state_then)
        if enough and len(states) % LOOKED_AT == 0 and enough(np.array(states)):
            break
    flown, times_s = np.array(states), times_s[: len(states)]
    factors = load_factors(airplane, flown[:, :14], flown[:, 14:18], moves)
    return _history(factors, travel, times_s, flown)


def initial_state(state: Sequence[float], controls: Controls) -> Numbers:
    """Return the state of the closed loop at the start: 14 of the airplane, 4 controls, `INTEGRATORS` zeros."""
    return (*map(float, state), *(float(c) for c in controls[:4]), *([0.0] * INTEGRATORS))


def closed_loop(
    airplane: Airplane, travel: Travel, law: ControlLaw, moves: Rates | None = None
) -> Callable[[float, Numbers], Numbers]:
    """Return f(t, y), the rates of airplane, controls and integrals; y as `initial_state` orders it."""
    rates = motion_of_floats(airplane) if moves is None else moves
    follow = hands(travel, law)

    def f(t: float, y: Numbers) -> Numbers:
        state_rates = rates(y[:14], Controls(*y[14:18]))
        return (*state_rates, *follow(t, y, state_rates))

    return f


def hands(
    travel: Travel, law: ControlLaw, functions: PilotFunctions = ONE
) -> Callable[[float, Numbers, Numbers], Numbers]:
    """Return the function (t, y, rates of the state) -> rates of controls and integrals, of the closed loop."""
    low, high, fastest = limits(travel)
    larger, smaller = functions.larger, functions.smaller

    def follow(t: float, y: Numbers, state_rates: Numbers) -> Numbers:
        commands, integral_rates = law(t, y[:14], state_rates, y[18:])
        position_rates = (
            larger(-quick, smaller(quick, (larger(least, smaller(most, command)) - x) / lag))
            for command, x, least, most, quick, lag in zip(commands, y[14:18], low, high, fastest, LAGS, strict=True)
        )
        return (*position_rates, *integral_rates)

    return follow


LAGS: Final = (LAG_S, LAG_S, LAG_S, THROTTLE_LAG_S)
"""Of elevator, aileron, rudder and throttle. [s]"""


def limits(travel: Travel) -> tuple[Numbers, Numbers, Numbers]:
    """Return the lower and upper stops and the greatest rates of elevator, aileron, rudder and throttle."""
    low = (-travel.elevator_up_rad, -travel.aileron_rad, -travel.rudder_rad, 0.0)
    high = (travel.elevator_down_rad, travel.aileron_rad, travel.rudder_rad, 1.0)
    times = (STOP_TO_STOP_S, STOP_TO_STOP_S, STOP_TO_STOP_S, THROTTLE_TRAVEL_S)
    return low, high, tuple((b - a) / s for a, b, s in zip(low, high, times, strict=True))


def _history(
    factors: tuple[NDArray[np.float64], NDArray[np.float64]],
    travel: Travel,
    times_s: NDArray[np.float64],
    flown: NDArray[np.float64],
) -> History:
    """Return the record of a flight from its load factors and the states of the closed loop, shape (m, n)."""
    upward, rightward = factors
    fastest = np.array(limits(travel)[2][:3])
    rates = np.abs(np.diff(flown[:, 14:17], axis=0)) / np.diff(times_s)[:, None]
    limited = (rates > 0.98 * fastest).any(axis=1)
    elevator, aileron, rudder, throttle = flown[:, 14:18].T
    return History(
        time_s=times_s,
        state=flown[:, :14].T,
        elevator_rad=elevator,
        aileron_rad=aileron,
        rudder_rad=rudder,
        throttle=throttle,
        load_factor=upward,
        side_load_factor=rightward,
        rate_limited_s=float(np.diff(times_s)[limited].sum()),
    )
