"""The same manoeuvre flown with each powerplant, to both sides: histories and their largest values."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar, Final

import numpy as np

from sim.answer import ASIDE, Answer
from sim.errors import Fault, InputError, did_you_mean, refuse
from sim.flight.actuation import fly
from sim.flight.maneuver import BEGIN_S, MANEUVERS, Maneuver, ManeuverName, adjusted, plan
from sim.flight.turn_limits import MAX_LIFT_RATIO
from sim.flight.validity import valid_part
from sim.studies.carried_mass import CarriedMass, carried_masses
from sim.studies.maneuver_history import history_columns
from sim.studies.turns import demand_held, turns
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from sim.flight.history import History
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model

SAMPLE_S = 0.05
"""Interval of the histories."""
BANK_DEG = 45.0
"""Target bank of a turn or reversal that says none."""
USES: Final[dict[ManeuverName, tuple[str, ...]]] = {
    "rudder-kick": ("share", "held_s"),
    "pull": ("share", "held_s"),
    "roll-in": ("share", "held_s"),
    "turn": ("bank_deg",),
    "reversal": ("bank_deg",),
    "blip": ("held_s",),
    "slam": (),
}
"""Manoeuvre -> the parameters that it has a use for, besides the length of the flight."""


@dataclass(frozen=True, slots=True)
class ManeuverFlight:
    """Largest values of one flight; changes are from the start of the manoeuvre.

    Attributes
    ----------
    powerplant, side : str
        Powerplant, and direction of the manoeuvre; empty where it has none.
    nose_up_deg, nose_down_deg, nose_right_deg, nose_left_deg : float
        Largest change of pitch attitude and of heading each way, at least 0. [°]
    bank_right_deg, bank_left_deg : float
        Largest bank each way, at least 0. [°]
    height_lost_m, height_gained_m : float
        At least 0. [m]
    time_to_90_s : float or None
        Until the heading has changed by 90°. [s]
    peak_elevator_share, peak_aileron_share, peak_rudder_share : float
        Largest deflection as a fraction of travel, 0 to 1.
    peak_load_factor : float
        Load factor that differs most from 1.
    peak_sideslip_deg : float
        Largest size. [°]
    limits : tuple of str
        Limits reached: control travel, rate at which a pilot moves them, lift of the wing.
    valid_until_s : float or None
        Time from which on the flight is indicative, beyond a bound; None where it stays within all. [s]
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes, in the order of time.
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
    valid_until_s: float | None
    beyond: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ManeuverAnswer(Answer):
    """The answer of ``whirlgate maneuver``.

    Attributes
    ----------
    maneuver, meaning : str
        Its name and a short description.
    speed_m_s, altitude_m : float
        At the start. [m/s, m]
    flights : tuple of ManeuverFlight
        Powerplant by powerplant, to each side.
    masses : dict of CarriedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What must be known of the masses, a sentence each.
    histories, definition : tuple of dict, Maneuver
        Columns in time of each flight, by their quantity, and the manoeuvre as flown; not in JSON.
    """

    main: ClassVar[str] = "flights"

    maneuver: str
    meaning: str
    speed_m_s: float
    altitude_m: float
    flights: tuple[ManeuverFlight, ...]
    masses: dict[str, CarriedMass]
    remarks: tuple[str, ...]
    histories: tuple[dict[str, NDArray[np.float64]], ...] = field(metadata=ASIDE)
    definition: Maneuver = field(metadata=ASIDE)


def maneuver(
    model: Model,
    name: str,
    *,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
    bank_deg: float | None = None,
    share: float | None = None,
    held_s: float | None = None,
    flown_s: float | None = None,
) -> ManeuverAnswer:
    """Return a manoeuvre flown with every powerplant, to both sides.

    Parameters
    ----------
    model : Model
        The airplane.
    name : str
        A key of `sim.flight.maneuver.MANEUVERS`.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude at the start; None for those of the scenario. [m/s, m]
    bank_deg : float or None
        Target bank angle of a turn or reversal, above 0 and below 90; None for 45. [°]
    share, held_s, flown_s : float or None
        Deflection as a fraction of travel, its duration, and length of the flight; None for those of the manoeuvre.
        What is held ends within the flight. [–, s, s]

    Raises
    ------
    InputError
        When there is no manoeuvre of that name, or a parameter has no use in it.
    NoAnswerError
        When there is no steady flight to start from, or a flight diverges.
    """
    if name not in MANEUVERS:
        known = ", ".join(MANEUVERS)
        refuse("name", f'must be one of {known}, got "{name}"{did_you_mean(name, MANEUVERS)}')
    chosen: ManeuverName = name
    kind = adjusted(MANEUVERS[chosen], share=share, held_s=held_s, flown_s=flown_s)
    faults = [*_useless(chosen, {"bank_deg": bank_deg, "share": share, "held_s": held_s}), *_never_ends(chosen, kind)]
    if faults:
        raise InputError(faults)
    bank_rad = math.radians(BANK_DEG if bank_deg is None else bank_deg)
    flying = model.airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    flown = [
        (one, side, _flown(one, chosen, kind, sign=sign, bank_rad=bank_rad))
        for one in flying
        for sign, side in zip((1.0, -1.0), kind.sides, strict=False)
    ]
    columns = tuple(history_columns(history) for _, _, history in flown)
    return ManeuverAnswer(
        maneuver=name,
        meaning=kind.meaning,
        speed_m_s=flying[0].speed_m_s,
        altitude_m=flying[0].altitude_m,
        flights=tuple(_flight(*one, own) for one, own in zip(flown, columns, strict=True)),
        masses=carried_masses(model),
        remarks=model.remark_texts("masses"),
        histories=columns,
        definition=kind,
    )


def _useless(name: ManeuverName, given: dict[str, float | None]) -> Iterator[Fault]:
    """Yield the parameters given that have no use in a manoeuvre."""
    for parameter, value in given.items():
        if value is not None and parameter not in USES[name]:
            useful = ", ".join(f"`{one}`" for one in (*USES[name], "flown_s"))
            yield Fault(parameter, f"has no use in {name}; it takes {useful}")


def _never_ends(name: ManeuverName, kind: Maneuver) -> Iterator[Fault]:
    """Yield that what is held would not end before the record does."""
    room_s = kind.flown_s - BEGIN_S
    if "held_s" in USES[name] and kind.held_s > room_s:
        most, came = brief("held_s", room_s), brief("held_s", kind.held_s)
        yield Fault(
            "held_s", f'must be at most {most}, what `flown_s` leaves after {brief("flown_s", BEGIN_S)}, got "{came}"'
        )


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


def _flight(
    flying: FlyingAirplane, side: str, history: History, columns: dict[str, NDArray[np.float64]]
) -> ManeuverFlight:
    change = {name: columns[name] - columns[name][0] for name in ("pitch_deg", "heading_deg", "altitude_m")}
    bank, load = columns["bank_deg"], history.load_factor
    shares = {name: float(np.max(np.abs(values))) for name, values in flying.travel.shares(history).items()}
    valid = valid_part(flying.airplane, history.time_s, history.state, history.elevator_rad)
    around = np.flatnonzero(np.abs(change["heading_deg"]) >= 90.0)
    return ManeuverFlight(
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
        valid_until_s=valid.valid_until_s,
        beyond=valid.beyond,
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
        limited = brief("rate_limited_s", history.rate_limited_s, digits=2)
        found.append(f"control movement at the pilot's rate limit for {limited}")
    if np.max(lift) > MAX_LIFT_RATIO:
        found.append("maximum lift reached")
    return tuple(found)
