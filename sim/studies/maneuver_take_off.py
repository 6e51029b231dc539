"""The take-off of each powerplant as a flight in time: from standstill over the tail coming up to the climb."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import refuse
from sim.flight.actuation import fly
from sim.flight.ground_contact import grounded, load_n, three_wheels
from sim.flight.motion import Controls
from sim.flight.take_off import STAND_M_S
from sim.flight.take_off_law import HELD_BACK, RAISING_S, ROTATING_S, TakeOffSpeeds, take_off_law
from sim.studies.field_place import CLIMB_OUT, FieldPlace, demand_run, raising_swing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.flight.ground_contact import Rates, Wheel
    from sim.flight.history import History
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.field_place import TakeOff

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class TakenOff:
    """A take-off.

    Attributes
    ----------
    history : History
        Towards north, the field at the altitude of the airplane's derivatives.
    climb_m_s : float
        Airspeed of the climb that the pilot holds. [m/s]
    field_lift_off_m_s, field_run_m : float
        Lift-off and run by `sim.studies.field`, in whose bands these stand. [m/s, m]
    field_rudder_share : float or None
        Likewise its rudder of the travel while the tail comes up, left positive; None where it is not raised.
    lift_off_s, lift_off_m_s, ground_run_m : float or None
        Until the last wheel leaves the ground, and airspeed there; None where it does not in that time. [s, m/s, m]
    """

    history: History
    climb_m_s: float
    field_lift_off_m_s: float
    field_run_m: float
    field_rudder_share: float | None
    lift_off_s: float | None = None
    lift_off_m_s: float | None = None
    ground_run_m: float | None = None


NUMBERS = tuple(one.name for one in fields(TakenOff) if one.name != "history")
"""Of a take-off, as `ManeuverFlight` has them."""


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
    On the wheels the loads are those of attached flow, as in the run of `field`: at rest in the slipstream the strips
    are held against nothing. From where the nose comes up they are those of the strips, which follow a stall; there
    both give the same accelerations to a hundredth of their size.
    """
    place = _place(model, flying)
    off = place.take_off(RAISING_S)
    demand_run(off.run, flying.name)
    gear = replace(place.gear, ahead_m=float(place.gear.ahead_m[0]), tail_m=float(place.gear.tail_m[0]))
    ground = place.ground
    ground = replace(ground, friction=float(ground.friction[0]), tail_friction=float(ground.tail_friction[0]))
    wheels = three_wheels(gear, ground, float(place.mass_kg[0]))
    by, altitude_m = _speeds(place, off), flying.altitude_m
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
        rates=take_off_rates(flying, wheels, by.rotate_m_s),
    )
    share = float(np.ravel(raising_swing(place, off, RAISING_S).raising_share)[0])
    found = TakenOff(
        history,
        climb_m_s=by.climb_m_s,
        field_lift_off_m_s=float(place.lift_off_m_s[0]),
        field_run_m=float(off.run.distance_m[0]),
        field_rudder_share=share if math.isfinite(share) else None,
    )
    return _ended(found, wheels, altitude_m)


def take_off_rates(flying: FlyingAirplane, wheels: tuple[Wheel, ...], from_m_s: float) -> Rates:
    """Return (state, controls) -> rates of the 14 states: attached flow below an airspeed, strips from there on.

    Parameters
    ----------
    flying : FlyingAirplane
        At the altitude of the field.
    wheels : tuple of Wheel
    from_m_s : float
        That airspeed. [m/s]
    """
    rolls, flies = (grounded(one, wheels, flying.altitude_m) for one in (flying.airplane, flying.flown))

    def rates(state: Sequence[float], controls: Controls) -> tuple[float, ...]:
        return (rolls if math.hypot(*state[7:10]) < from_m_s else flies)(state, controls)

    return rates


def _place(model: Model, flying: FlyingAirplane) -> FieldPlace:
    stands = model.stance()
    if stands is None or not stands.tail_wheel:
        refuse("weighing.support", "must place two main wheels and a tail wheel or skid behind them, to stand on")
    return FieldPlace(model, flying, stands, surface="short grass", headwind_m_s=0.0)


def _speeds(place: FieldPlace, off: TakeOff) -> TakeOffSpeeds:
    """Return what the pilot flies by: speeds and attitudes of the run of `field`; the climb's by its excess thrust.

    The nose begins to come up as long before the speed of lift-off as it takes.
    """
    lift_off, up = float(place.lift_off_m_s[0]), float(off.tail_up_m_s[0])
    climb = max(CLIMB_OUT * float(place.stall_m_s[0]), lift_off)
    on_wheels = place.gear.tail_down_rad if math.isnan(up) else 0.0
    gaining = float(place.wheels(1.0).rolling(np.array([lift_off]), on_wheels, Controls(throttle=1.0)).pull_n[0])
    rises = float(place.gradient(np.array([climb]), 1.0)[0])
    return TakeOffSpeeds(
        tail_up_m_s=math.inf if math.isnan(up) else up,
        rotate_m_s=lift_off - ROTATING_S * gaining / float(place.mass_kg[0]),
        climb_m_s=climb,
        raising_s=RAISING_S,
        tail_down_rad=place.gear.tail_down_rad,
        lift_off_rad=min(_alpha_rad(place, lift_off), place.gear.tail_down_rad),
        climb_rad=_alpha_rad(place, climb) + math.asin(max(-0.5, min(0.5, rises))),
    )


def _alpha_rad(place: FieldPlace, speed_m_s: float) -> float:
    """Return the angle of attack at which the wing carries the weight at an airspeed [rad]."""
    polar = place.airplane.polar
    lift = float(place.weight_n[0]) / (0.5 * place.density * speed_m_s**2 * polar.area_m2)
    return float((lift - polar.lift_zero) / place.airplane.derivatives.lift_alpha)


def _ended(off: TakenOff, wheels: tuple[Wheel, ...], altitude_m: float) -> TakenOff:
    """Return the take-off with time, airspeed and place of the last load on a wheel."""
    times_s, state = off.history.time_s, off.history.state
    loaded = [any(load_n(wheel, one, altitude_m) > 0.0 for wheel in wheels) for one in state.T.tolist()]
    free = int(np.flatnonzero(loaded)[-1]) + 1
    if free >= len(loaded):
        return off
    speed_m_s = float(np.linalg.norm(state[7:10, free]))
    return replace(off, lift_off_s=float(times_s[free]), lift_off_m_s=speed_m_s, ground_run_m=float(state[0][free]))
