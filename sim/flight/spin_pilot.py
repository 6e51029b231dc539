"""A pilot who crosses the controls of a slow airplane, lets go, recovers from what comes of it and pulls out level."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, NamedTuple

from sim.atmosphere import density_ratio
from sim.flight.actuation import INTEGRATORS
from sim.flight.autopilot import CLIMB_PER_S, DAMPING, gains
from sim.flight.pilot_functions import ONE, PilotFunctions
from sim.flight.stall_pilot import SPARED, wings_held

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.flight.actuation import ControlLaw
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane, Controls
    from sim.numerics.number import Number

    Numbers = tuple[Number, ...]

FREE_S: Final = 2.0
"""Hands and feet off between entry and recovery, the controls where they were in steady flight. [s]"""
FULL_RATE_RAD_S: Final = 0.6
"""Yaw rate at which a recovering pilot has .7 of the rudder against it; with its third power, so that at .2, the yaw
rate of a turn, it is a twenty-fifth. [rad/s]"""
FORWARD_RAD: Final = 0.035
"""Beyond the angle of attack at which attached flow has the greatest lift, at which the stick is half forward."""
FORWARD: Final = 0.5
"""Of the elevator's travel down in the recovery."""
PULL_OUT: Final = 1.0
"""Load factor beyond 1 that is asked for in the pull-out, at most: common practice, no source."""
CLIMB_AWAY: Final = 1.4
"""Airspeed held at the end, over that of the stall."""
LOAD_S: Final = 0.5
"""Time in which the pilot takes out what the load factor still wants. [s]"""
ROUNDED: Final = 0.1
"""Load factor over which the two limits of the pull-out pass into each other: a law without corners keeps the mirror
image of a flight to its last digits."""
STEEP: Final = 0.1
"""Sine of the descent at which the throttle is half closed."""


class Recovery(NamedTuple):
    """What a recovering pilot does: elevator, aileron, rudder, throttle; rates of the integrals."""

    settings: Numbers
    integrals: Numbers


def spin_law(
    airplane: Airplane,
    travel: Travel,
    *,
    sign: Number,
    share: float,
    times_s: tuple[float, float, float],
    start: Sequence[Number],
    controls: Controls,
    functions: PilotFunctions = ONE,
) -> ControlLaw:
    """Return the law: steady, stick back with rudder and opposite aileron, hands off, then recovery controls.

    Parameters
    ----------
    airplane : Airplane
        Whose derivatives give the pilot's gains.
    travel : Travel
        Stops of the controls.
    sign : float
        +1 for rudder to the right and aileron to the left, −1 for the opposite.
    share : float
        Of the aileron's travel against the rudder, 0 to 1.
    times_s : tuple of float
        At which the controls are crossed, let go, and set to recover. [s]
    start : sequence of 14 floats
        Steady flight at the start.
    controls : Controls
        In it.
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.

    Notes
    -----
    Recovery, as taught: throttle closed, ailerons in the middle, full rudder against the yaw until it stops, stick
    forward until the wing flies again. As the rotation stops, pedals to the middle, wings levelled, and a pull-out with
    a load factor of about 2 and four fifths of the greatest lift at most, the throttle opened as the nose comes up,
    into level flight at 1.4 times the speed of the stall.
    """
    crossed, free, recover = times_s
    still = (0.0,) * INTEGRATORS
    entering = (
        -travel.elevator_up_rad,
        sign * share * travel.aileron_rad,
        -sign * travel.rudder_rad,
        controls.throttle,
    )
    recovering = spin_recovery(airplane, travel, start=start, controls=controls, functions=functions)

    def law(t: float, now: Numbers, rates: Numbers, integrals: Numbers) -> tuple[Numbers, Numbers]:
        if t < crossed or free <= t < recover:
            return controls[:4], still
        if t < free:
            return entering, still
        return recovering(now, rates, integrals)

    return law


