"""The same manoeuvre flown with each powerplant, to both sides: histories and their largest values."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.errors import Fault, InputError, did_you_mean, refuse
from sim.flight.actuation import fly
from sim.flight.maneuver import BEGIN_S, MANEUVERS, Maneuver, ManeuverName, adjusted, plan
from sim.flight.spin_pilot import FREE_S
from sim.flight.turn_limits import MAX_LIFT_RATIO
from sim.flight.validity import valid_part
from sim.studies.carried_mass import carried_masses
from sim.studies.maneuver_answer import ManeuverAnswer, ManeuverFlight
from sim.studies.maneuver_bands import Asked, banded
from sim.studies.maneuver_history import ATTITUDES, history_columns, peaks, side_to_90
from sim.studies.maneuver_spin import columns_of, spin_told
from sim.studies.maneuver_take_off import NUMBERS as TAKEN_OFF
from sim.studies.maneuver_take_off import taken_off
from sim.studies.spin_start import slow_start
from sim.studies.turns import demand_held, flown_turns, of_each
from sim.told import told
from sim.units.text import brief

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from numpy.typing import NDArray

    from sim.flight.history import History
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.maneuver_answer import Bands

SAMPLE_S = 0.05
"""Interval of the histories."""
RECOVERED_S = 1.0
"""Of a spin entry, the least that is flown of the recovery. [s]"""
"""What a spin entry by an accelerated stall begins with."""
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
    "take-off": (),
    "spin-entry": ("bank_deg", "share", "held_s"),
}
"""Manoeuvre -> the parameters that it has a use for, besides the length of the flight."""
SLOW_M_S: Final = 5.0
"""Below it an airplane on its wheels is asked for no validity in flight."""


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
    bands: bool = False,
    seed: int = 1,
    progress: Callable[[Iterable[int]], Iterable[int]] = iter,
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
        Target bank angle of a turn or reversal, above 0 and below 90; None for 45. Of a spin entry the bank of the
        turn that it begins from, an accelerated stall; None for straight flight. [°]
    share, held_s, flown_s : float or None
        Deflection as a fraction of travel, its duration, and length of the flight; None for those of the manoeuvre.
        What is held ends within the flight. [–, s, s]
    bands : bool
        Fly many airplanes, drawn from what is not known of this one, and give the 90 % bands of the largest values.
    seed : int
        Of the draws.
    progress : callable
        Wraps the numbers of the parts of the draws' flights, to show progress.

    Raises
    ------
    InputError
        When there is no manoeuvre of that name, a parameter has no use in it, or a spin has linear air loads.
    NoAnswerError
        When there is no steady flight to start from, or a flight diverges.
    """
    if name not in MANEUVERS:
        known = ", ".join(MANEUVERS)
        refuse("name", f'must be one of {known}, got "{name}"{did_you_mean(name, MANEUVERS)}')
    chosen: ManeuverName = name
    kind = adjusted(MANEUVERS[chosen], share=share, held_s=held_s, flown_s=flown_s)
    given = {"bank_deg": bank_deg, "share": share, "held_s": held_s}
    if faults := [*_useless(chosen, given), *_never_ends(chosen, kind), *_of_flight(chosen, speed_m_s, bands=bands)]:
        raise InputError(faults)
    kind, bank_rad = _begun(kind, bank_deg)
    flying = model.airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    if kind.begins_slow and speed_m_s is None:
        flying = slow_start(model, kind.begins_turning_rad, altitude_m)
    if chosen == "take-off":
        return _taken_off(model, flying, kind)
    signs = list(zip((1.0, -1.0), kind.sides, strict=False))
    every = of_each(
        flying,
        lambda one: [(one, side, _flown(one, chosen, kind, sign=sign, bank_rad=bank_rad)) for sign, side in signs],
    )
    flown = [flight for own in every for flight in own]
    columns = tuple(columns_of(history, spins=kind.begins_slow) for _, _, history in flown)
    flights = tuple(_flight(*one, own, kind=kind) for one, own in zip(flown, columns, strict=True))
    shaded: tuple[Bands, ...] = ()
    if bands:
        asked = Asked(chosen, kind, bank_rad, flown[0][2].time_s)
        flights, shaded = _with_bands(model, flying, asked, flights, seed=seed, progress=progress)
    return ManeuverAnswer(
        maneuver=name,
        meaning=kind.meaning,
        air_loads="strips" if flying[0].flown.strips else "linear",
        speed_m_s=flying[0].speed_m_s,
        altitude_m=flying[0].altitude_m,
        flights=flights,
        masses=carried_masses(model, bands=bands),
        remarks=model.remark_texts("masses"),
        histories=columns,
        definition=kind,
        engine_kinds=model.engine_kinds,
        bands=shaded,
    )


def _begun(kind: Maneuver, bank_deg: float | None) -> tuple[Maneuver, float]:
    """Return a manoeuvre, begun from a turn where a spin entry has a bank, and the target bank in radians."""
    bank_rad = math.radians(BANK_DEG if bank_deg is None else bank_deg)
    if kind.begins_slow and bank_deg is not None:
        kind = replace(kind, begins_turning_rad=bank_rad, meaning=told("in a turn, {meaning}", meaning=kind.meaning))
    return kind, bank_rad


