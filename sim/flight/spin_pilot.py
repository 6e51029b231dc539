"""A pilot who crosses the controls of a slow airplane, lets go, and recovers from what comes of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.flight.actuation import INTEGRATORS
from sim.flight.pilot_functions import ONE, PilotFunctions

if TYPE_CHECKING:
    from sim.flight.actuation import ControlLaw
    from sim.flight.control_travel import Travel
    from sim.flight.motion import Controls
    from sim.numerics.number import Number

    Numbers = tuple[Number, ...]

FREE_S: Final = 2.0
"""Hands and feet off between entry and recovery, the controls where they were in steady flight. [s]"""
FULL_RATE_RAD_S: Final = 0.6
"""Yaw rate from which on a recovering pilot has full rudder against it; below it in proportion. [rad/s]"""
STALLED_RAD: Final = 0.26, 0.17
"""Angle of attack from which on the stick is forward, and below which it is back where it was. [rad]"""
FORWARD: Final = 0.5
"""Of the elevator's travel down in the recovery."""


def spin_law(
    travel: Travel,
    *,
    sign: Number,
    share: float,
    times_s: tuple[float, float, float],
    controls: Controls,
    functions: PilotFunctions = ONE,
) -> ControlLaw:
    """Return the law: steady, stick back with rudder and opposite aileron, hands off, then recovery controls.

    Parameters
    ----------
    travel : Travel
        Stops of the controls.
    sign : float
        +1 for rudder to the right and aileron to the left, −1 for the opposite.
    share : float
        Of the aileron's travel against the rudder, 0 to 1.
    times_s : tuple of float
        At which the controls are crossed, let go, and set to recover. [s]
    controls : Controls
        In steady flight.
    functions : PilotFunctions
        `ONE`, or `MANY` for many flights, whose numbers are arrays.

    Notes
    -----
    Recovery, as taught: throttle closed, ailerons in the middle, full rudder against the yaw until it stops, stick
    forward until the wing flies again, then both back where they were, and the airplane pulls out by its own trim.
    """
    crossed, free, recover = times_s
    still = (0.0,) * INTEGRATORS
    larger, smaller = functions.larger, functions.smaller
    entering = (
        -travel.elevator_up_rad,
        sign * share * travel.aileron_rad,
        -sign * travel.rudder_rad,
        controls.throttle,
    )
    fast, slow = STALLED_RAD

    def law(t: float, now: Numbers, rates: Numbers, integrals: Numbers) -> tuple[Numbers, Numbers]:  # noqa: ARG001
        if t < crossed or free <= t < recover:
            return controls[:4], still
        if t < free:
            return entering, still
        alpha, yaw = functions.atan2(now[9], now[7]), now[12]
        forward = larger(0.0, smaller(1.0, (alpha - slow) / (fast - slow)))
        against = larger(-1.0, smaller(1.0, yaw / FULL_RATE_RAD_S))
        down = FORWARD * travel.elevator_down_rad
        return (
            controls.elevator_rad + forward * (down - controls.elevator_rad),
            0.0 * sign,
            against * travel.rudder_rad,
            0.0 * sign,
        ), still

    return law
