"""One stall: flown into at a power and a bank, what the airplane does by itself, and the height of a recovery."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.atmosphere import air
from sim.flight.actuation import fly
from sim.flight.motion import Controls
from sim.flight.separation import separation, stalled
from sim.flight.stall_pilot import recovering, slowing
from sim.flight.trim import steady_turns
from sim.studies.bands import drawn_flying, quantiles
from sim.studies.turns import idle_throttle, straight

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.flight.history import History
    from sim.flight.separation import Stalled
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.turns import Power

    Numbers = NDArray[np.float64]

SAMPLE_S: Final = 0.05
APPROACH: Final = 1.25
"""Speed from which a stall is entered, over that of the stall at the same bank."""
LENGTHS_S: Final = (12.0, 30.0)
"""Time in which a stall is looked for, first and then: a longer flight mostly tumbles."""
RECOVERY_S: Final = 14.0


@dataclass(frozen=True, slots=True)
class StallEntry:
    """One stall.

    Attributes
    ----------
    power : str
        ``idle``, ``cruise`` or ``full``: see `throttles`; the throttle stays where it is.
    bank_deg : float
        Held until the stall; right wing down positive. [°]
    stall_m_s : float or None
        Airspeed at which the lift of the wing breaks; None where it does not with the stick all the way back. [m/s]
    stall_low_m_s, stall_high_m_s : float or None
        Ends of its 90 % band: greatest lift and mass. [m/s]
    slowing_m_s2 : float or None
        Speed lost in a second over the last second before it. [m/s²]
    alpha_deg : float or None
        Angle of attack there. [°]
    elevator_share : float or None
        Of its travel there, nose up positive.
    warning_m_s : float or None
        By how much faster it flies when the first strip of the wing separates, which a pilot feels. [m/s]
    first_panel : str
        Plane, side and third of the semi-span of that strip.
    roll_deg : float or None
        Bank gained in the time before the pilot reacts; right wing down positive. [°]
    most_roll_deg : float or None
        Largest change of bank from the stall to the end of the recovery, of a side like `roll_deg`; a turn that is
        levelled counts too. [°]
    pitch_deg : float or None
        Lowest pitch attitude of the recovery. [°]
    height_lost_m : float or None
        From the stall to the lowest point of the recovery. [m]
    """

    power: Power
    bank_deg: float
    stall_m_s: float | None = None
    stall_low_m_s: float | None = None
    stall_high_m_s: float | None = None
    slowing_m_s2: float | None = None
    alpha_deg: float | None = None
    elevator_share: float | None = None
    warning_m_s: float | None = None
    first_panel: str = ""
    roll_deg: float | None = None
    most_roll_deg: float | None = None
    pitch_deg: float | None = None
    height_lost_m: float | None = None


@dataclass(frozen=True, slots=True)
class StallFlight:
    """Record of one stall: the approach up to the break, and what follows.

    Attributes
    ----------
    entry : StallEntry
        Its numbers.
    time_s, bank_deg, alpha_deg, height_m, speed_m_s : array
        Against time from the stall, 0 there; the bank goes on past 180°. [s, °, °, m, m/s]
    """

    entry: StallEntry
    time_s: Numbers
    bank_deg: Numbers
    alpha_deg: Numbers
    height_m: Numbers
    speed_m_s: Numbers


def level_stall_m_s(flying: FlyingAirplane) -> float:
    """Return the stalling speed in level flight without power [m/s]."""
    airplane = flying.airplane
    weight_n = airplane.body.mass_kg * airplane.gravity_m_s2
    density = air(flying.altitude_m).density_kg_m3
    return math.sqrt(2.0 * weight_n / (density * airplane.polar.area_m2 * airplane.polar.lift_max))


def throttles(flying: FlyingAirplane) -> dict[Power, float]:
    """Return the throttle of each power: of idle on the ground, of level flight at the speed of `flying`, and full.

    Raises
    ------
    NoAnswerError
        Where it does not fly level at that speed.
    """
    return {"idle": float(idle_throttle(flying)), "cruise": float(straight(flying).throttle[0]), "full": 1.0}


def stall_flight(
    flying: FlyingAirplane, power: Power, bank_deg: float, *, throttle: float, reaction_s: float
) -> StallFlight:
    """Return one stall of an airplane with strips.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, powerplant and altitude.
    power : str
        That is left set.
    bank_deg : float
        Held until the stall. [°]
    throttle : float
        That setting: see `throttles`.
    reaction_s : float
        Time for which the controls then stay where they are, before the recovery. [s]

    Raises
    ------
    InputError
        Where the air loads of its flights are linear.
    NoAnswerError
        Where it diverges.
    """
    nothing = StallFlight(StallEntry(power, bank_deg), *(np.empty(0) for _ in range(5)))
    bank_rad = math.radians(bank_deg)
    start = steady_turns(
        flying.airplane,
        speed_m_s=APPROACH * level_stall_m_s(flying) / math.sqrt(math.cos(bank_rad)),
        altitude_m=flying.altitude_m,
        bank_rad=bank_rad,
        throttle=throttle,
    )
    if math.isnan(start.alpha_rad[0]):
        return nothing
    state, controls = tuple(start.state[:, 0].tolist()), start.controls(0)
    met = _approached(flying, state, controls, bank_rad)
    if met is None:
        return nothing
    flown, found = met
    after = _recovered(flying, flown, found.at, start=(state, controls), reaction_s=reaction_s)
    columns = _columns(flown, found.at, after)
    entry = _numbers(StallEntry(power, bank_deg), columns, after, at=found.at, reaction_s=reaction_s)
    speed, elevator_rad = columns[4], float(flown.elevator_rad[found.at])
    travel_rad = flying.travel.elevator_up_rad if elevator_rad < 0.0 else flying.travel.elevator_down_rad
    told = replace(
        entry,
        elevator_share=-elevator_rad / travel_rad,
        warning_m_s=float(speed[min(found.first, found.at)] - speed[found.at]),
        first_panel=found.panel,
    )
    return StallFlight(told, *columns)


def _approached(
    flying: FlyingAirplane, state: Sequence[float], controls: Controls, bank_rad: float
) -> tuple[History, Stalled] | None:
    """Return the flight into the stall, and where in it the wing stalls; None where it does not."""
    law = slowing(flying.airplane, flying.travel, state=state, controls=controls, bank_rad=bank_rad)
    for length_s in LENGTHS_S:
        times = np.arange(0.0, length_s, SAMPLE_S)
        flown = fly(flying.flown, flying.travel, law, state=state, controls=controls, times_s=times)
        found = stalled(separation(flying.flown, flown))
        if found:
            return flown, found
    return None


def _recovered(
    flying: FlyingAirplane, flown: History, at: int, *, start: tuple[Sequence[float], Controls], reaction_s: float
) -> History:
    """Return the flight from the stall on."""
    state, controls = start
    elevator, aileron, rudder = (float(each[at]) for each in (flown.elevator_rad, flown.aileron_rad, flown.rudder_rad))
    held = Controls(elevator, aileron, rudder, controls.throttle)
    law = recovering(
        flying.airplane,
        start=state,
        controls=controls,
        held=held,
        stall_m_s=level_stall_m_s(flying),
        reaction_s=reaction_s,
    )
    return fly(
        flying.flown,
        flying.travel,
        law,
        state=flown.state[:, at].tolist(),
        controls=held,
        times_s=np.arange(0.0, RECOVERY_S, SAMPLE_S),
        breakpoints_s=(reaction_s,) if reaction_s else (),
    )


def _columns(before: History, at: int, after: History) -> tuple[Numbers, ...]:
    """Return time from the break, bank, angle of attack, height and speed of both parts of a flight in one."""
    state = np.concatenate([before.state[:, :at], after.state], axis=1)
    time_s = np.concatenate([before.time_s[:at] - before.time_s[at], after.time_s])
    e0, e1, e2, e3, u, v, w = state[3:10]
    bank = np.unwrap(np.arctan2(2.0 * (e2 * e3 + e0 * e1), e0**2 - e1**2 - e2**2 + e3**2))
    return time_s, np.degrees(bank), np.degrees(np.arctan2(w, u)), -state[2], np.sqrt(u * u + v * v + w * w)


def _numbers(
    entry: StallEntry, columns: Sequence[Numbers], after: History, *, at: int, reaction_s: float
) -> StallEntry:
    time_s, bank, alpha, height, speed = columns
    e0, e1, e2, e3 = after.state[3:7]
    reacted = int(np.searchsorted(time_s, reaction_s))
    before = max(0, at - round(1.0 / SAMPLE_S))
    return replace(
        entry,
        stall_m_s=float(speed[at]),
        slowing_m_s2=float((speed[before] - speed[at]) / (time_s[at] - time_s[before])),
        alpha_deg=float(alpha[at]),
        roll_deg=float(bank[reacted] - bank[at]),
        most_roll_deg=float((bank[at:] - bank[at])[np.argmax(np.abs(bank[at:] - bank[at]))]),
        pitch_deg=float(np.degrees(np.arcsin(np.clip(2.0 * (e0 * e2 - e3 * e1), -1.0, 1.0))).min()),
        height_lost_m=float(height[at] - height[at:].min()),
    )


def banded(model: Model, flying: FlyingAirplane, entries: Sequence[StallEntry], seed: int) -> tuple[StallEntry, ...]:
    """Return stalls with the 90 % bands of their speeds, from those of greatest lift and mass.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        The airplane.
    entries : sequence of StallEntry
        Of it.
    seed : int
        Of the draws.

    Notes
    -----
    A stalling speed goes as the root of mass over greatest lift, at any power and bank.
    """
    drawn, own = drawn_flying(model, flying, seed).airplane, flying.airplane
    heavier, lifting = drawn.body.mass_kg / own.body.mass_kg, drawn.polar.lift_max / own.polar.lift_max
    low, high = map(float, quantiles(np.sqrt(np.asarray(heavier / lifting, float))))
    return tuple(
        replace(one, stall_low_m_s=low * one.stall_m_s, stall_high_m_s=high * one.stall_m_s) if one.stall_m_s else one
        for one in entries
    )
