"""The take-off of each powerplant as a flight in time: from standstill over the tail coming up to the climb."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError, refuse
from sim.flight.actuation import fly
from sim.flight.ground_contact import grounded, load_n, three_wheels
from sim.flight.motion import Controls
from sim.flight.take_off import STAND_M_S
from sim.flight.take_off_law import HELD_BACK, TakeOffSpeeds, take_off_law
from sim.studies.field_place import CLIMB_OUT, RAISED_FROM, FieldPlace, demand_run

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.ground_contact import Wheel
    from sim.flight.history import History
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model

    Array = NDArray[np.float64]

RAISING_S = 2.0
"""Time in which the tail comes up."""
SURFACE = "short grass"


@dataclass(frozen=True, slots=True)
class TakenOff:
    """A take-off.

    Attributes
    ----------
    history : History
        Towards north, the field at the altitude of the airplane's derivatives.
    lift_off_s, ground_run_m : float or None
        Until the last wheel leaves the ground; None where it does not in that time. [s, m]
    """

    history: History
    lift_off_s: float | None
    ground_run_m: float | None


def taken_off(model: Model, flying: FlyingAirplane, times_s: Array) -> TakenOff:
    """Return the take-off with one powerplant.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        At the altitude of the field.
    times_s : array
        Of the history. [s]

    Raises
    ------
    InputError
        Where the scenario does not say how the airplane stands on main wheels and a tail wheel or skid.
    NoAnswerError
        Where it does not lift off, or its flight diverges.

    Notes
    -----
    Loads of attached flow, as those of the run of `field`: strips are loads of flight, and at rest in the slipstream
    they are held against nothing.
    """
    place = _place(model, flying)
    try:
        demand_run(place.take_off(RAISING_S).run)
    except NoAnswerError as error:
        message = f"{flying.name}: {error}"
        raise NoAnswerError(message) from None
    gear = replace(place.gear, ahead_m=float(place.gear.ahead_m[0]), tail_m=float(place.gear.tail_m[0]))
    ground = place.ground
    ground = replace(ground, friction=float(ground.friction[0]), tail_friction=float(ground.tail_friction[0]))
    wheels = three_wheels(gear, ground, float(place.mass_kg[0]))
    by, altitude_m = _speeds(place), flying.altitude_m
    back = Controls(elevator_rad=-HELD_BACK * flying.travel.elevator_up_rad, throttle=1.0)
    below_m, half = gear.at(gear.tail_down_rad)[1], 0.5 * gear.tail_down_rad
    attitude = (math.cos(half), 0.0, math.sin(half), 0.0)
    rolling = (STAND_M_S * math.cos(2.0 * half), 0.0, STAND_M_S * math.sin(2.0 * half), 0.0, 0.0, 0.0)
    spin = float(place.spin(np.array([STAND_M_S]), 1.0)[0])
    history = fly(
        flying.airplane,
        flying.travel,
        take_off_law(flying.airplane, flying.travel, by, altitude_m),
        state=(0.0, 0.0, -altitude_m - below_m, *attitude, *rolling, spin),
        controls=back,
        times_s=times_s,
        rates=grounded(flying.airplane, wheels, altitude_m),
    )
    return _ended(history, wheels, altitude_m)


def _place(model: Model, flying: FlyingAirplane) -> FieldPlace:
    stands = model.stance()
    if stands is None or not stands.tail_wheel:
        refuse("weighing.support", "must place two main wheels and a tail wheel or skid behind them, to stand on")
    return FieldPlace(model, flying, stands, surface="short grass", headwind_m_s=0.0)


def _speeds(place: FieldPlace) -> TakeOffSpeeds:
    """Return the speeds of the take-off; the climb's attitude from lift and excess thrust at its speed."""
    lift_off = float(place.lift_off_m_s[0])
    climb = max(CLIMB_OUT * float(place.stall_m_s[0]), lift_off)
    polar, d = place.airplane.polar, place.airplane.derivatives
    lift = float(place.weight_n[0]) / (0.5 * place.density * climb**2 * polar.area_m2)
    rises = float(place.gradient(np.array([climb]), 1.0)[0])
    return TakeOffSpeeds(
        tail_up_m_s=RAISED_FROM * lift_off,
        lift_off_m_s=lift_off,
        climb_m_s=climb,
        raising_s=RAISING_S,
        tail_down_rad=place.gear.tail_down_rad,
        climb_rad=(lift - polar.lift_zero) / d.lift_alpha + math.asin(max(-0.5, min(0.5, rises))),
    )


def _ended(history: History, wheels: tuple[Wheel, ...], altitude_m: float) -> TakenOff:
    """Return the take-off with the time and place of the last load on a wheel."""
    loaded = [any(load_n(wheel, state, altitude_m) > 0.0 for wheel in wheels) for state in history.state.T.tolist()]
    last = int(np.flatnonzero(loaded)[-1])
    if last + 1 >= len(loaded):
        return TakenOff(history, None, None)
    return TakenOff(history, float(history.time_s[last + 1]), float(history.state[0][last + 1]))
