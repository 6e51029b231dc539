"""Flights for the viewer: one airplane, flown a fixed step at a time by a visitor's stick or through a maneuver."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError
from sim.flight.actuation import INTEGRATORS, closed_loop, initial_state
from sim.flight.maneuver import MANEUVERS, ManeuverName, plan
from sim.flight.validity import measures, passed
from sim.numerics.ode import rk4_step
from sim.rotor.couple import couple
from sim.studies.turns import flown_turns
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.actuation import ControlLaw
    from sim.flight.motion import Controls
    from sim.model.airplane import FlyingAirplane
    from sim.numerics.number import Number

    State = tuple[float, ...]

SCRIPTS: dict[str, tuple[ManeuverName, float]] = {
    "turn-right": ("turn", 1.0),
    "turn-left": ("turn", -1.0),
    "rudder-kick": ("rudder-kick", 1.0),
    "pull": ("pull", 1.0),
    "roll-in": ("roll-in", 1.0),
    "reversal": ("reversal", 1.0),
    "blip": ("blip", 1.0),
}
"""What the viewer shows: its own name -> maneuver and side."""
BANK_RAD = math.radians(45.0)
UNIT = slice(3, 7)
"""Where the quaternion stands in the state."""


@dataclass(frozen=True, slots=True)
class Script:
    """A maneuver of one airplane, ready to be flown.

    Attributes
    ----------
    wanted : function
        What the pilot wants, for `sim.flight.actuation.closed_loop`.
    start : tuple of float
        State of airplane, hands and memory at the start.
    flown_s : float
        How long it is watched. [s]
    """

    wanted: ControlLaw
    start: State
    flown_s: float


@dataclass(frozen=True, slots=True)
class Flyer:
    """An airplane ready to fly, in level flight with its controls set for that.

    Attributes
    ----------
    flying : FlyingAirplane
        The airplane with its engine.
    start : tuple of float
        State of airplane, hands and memory in level flight.
    trim : Controls
        Controls that hold it there.
    scripts : dict of str to Script
        Every maneuver of `SCRIPTS`.
    """

    flying: FlyingAirplane
    start: State
    trim: Controls
    scripts: dict[str, Script]


@dataclass(frozen=True, slots=True)
class FlightReading:
    """What instruments would show.

    Attributes
    ----------
    attitude : tuple of float
        Unit quaternion, body to earth.
    north_m, east_m, altitude_m, speed_m_s : float
        Place over the ground and height above sea level [m]; true airspeed [m/s].
    pitch_n_m, yaw_n_m : float
        Couple of all that spins on the airframe, nose up and nose right positive. [N m]
    pitch_rate_rad_s, yaw_rate_rad_s : float
        Nose up and nose right positive. [rad/s]
    elevator_share, aileron_share, rudder_share : float
        Share of the travel in use, positive as the controls are: nose down, left roll, nose left.
    spin_rad_s : float
        Speed of the shaft, clockwise from the cockpit positive. [rad/s]
    throttle : float
        0 is the ignition cut, 1 full throttle.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes: what is seen is indicative then.
    """

    attitude: tuple[float, float, float, float]
    north_m: float
    east_m: float
    altitude_m: float
    speed_m_s: float
    pitch_n_m: float
    yaw_n_m: float
    pitch_rate_rad_s: float
    yaw_rate_rad_s: float
    elevator_share: float
    aileron_share: float
    rudder_share: float
    spin_rad_s: float
    throttle: float
    beyond: tuple[str, ...]


def flyer(flying: FlyingAirplane) -> Flyer:
    """Return an airplane ready to fly from level flight at its speed and altitude.

    Raises
    ------
    NoAnswerError
        When no controls hold it level, or in the turn that a maneuver begins from.
    """
    start, trim = _steady(flying, 0.0)
    scripts = {called: _script(flying, *which) for called, which in SCRIPTS.items()}
    return Flyer(flying, initial_state(start, trim), trim, scripts)


def _steady(flying: FlyingAirplane, bank_rad: float) -> tuple[State, Controls]:
    found = flown_turns(flying, bank_rad)
    if math.isnan(found.alpha_rad[0]):
        message = (
            f"{flying.name}: no controls hold {brief('bank_rad', bank_rad, digits=3)} of bank at "
            f"{brief('speed_m_s', flying.speed_m_s, digits=3)}; set flight.speed nearer to cruise"
        )
        raise NoAnswerError(message)
    return tuple(found.state[:, 0].tolist()), found.controls(0)


def _script(flying: FlyingAirplane, name: ManeuverName, sign: float) -> Script:
    kind = MANEUVERS[name]
    state, trim = _steady(flying, -sign * BANK_RAD if kind.begins_banked else 0.0)
    ready = plan(
        name,
        flying.airplane,
        flying.travel,
        maneuver=kind,
        sign=sign,
        bank_rad=BANK_RAD,
        state=state,
        controls=trim,
    )
    return Script(ready.control_law, initial_state(state, trim), kind.flown_s)


def by_stick(who: Flyer, stick: Callable[[], tuple[float, float, float, float]]) -> ControlLaw:
    """Return a pilot who holds the controls where a visitor's stick is.

    Parameters
    ----------
    who : Flyer
        Whose travel, and rest in level flight, are meant.
    stick : function
        Returns shares of the travel added to the rest: stick right, stick pulled and right rudder positive, −1..1,
        and the share of full gas added. Hands stop a control at the end of its travel.
    """
    travel, trim = who.flying.travel, who.trim
    idle = (0.0,) * INTEGRATORS

    def wanted(
        t: float,  # noqa: ARG001
        state: State,  # noqa: ARG001
        rates: State,  # noqa: ARG001
        memory: State,  # noqa: ARG001
    ) -> tuple[State, State]:
        roll, pitch, yaw, throttle = stick()
        up_rad = travel.elevator_up_rad if pitch > 0.0 else travel.elevator_down_rad
        aims = (
            trim.elevator_rad - pitch * up_rad,
            trim.aileron_rad - roll * travel.aileron_rad,
            trim.rudder_rad - yaw * travel.rudder_rad,
            trim.throttle + throttle,
        )
        return aims, idle

    return wanted


def pilot_step(who: Flyer, wanted: ControlLaw, step_s: float) -> Callable[[float, State], State]:
    """Return the function (time, state) -> state one fixed step later, by the equations of `sim.flight.motion`.

    Parameters
    ----------
    who : Flyer
        The airplane.
    wanted : function
        What the pilot wants; where it jumps at the end of a step, the step still belongs to what went before.
    step_s : float
        Length of a step. [s]

    Notes
    -----
    The classical Runge–Kutta step; the attitude is kept a unit quaternion.
    """
    flying = who.flying
    f = closed_loop(flying.flown, flying.travel, wanted)

    def later(time_s: float, state: State) -> State:
        last_s = math.nextafter(time_s + step_s, -math.inf)
        moved = rk4_step(lambda t, y: f(min(t, last_s), y), time_s, state, step_s)
        norm = math.sqrt(sum(part * part for part in moved[UNIT]))
        return (*moved[:3], *(part / norm for part in moved[UNIT]), *moved[7:])

    return later


def reading(who: Flyer, state: State) -> FlightReading:
    """Return what instruments would show in a state of airplane and hands."""
    north, east, down, e0, e1, e2, e3, u, v, w, p, q, r, spin, elevator, aileron, rudder, throttle, *_ = state
    swung = couple(spin_momentum(who, p, spin), pitch_rate_rad_s=q, yaw_rate_rad_s=r)
    travel = who.flying.travel
    return FlightReading(
        attitude=(e0, e1, e2, e3),
        north_m=north,
        east_m=east,
        altitude_m=-down,
        speed_m_s=math.sqrt(u * u + v * v + w * w),
        pitch_n_m=swung.pitch_n_m,
        yaw_n_m=swung.yaw_n_m,
        pitch_rate_rad_s=q,
        yaw_rate_rad_s=r,
        elevator_share=elevator / (travel.elevator_up_rad if elevator < 0.0 else travel.elevator_down_rad),
        aileron_share=aileron / travel.aileron_rad,
        rudder_share=rudder / travel.rudder_rad,
        spin_rad_s=spin,
        throttle=throttle,
        beyond=_beyond(who, state),
    )


def _beyond(who: Flyer, state: State) -> tuple[str, ...]:
    column = np.array(state[:15])[:, None]
    found = passed(measures(who.flying.airplane, column[:14], column[14]))
    return tuple(name for name, where in found.items() if where[0])


def full_arrow_n_m(who: Flyer) -> float:
    """Return the couple at the start's spin in a turn of a third of a radian a second: the longest arrow [N m]."""
    momentum = spin_momentum(who, 0.0, who.start[13])
    return abs(couple(momentum, pitch_rate_rad_s=0.0, yaw_rate_rad_s=1.0 / 3.0).couple_n_m)


def spin_momentum(who: Flyer, roll_rate_rad_s: Number, spin_rad_s: Number) -> Number:
    """Return the angular momentum of all that spins along the shaft, clockwise from the cockpit positive [kg m²/s]."""
    rotors = who.flying.airplane.rotors
    return sum(rotor.polar_inertia_kg_m2 * (roll_rate_rad_s + rotor.ratio * spin_rad_s) for rotor in rotors)