def _taken_off(model: Model, flying: tuple[FlyingAirplane, ...], kind: Maneuver) -> ManeuverAnswer:
    """Return the take-off with every powerplant."""
    off = of_each(flying, lambda one: taken_off(model, one, _times_s(kind)))
    columns = tuple(history_columns(one.history) for one in off)
    flights = tuple(
        replace(
            _flight(one, "", own.history, seen, slow_m_s=SLOW_M_S),
            **{name: getattr(own, name) for name in TAKEN_OFF},
        )
        for one, own, seen in zip(flying, off, columns, strict=True)
    )
    return ManeuverAnswer(
        maneuver="take-off",
        meaning=kind.meaning,
        air_loads="linear",
        speed_m_s=0.0,
        altitude_m=flying[0].altitude_m,
        flights=flights,
        masses=carried_masses(model),
        remarks=model.remark_texts("masses"),
        histories=columns,
        definition=kind,
        engine_kinds=model.engine_kinds,
    )


def _with_bands(
    model: Model,
    flying: tuple[FlyingAirplane, ...],
    asked: Asked,
    flights: tuple[ManeuverFlight, ...],
    *,
    seed: int,
    progress: Callable[[Iterable[int]], Iterable[int]],
) -> tuple[tuple[ManeuverFlight, ...], tuple[Bands, ...]]:
    """Return the flights with their bands, and those of their histories."""
    own = [[flight for flight in flights if flight.powerplant == one.name] for one in flying]
    both = [
        found
        for one, each in zip(flying, own, strict=True)
        for found in banded(model, one, asked, each, seed=seed, progress=progress)
    ]
    return tuple(flight for flight, _ in both), tuple(band for _, band in both)


def _useless(name: ManeuverName, given: dict[str, float | None]) -> Iterator[Fault]:
    """Yield the parameters given that have no use in a manoeuvre."""
    for parameter, value in given.items():
        if value is not None and parameter not in USES[name]:
            useful = ", ".join(f"`{one}`" for one in (*USES[name], "flown_s"))
            yield Fault(parameter, f"has no use in {name}; it takes {useful}")


def _of_flight(name: ManeuverName, speed_m_s: float | None, *, bands: bool) -> Iterator[Fault]:
    """Yield what has no use in a take-off, which begins at rest and is flown once."""
    if name == "take-off" and speed_m_s is not None:
        yield Fault("speed_m_s", "has no use in take-off, which begins at rest; leave it out")
    if name == "take-off" and bands:
        yield Fault("bands", "has no use in take-off; `whirlgate field --bands` gives the bands of its run")


def _never_ends(name: ManeuverName, kind: Maneuver) -> Iterator[Fault]:
    """Yield that what is held would not end before the record does."""
    after_s = FREE_S + RECOVERED_S if kind.begins_slow else 0.0
    room_s = kind.flown_s - BEGIN_S - after_s
    if "held_s" in USES[name] and kind.held_s > room_s:
        most, came = brief("held_s", room_s), brief("held_s", kind.held_s)
        yield Fault(
            "held_s",
            f'must be at most {most}, what `flown_s` leaves after {brief("flown_s", BEGIN_S + after_s)}, got "{came}"',
        )


def _flown(flying: FlyingAirplane, name: ManeuverName, kind: Maneuver, *, sign: float, bank_rad: float) -> History:
    bank = kind.bank_at_start_rad(sign, bank_rad)
    start = flown_turns(flying, bank, power="idle" if kind.begins_idle else None)
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
    return fly(
        flying.flown,
        flying.travel,
        ready.control_law,
        state=state,
        controls=controls,
        times_s=_times_s(kind),
        breakpoints_s=ready.breakpoints_s,
    )


def _times_s(kind: Maneuver) -> NDArray[np.float64]:
    return np.arange(0.0, kind.flown_s + 0.5 * SAMPLE_S, SAMPLE_S)


def _flight(
    flying: FlyingAirplane,
    side: str,
    history: History,
    columns: dict[str, NDArray[np.float64]],
    *,
    kind: Maneuver | None = None,
    slow_m_s: float = 0.0,
) -> ManeuverFlight:
    shares = flying.travel.shares(history)
    flies = columns["speed_m_s"] >= slow_m_s
    valid = valid_part(flying.airplane, history.time_s[flies], history.state[:, flies], history.elevator_rad[flies])
    most = {name: float(value) for name, value in peaks(columns, shares).items()}
    largest: dict[str, Any] = {name: value if math.isfinite(value) else None for name, value in most.items()}
    if kind and kind.begins_slow:
        largest |= dict.fromkeys(ATTITUDES, math.nan) | spin_told(flying, columns, kind.held_s)
    return ManeuverFlight(
        powerplant=flying.name,
        side=side,
        **largest,
        side_to_90="" if kind and kind.begins_slow else side_to_90(columns),
        limits=_limits(flying, history, {name: abs(most[f"peak_{name}_share"]) for name in shares}),
        valid_until_s=valid.valid_until_s,
        beyond=valid.beyond,
    )


def _limits(flying: FlyingAirplane, history: History, shares: dict[str, float]) -> tuple[str, ...]:
    wing, slope = flying.airplane.polar, flying.airplane.derivatives.lift_alpha
    alpha = np.arctan2(history.state[9], history.state[7])
    linear = np.abs(wing.lift_zero + slope * alpha) / wing.lift_max
    lift = linear / (1.0 + linear**8) ** 0.125
    found: list[str] = [told("{control} at its stop", control=name) for name, value in shares.items() if value > 0.999]
    if history.rate_limited_s > SAMPLE_S:
        limited = brief("rate_limited_s", history.rate_limited_s, digits=2)
        found.append(told("control movement at the pilot's rate limit for {time}", time=limited))
    if np.max(lift) > MAX_LIFT_RATIO:
        found.append("maximum lift reached")
    return tuple(found)
