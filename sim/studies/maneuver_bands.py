"""Bands of a manoeuvre: the same one flown by many airplanes, drawn from what is not known of this one."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from sim.flight.maneuver import plan
from sim.flight.many_airplanes import only_of, repeated
from sim.flight.many_flights import fly_many
from sim.flight.motion import Controls
from sim.flight.pilot_functions import MANY
from sim.flight.turn_limits import limits_met
from sim.studies.bands import DRAWS, drawn_flying, ends_of, quantiles
from sim.studies.maneuver_history import ATTITUDES, CHANGES, change, history_columns, peaks
from sim.studies.maneuver_spin import SPUN_S, path_columns, spin_numbers, stall_deg
from sim.studies.turns import flown_turns

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.flight.history import History
    from sim.flight.maneuver import Maneuver, ManeuverName
    from sim.flight.motion import Airplane
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.maneuver_answer import ManeuverFlight

    Array = NDArray[np.float64]
    Bands = dict[str, tuple[Array, Array]]
    Progress = Callable[[Iterable[int]], Iterable[int]]

SIDES = (1.0, -1.0)


class Asked(NamedTuple):
    """What is flown.

    Attributes
    ----------
    name : str
        Of the manoeuvre.
    kind : Maneuver
        As adjusted.
    bank_rad : float
        Target bank of a turn or reversal. [rad]
    times_s : array
        Of the histories. [s]
    """

    name: ManeuverName
    kind: Maneuver
    bank_rad: float
    times_s: Array


def banded(
    model: Model,
    flying: FlyingAirplane,
    asked: Asked,
    flights: Sequence[ManeuverFlight],
    *,
    seed: int,
    progress: Progress = iter,
) -> list[tuple[ManeuverFlight, Bands]]:
    """Return the flights of one powerplant with the bands of their largest values, and those of their histories.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        With one powerplant.
    asked : Asked
        What is flown.
    flights : sequence of ManeuverFlight
        To each side, without bands.
    seed : int
        Of the draws.
    progress : callable
        Wraps the numbers of the intervals between the times of the histories.

    Notes
    -----
    Each airplane begins in its own steady flight, and the pilot model has the gains of the airplane that it flies. Of
    those alone that can hold that flight and whose motion does not diverge: `flown_probability`.
    """
    sides = np.array(SIDES[: len(flights)])
    many = drawn_flying(model, flying, seed)
    each, signs = repeated(many.airplane, len(sides)), np.tile(sides, DRAWS)
    start = flown_turns(
        replace(many, airplane=each),
        asked.kind.bank_at_start_rad(signs, asked.bank_rad),
        power="idle" if asked.kind.begins_idle else None,
    )
    held = np.flatnonzero([not limit for limit in limits_met(start, flying.travel)])
    flown = drawn_flights(
        replace(only_of(each, held), strips=flying.flown.strips),
        flying.travel,
        asked,
        start=start,
        held=held,
        signs=signs[held],
        progress=progress,
    )
    columns, shares = history_columns(flown), flying.travel.shares(flown)
    stall_alpha_deg = stall_deg(flying) if asked.kind.begins_slow else np.inf
    ended = np.isfinite(columns["speed_m_s"]).all(axis=-1)
    return [
        _banded(
            flight,
            columns,
            shares,
            np.flatnonzero(ended & (signs[held] == side)),
            kind=asked.kind,
            stall_alpha_deg=stall_alpha_deg,
        )
        for flight, side in zip(flights, sides, strict=True)
    ]


def _banded(
    flight: ManeuverFlight,
    columns: dict[str, Array],
    shares: dict[str, Array],
    own: NDArray[np.intp],
    *,
    kind: Maneuver,
    stall_alpha_deg: float,
) -> tuple[ManeuverFlight, Bands]:
    """Return a flight with the bands of those of the flights drawn that are to its side."""
    if not own.size:
        return replace(flight, flown_probability=0.0), {}
    parts = {name: values[own] if values.ndim > 1 else values for name, values in columns.items()}
    most = peaks(parts, {name: values[own] for name, values in shares.items()})
    if kind.begins_slow:
        parts |= path_columns(parts)
        spun = spin_numbers(parts, kind.held_s, stall_alpha_deg)
        most = {name: values for name, values in most.items() if name not in ATTITUDES} | spun
        flight = replace(flight, spun_probability=float((spun["autorotation_s"] >= SPUN_S - 1e-9).mean()))
    ends: dict[str, Any] = ends_of(most)
    histories = {
        name: quantiles(change(values) if name in CHANGES else values)
        for name, values in parts.items()
        if values.ndim > 1
    }
    return replace(flight, **ends, flown_probability=own.size / DRAWS), histories


def drawn_flights(
    airplane: Airplane,
    travel: Travel,
    asked: Asked,
    *,
    start: Turns,
    held: NDArray[np.intp],
    signs: Array,
    progress: Progress = iter,
) -> History:
    """Return the flights of many airplanes, each to its side.

    Parameters
    ----------
    airplane : Airplane
        With one entry a flight.
    travel : Travel
        Of the controls.
    asked : Asked
        What is flown.
    start : Turns
        Steady flights.
    held : array of int
        Those of them that are begun from, one a flight.
    signs : array
        +1 for a flight to the first side of the manoeuvre, -1 for the second.
    progress : callable
        Wraps the numbers of the intervals between the times of the histories.
    """
    state = start.state[:, held]
    controls = Controls(*(c[held] for c in (start.elevator_rad, start.aileron_rad, start.rudder_rad, start.throttle)))
    ready = plan(
        asked.name,
        airplane,
        travel,
        maneuver=asked.kind,
        sign=signs,
        bank_rad=asked.bank_rad,
        state=tuple(state),
        controls=controls,
        functions=MANY,
    )
    return fly_many(
        airplane,
        travel,
        ready.control_law,
        state=state,
        controls=controls,
        times_s=asked.times_s,
        breakpoints_s=ready.breakpoints_s,
        progress=progress,
    )
