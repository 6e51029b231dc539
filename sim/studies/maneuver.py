"""The same manoeuvre flown with each engine, to both sides: histories, and the numbers that matter."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

import numpy as np

from sim.answer import Answer
from sim.errors import Fault, InputError, did_you_mean
from sim.flight.actuation import fly
from sim.flight.maneuver import MANEUVERS, Maneuver, ManeuverName, adjusted, plan
from sim.flight.turn_limits import MAX_LIFT_RATIO
from sim.model.model import Model
from sim.studies.turns import demand_held, turns

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.history import History
    from sim.model.airplane import FlyingAirplane
    from sim.scenario.tables import Scenario

SAMPLE_S = 0.05
BANK_DEG = 45.0


@dataclass(frozen=True, slots=True)
class Flight:
    """What one flight came to; every excursion is from the start of the manoeuvre.

    Attributes
    ----------
    powerplant, side : str
        Engine, and direction of the manoeuvre; empty where it has none.
    nose_up_deg, nose_down_deg, nose_right_deg, nose_left_deg : float
        Greatest change of pitch attitude and of heading each way, at least 0. [°]
    bank_right_deg, bank_left_deg : float
        Greatest bank each way, at least 0. [°]
    height_lost_m, height_gained_m : float
        At least 0. [m]
    time_to_90_s : float or None
        Until the heading has changed by 90°. [s]
    peak_elevator_share, peak_aileron_share, peak_rudder_share : float
        Greatest share of the travel in use, 0 to 1.
    peak_load_factor : float
        The one farthest from 1.
    peak_sideslip_deg : float
        Greatest size. [°]
    limits : tuple of str
        What a pilot cannot do or the wing cannot give: stops reached, limbs too slow, lift at its greatest.
    """

    powerplant: str
    side: str
    nose_up_deg: float
    nose_down_deg: float
    nose_right_deg: float
    nose_left_deg: float
    bank_right_deg: float
    bank_left_deg: float
    height_lost_m: float
    height_gained_m: float
    time_to_90_s: float | None
    peak_elevator_share: float
    peak_aileron_share: float
    peak_rudder_share: float
    peak_load_factor: float
    peak_sideslip_deg: float
    limits: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ManeuverAnswer(Answer):
    """The answer of ``whirlgate maneuver``.

    Attributes
    ----------
    maneuver, meaning : str
        Its name, and what is done in it.
    speed_m_s, altitude_m : float
        At the start. [m/s, m]
    flights : tuple of Flight
        Powerplant by powerplant, side by side.
    """

    main: ClassVar[str] = "flights"

    maneuver: str
    meaning: str
    speed_m_s: float
    altitude_m: float
    flights: tuple[Flight, ...]


@dataclass(frozen=True, slots=True)
class Flown:
    """An answer with the histories it was read from.

    Attributes
    ----------
    answer : ManeuverAnswer
        In numbers.
    histories : tuple of dict
        For each flight, columns by their name in the vocabulary.
    """

    answer: ManeuverAnswer
    histories: tuple[dict[str, NDArray[np.float64]], ...]


def study(
    scenario: Scenario,
    name: str,
    *,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
    bank_deg: float = BANK_DEG,
    share: float | None = None,
    held_s: float | None = None,
    flown_s: float | None = None,
) -> Flown:
    """Return a manoeuvre flown with every powerplant, to both sides.

    Parameters
    ----------
    scenario : Scenario
        Airplane and engines.
    name : str
        A key of `sim.flight.maneuver.MANEUVERS`.
    speed_m_s, altitude_m : float or None
        None for those of the scenario. [m/s, m]
    bank_deg : float
        That the pilot rolls to in a turn or reversal, above 0 and below 90. [°]
    share, held_s, flown_s : float or None
        Share of the travel used, time it is held and time watched; None for those of the manoeuvre. [–, s, s]

    Raises
    ------
    InputError
        When there is no manoeuvre of that name.
    NoAnswerError
        When there is no steady flight to start from, or a flight runs away.
    """
    if name not in MANEUVERS:
        known = ", ".join(MANEUVERS)
        raise InputError([Fault("NAME", f'must be one of {known}, got "{name}"{did_you_mean(name, MANEUVERS)}')])
    chosen: ManeuverName = name
    kind = adjusted(MANEUVERS[chosen], share=share, held_s=held_s, flown_s=flown_s)
    flying = Model(scenario).airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    told, histories = [], []
    for one in flying:
        for sign, side in zip((1.0, -1.0), kind.sides, strict=False):
            history = _flown(one, chosen, kind, sign=sign, bank_rad=math.radians(bank_deg))
            columns = as_columns(history)
            told.append(_told(one, side, history, columns))
            histories.append(columns)
    meaning = kind.meaning
    answer = ManeuverAnswer(name, meaning, flying[0].speed_m_s, flying[0].altitude_m, tuple(told))
    return Flown(answer, tuple(histories))


def _flown(flying: FlyingAirplane, name: ManeuverName, kind: Maneuver, *, sign: float, bank_rad: float) -> History:
    bank = -sign * bank_rad if kind.begins_banked else 0.0
    start = turns(flying, bank, power="idle" if name == "slam" else None)
    demand_held(flying, start, 0)
    state, controls = tuple(start.state[:, 0].tolist()), start.controls(0)
    ready = plan(
        name,
        flying.airplane,
        flying.travel,
        maneuver=kind,
        sign=sign,
        bank_rad=bank_rad,
        state=state,
        controls=controls,
    )
    times = np.arange(0.0, kind.flown_s + 0.5 * SAMPLE_S, SAMPLE_S)
    return fly(
        flying.airplane,
        flying.travel,
        ready.control_law,
        state=state,
        controls=controls,
        times_s=times,
        breakpoints_s=ready.breakpoints_s,
    )


def as_columns(history: History) -> dict[str, NDArray[np.float64]]:
    """Return a history as columns by their name in the vocabulary, angles in degrees, headings unwrapped."""
    north, east, down, e0, e1, e2, e3, u, v, w, p, q, r, spin = history.state
    speed = np.sqrt(u * u + v * v + w * w)
    heading = np.unwrap(np.arctan2(2.0 * (e1 * e2 + e0 * e3), e0**2 + e1**2 - e2**2 - e3**2))
    return {
        "time_s": history.time_s,
        "north_m": north,
        "east_m": east,
        "altitude_m": -down,
        "speed_m_s": speed,
        "bank_deg": np.degrees(np.arctan2(2.0 * (e2 * e3 + e0 * e1), e0**2 - e1**2 - e2**2 + e3**2)),
        "pitch_deg": np.degrees(np.arcsin(np.clip(2.0 * (e0 * e2 - e1 * e3), -1.0, 1.0))),
        "heading_deg": np.degrees(heading),
        "roll_rate_deg_s": np.degrees(p),
        "pitch_rate_deg_s": np.degrees(q),
        "yaw_rate_deg_s": np.degrees(r),
        "alpha_deg": np.degrees(np.arctan2(w, u)),
        "sideslip_deg": np.degrees(np.arcsin(v / speed)),
        "load_factor": history.load_factor,
        "side_load_factor": history.side_load_factor,
        "elevator_deg": np.degrees(history.elevator_rad),
        "aileron_deg": np.degrees(history.aileron_rad),
        "rudder_deg": np.degrees(history.rudder_rad),
        "throttle": history.throttle,
        "spin_rad_s": spin,
    }


def _told(flying: FlyingAirplane, side: str, history: History, columns: dict[str, NDArray[np.float64]]) -> Flight:
    change = {name: columns[name] - columns[name][0] for name in ("pitch_deg", "heading_deg", "altitude_m")}
    bank, load = columns["bank_deg"], history.load_factor
    shares = {name: float(np.max(np.abs(values))) for name, values in flying.travel.shares(history).items()}
    around = np.flatnonzero(np.abs(change["heading_deg"]) >= 90.0)
    return Flight(
        powerplant=flying.name,
        side=side,
        nose_up_deg=_most(change["pitch_deg"]),
        nose_down_deg=_most(-change["pitch_deg"]),
        nose_right_deg=_most(change["heading_deg"]),
        nose_left_deg=_most(-change["heading_deg"]),
        bank_right_deg=_most(bank),
        bank_left_deg=_most(-bank),
        height_lost_m=_most(-change["altitude_m"]),
        height_gained_m=_most(change["altitude_m"]),
        time_to_90_s=float(history.time_s[around[0]]) if around.size else None,
        peak_elevator_share=shares["elevator"],
        peak_aileron_share=shares["aileron"],
        peak_rudder_share=shares["rudder"],
        peak_load_factor=float(load[np.argmax(np.abs(load - 1.0))]),
        peak_sideslip_deg=_most(np.abs(columns["sideslip_deg"])),
        limits=_limits(flying, history, shares),
    )


def _most(values: NDArray[np.float64]) -> float:
    return max(0.0, float(np.max(values)))


def _limits(flying: FlyingAirplane, history: History, shares: dict[str, float]) -> tuple[str, ...]:
    wing, slope = flying.airplane.polar, flying.airplane.derivatives.lift_alpha
    alpha = np.arctan2(history.state[9], history.state[7])
    linear = np.abs(wing.lift_zero + slope * alpha) / wing.lift_max
    lift = linear / (1.0 + linear**8) ** 0.125
    found = [f"{name} at its stop" for name, value in shares.items() if value > 0.999]
    if history.rate_limited_s > SAMPLE_S:
        found.append(f"a limb at its quickest for {history.rate_limited_s:.2g} s")
    if np.max(lift) > MAX_LIFT_RATIO:
        found.append("lift at its greatest")
    return tuple(found)
