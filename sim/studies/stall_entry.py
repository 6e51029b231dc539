"""One stall: flown into at a power and a bank, what the airplane does by itself, and the height of a recovery."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.atmosphere import air
from sim.flight.actuation import fly
from sim.flight.motion import Controls
from sim.flight.pilot_functions import ONE
from sim.flight.separation import separation, stalled
from sim.flight.trim import steady_turns
from sim.studies.stall_legs import SAMPLE_S, Entered
from sim.studies.stall_numbers import StallCurve, joined, stall_curve, stall_numbers, unrolled
from sim.studies.turns import idle_throttle, straight

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.history import History
    from sim.flight.separation import Stalled
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.studies.turns import Power

    Numbers = NDArray[np.float64]

PULL_S: Final = 25.0
"""Time in which the stick comes back from trim to its stop: the speed falls by 1 to 6 knots a second at the stall, an
accelerated entry, and the wing lets go with the nose still rising. With 60 s it falls by one or two, without power."""
APPROACH: Final = 1.25
"""Speed from which a stall is entered, over that of the stall at the same bank."""
LONGEST: Final = 1.2
"""Time in which a stall is looked for, over that of the pull."""


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
    load_factor : float or None
        There. A speed over the root of it is that of the same lift at load factor 1.
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
    most_bank_deg : float or None
        Steepest bank from the stall until the pilot, once he reacts, has stopped the roll; right wing down positive.
        What he rolls back is no part of it. [°]
    pitch_deg : float or None
        Lowest pitch attitude of the recovery. [°]
    height_lost_m : float or None
        From the stall to the lowest point of the recovery; None where it still descends at the end. [m]
    stall_low_m_s, stall_high_m_s, roll_low_deg, roll_high_deg, most_bank_low_deg, most_bank_high_deg,
    height_lost_low_m, height_lost_high_m : float or None
        Ends of the 90 % bands; None where none were asked for. [m/s, °, °, m]
    stalled_probability : float or None
        Of the airplanes drawn, the share that stalls so and does not diverge.
    curve : StallCurve or None
        The flight; None where it does not stall.
    """

    power: Power
    bank_deg: float
    stall_m_s: float | None = None
    load_factor: float | None = None
    slowing_m_s2: float | None = None
    alpha_deg: float | None = None
    elevator_share: float | None = None
    warning_m_s: float | None = None
    first_panel: str = ""
    roll_deg: float | None = None
    most_bank_deg: float | None = None
    pitch_deg: float | None = None
    height_lost_m: float | None = None
    stall_low_m_s: float | None = None
    stall_high_m_s: float | None = None
    roll_low_deg: float | None = None
    roll_high_deg: float | None = None
    most_bank_low_deg: float | None = None
    most_bank_high_deg: float | None = None
    height_lost_low_m: float | None = None
    height_lost_high_m: float | None = None
    stalled_probability: float | None = None
    curve: StallCurve | None = None


@dataclass(frozen=True, slots=True)
class StallFlight:
    """Record of one stall: the approach up to the break, and what follows.

    Attributes
    ----------
    entry : StallEntry
        Its numbers.
    columns : dict of array
        Of `sim.studies.maneuver_history.history_columns`, with the time from the stall, 0 there, and a bank that goes
        on past 180°; empty where it does not stall.
    """

    entry: StallEntry
    columns: dict[str, Numbers]


def level_stall_m_s(flying: FlyingAirplane) -> Any:  # noqa: ANN401
    """Return the stalling speed in level flight without power [m/s]; an array of an airplane that is many."""
    airplane = flying.airplane
    weight_n = airplane.body.mass_kg * airplane.gravity_m_s2
    return airplane.polar.stall_m_s(weight_n, air(flying.altitude_m).density_kg_m3)