def spin_recovery(
    airplane: Airplane,
    travel: Travel,
    *,
    start: Sequence[Number],
    controls: Controls,
    pull_out: float = PULL_OUT,
    functions: PilotFunctions = ONE,
) -> Callable[[Numbers, Numbers, Numbers], Recovery]:
    """Return the function (state, rates, integrals) -> controls of the recovery and of the pull-out.

    Parameters
    ----------
    airplane : Airplane
        Whose derivatives give the pilot's gains.
    travel : Travel
        Stops of the controls.
    start : sequence of 14 floats
        Steady flight that the gains belong to.
    controls : Controls
        In it.
    pull_out : float
        Load factor beyond 1 that is asked for in the pull-out, at most.
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.
    """
    polar, slope, sqrt = airplane.polar, airplane.derivatives.lift_alpha, functions.sqrt
    breaks = polar.attached_to_rad(slope)
    wings = wings_held(airplane, start, 0.0, functions)
    pull = _pull_out(airplane, start, controls, most=pull_out, functions=functions)

    def recover(now: Numbers, rates: Numbers, integrals: Numbers) -> Recovery:
        alpha, yaw = functions.atan2(now[9], now[7]), now[12]
        beyond, turning = (alpha - breaks) / FORWARD_RAD - 1.0, (yaw / FULL_RATE_RAD_S) ** 3
        forward, against = 0.5 + 0.5 * beyond / sqrt(1.0 + beyond**2), turning / sqrt(1.0 + turning**2)
        flies = (1.0 - forward) * (1.0 - against**2)
        aileron, rudder, (_, ball, *_) = wings(now, rates, integrals)
        elevator, throttle, short = pull(now, rates, integrals)
        settings = (
            forward * FORWARD * travel.elevator_down_rad + (1.0 - forward) * elevator,
            flies * (controls.aileron_rad + aileron),
            against * travel.rudder_rad + flies * (controls.rudder_rad + rudder),
            flies * throttle,
        )
        return Recovery(settings, (flies * short, flies * ball, 0.0, 0.0))

    return recover


def _pull_out(
    airplane: Airplane, start: Sequence[Number], controls: Controls, *, most: float, functions: PilotFunctions
) -> Callable[[Numbers, Numbers, Numbers], tuple[Number, Number, Number]]:
    """Return the function (state, rates, integrals) -> elevator and throttle of the pull-out, and load wanting."""
    sqrt, gravity, polar = functions.sqrt, airplane.gravity_m_s2, airplane.polar
    begun = start[7] ** 2 + start[8] ** 2 + start[9] ** 2
    k = gains(airplane, speed_m_s=sqrt(begun), altitude_m=-start[2], functions=functions)
    density = airplane.sea_level_density_kg_m3 * density_ratio(-start[2])
    slowest = 2.0 * airplane.body.mass_kg * gravity / (density * polar.area_m2 * polar.lift_max)
    asked_m_s = CLIMB_AWAY * sqrt(slowest)

    def pull(now: Numbers, rates: Numbers, integrals: Numbers) -> tuple[Number, Number, Number]:
        _, _, _, e0, e1, e2, e3, u, v, w, p, q, _, _ = now
        squared = u * u + v * v + w * w
        speed, descent = sqrt(squared), rates[2]
        upright = e0 * e0 - e1 * e1 - e2 * e2 + e3 * e3
        load = upright - (rates[9] + p * v - q * u) / gravity
        falling, borne = CLIMB_PER_S * descent / (most * gravity), SPARED * squared / slowest
        wished = 1.0 + most * falling / sqrt(1.0 + falling**2)
        short = 0.5 * (wished + borne - sqrt((wished - borne) ** 2 + ROUNDED**2)) - load
        short = short / sqrt(1.0 + short**2)
        steep = 4.0 * (descent / (STEEP * speed) - 1.0)
        power = k.throttle_gain * (asked_m_s - speed) + controls.throttle - 0.5
        opened = (0.5 - 0.5 * steep / sqrt(1.0 + steep**2)) * (0.5 + power / sqrt(1.0 + 4.0 * power**2))
        moved = k.elevator_gain * begun / squared * (short + integrals[0] / LOAD_S)
        return controls.elevator_rad - moved + DAMPING * q, opened, short

    return pull