def throttles(flying: FlyingAirplane) -> dict[Power, float]:
    """Return the throttle of each power: of idle on the ground, of level flight at the speed of `flying`, and full.

    Raises
    ------
    NoAnswerError
        Where it does not fly level at that speed.
    """
    return {"idle": float(idle_throttle(flying)), "cruise": float(straight(flying).throttle[0]), "full": 1.0}


def stall_flight(
    flying: FlyingAirplane, power: Power, bank_deg: float, *, throttle: float, reaction_s: float, pull_s: float = PULL_S
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
    pull_s : float
        Time in which the stick comes back from trim to its stop. [s]

    Raises
    ------
    InputError
        Where the air loads of its flights are linear.
    NoAnswerError
        Where it diverges.
    """
    nothing = StallFlight(StallEntry(power, bank_deg), {})
    bank_rad = math.radians(bank_deg)
    start = approach(flying, bank_rad, throttle)
    if math.isnan(start.alpha_rad[0]):
        return nothing
    entered = _entered(flying, start, bank_rad, pull_s)
    met = _met(entered)
    if met is None:
        return nothing
    before, found = met
    at = found.at
    elevator, aileron, rudder = (float(each[at]) for each in before.controls[:3])
    held = Controls(elevator, aileron, rudder, entered.controls.throttle)
    after = entered.recovered(before.state[:, at].tolist(), held, reaction_s)
    columns, elevator_rad = unrolled(joined(before, at, after)), float(before.elevator_rad[at])
    speed = columns["speed_m_s"]
    second = max(0, at - round(1.0 / SAMPLE_S))
    travel_rad = flying.travel.elevator_up_rad if elevator_rad < 0.0 else flying.travel.elevator_down_rad
    from_stall = stall_numbers({name: values[at:] for name, values in columns.items()}, reaction_s)
    numbers = {name: float(value) for name, value in from_stall.items()}
    entry = StallEntry(
        power,
        bank_deg,
        **{name: value if math.isfinite(value) else None for name, value in numbers.items()},
        slowing_m_s2=float((speed[second] - speed[at]) / (before.time_s[at] - before.time_s[second])),
        elevator_share=-elevator_rad / travel_rad,
        warning_m_s=float(speed[min(found.first, at)] - speed[at]),
        first_panel=found.panel,
        curve=stall_curve(columns, at),
    )
    return StallFlight(entry, columns)


def approach(flying: FlyingAirplane, bank_rad: Any, throttle: Any) -> Turns:  # noqa: ANN401
    """Return the steady flight at a throttle and a bank from which a stall is entered; of many where `flying` is many.

    Parameters
    ----------
    flying : FlyingAirplane
        The airplane.
    bank_rad : float or array
        Right wing down positive. [rad]
    throttle : float or array
        See `throttles`.
    """
    return steady_turns(
        flying.airplane,
        speed_m_s=APPROACH * level_stall_m_s(flying) / np.sqrt(np.cos(bank_rad)),
        altitude_m=flying.altitude_m,
        bank_rad=bank_rad,
        throttle=throttle,
    )


def _entered(flying: FlyingAirplane, start: Turns, bank_rad: float, pull_s: float) -> Entered:
    return Entered(
        airplane=flying.flown,
        travel=flying.travel,
        state=tuple(start.state[:, 0].tolist()),
        controls=start.controls(0),
        bank_rad=bank_rad,
        level_stall_m_s=level_stall_m_s(flying),
        pull_s=pull_s,
        fly=fly,
        functions=ONE,
    )


def _met(entered: Entered) -> tuple[History, Stalled] | None:
    """Return the flight into the stall, and where in it the wing stalls; None where it does not."""

    def stalls(state: Numbers, controls: Controls) -> Stalled | None:
        return stalled(separation(entered.airplane, state, controls))

    flown = entered.approached(LONGEST, enough=lambda rows: stalls(rows.T[:14], Controls(*rows.T[14:18])) is not None)
    found = stalls(flown.state, flown.controls)
    return (flown, found) if found else None
