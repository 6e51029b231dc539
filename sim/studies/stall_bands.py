"""Bands of stalls: the same ones flown by many airplanes, drawn from what is not known of this one."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.flight.many_airplanes import only_of
from sim.flight.many_flights import fly_many
from sim.flight.motion import Controls
from sim.flight.pilot_functions import MANY
from sim.flight.separation import separation, stalls_at
from sim.studies.bands import drawn_flying, ends_of
from sim.studies.stall_entry import LONGEST, approach, level_stall_m_s
from sim.studies.stall_legs import Entered
from sim.studies.stall_numbers import stall_numbers, unrolled

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from numpy.typing import NDArray

    from sim.aerodynamics.strips import Strips
    from sim.flight.history import History
    from sim.flight.motion import Airplane
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.stall_entry import StallEntry
    from sim.studies.turns import Power

    Numbers = NDArray[np.float64]
    Chosen = NDArray[np.intp]
    Progress = Callable[[Iterable[Any]], Iterable[Any]]

FLOWN: Final = 64
"""Airplanes of those drawn that fly each stall: nine stalls with each powerplant are many."""
LENGTHS: Final = (0.5, LONGEST)
"""Time in which stalls are looked for, first and then, over that of the pull: a longer flight mostly tumbles."""
BANDED: Final = ("stall_m_s", "roll_deg", "most_bank_deg", "height_lost_m")


def banded(
    model: Model,
    flying: FlyingAirplane,
    entries: Sequence[StallEntry],
    *,
    throttles: Mapping[Power, float],
    reaction_s: float,
    pull_s: float,
    seed: int,
    progress: Progress = iter,
) -> tuple[StallEntry, ...]:
    """Return stalls with the 90 % bands of speed, roll and height.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        The airplane.
    entries : sequence of StallEntry
        Of it.
    throttles : Mapping of str to float
        Of each power, the same for all airplanes drawn.
    reaction_s : float
        Time before the pilot reacts. [s]
    pull_s : float
        Time of the pull. [s]
    seed : int
        Of the draws.
    progress : callable
        Wraps the parts of the flights, to show progress.

    Notes
    -----
    The first `FLOWN` of the airplanes that every command draws; each enters from its own steady flight, and the pilot
    has the gains of the airplane that he flies. Of those alone that stall and do not diverge: `stalled_probability`.
    A height that is still being lost at the end counts as lost without end.
    """
    flights = _begun(
        replace(flying, airplane=drawn_flying(model, flying, seed).airplane),
        flying.flown.strips,
        entries,
        throttles=throttles,
        pull_s=pull_s,
        progress=progress,
    )
    which, numbers = _stalled(flights, reaction_s)
    return tuple(
        _with_bands(entry, {name: values[which // FLOWN == place] for name, values in numbers.items()})
        for place, entry in enumerate(entries)
    )


def _begun(
    drawn: FlyingAirplane,
    strips: Strips | None,
    entries: Sequence[StallEntry],
    *,
    throttles: Mapping[Power, float],
    pull_s: float,
    progress: Progress,
) -> Entered:
    """Return the approaches of the airplanes drawn to every stall, stall by stall."""
    each = only_of(drawn.airplane, np.tile(np.arange(FLOWN), len(entries)))
    many = replace(drawn, airplane=each)
    bank_rad, throttle = (
        np.repeat(values, FLOWN)
        for values in (np.radians([one.bank_deg for one in entries]), [throttles[one.power] for one in entries])
    )
    start = approach(many, bank_rad, throttle)
    controls = Controls(start.elevator_rad, start.aileron_rad, start.rudder_rad, throttle)
    stall_m_s = np.broadcast_to(level_stall_m_s(many), bank_rad.shape)
    return Entered(
        airplane=replace(each, strips=strips),
        travel=drawn.travel,
        state=start.state,
        controls=controls,
        bank_rad=bank_rad,
        level_stall_m_s=stall_m_s,
        pull_s=pull_s,
        fly=partial(fly_many, progress=progress),
        functions=MANY,
    )


def _only(flights: Entered, chosen: Chosen) -> Entered:
    """Return some of the flights."""
    return replace(
        flights,
        airplane=only_of(flights.airplane, chosen),
        state=flights.state[:, chosen],
        controls=Controls(*(one[chosen] for one in flights.controls[:4])),
        bank_rad=np.asarray(flights.bank_rad)[chosen],
        level_stall_m_s=np.asarray(flights.level_stall_m_s)[chosen],
    )


def _stalled(flights: Entered, reaction_s: float) -> tuple[Chosen, dict[str, Numbers]]:
    """Return which of the flights stall without diverging, and the numbers of these."""
    left = np.flatnonzero(np.isfinite(flights.state).all(axis=0))
    whose: list[Chosen] = [left[:0]]
    states, held = [flights.state[:, :0]], [np.empty((3, 0))]
    for length in LENGTHS:
        if not left.size:
            break
        some = _only(flights, left)
        flown = some.approached(length)
        at = stalls_at_each(some.airplane, flown)
        met = np.flatnonzero(at >= 0)
        whose.append(left[met])
        states.append(flown.state[:, met, at[met]])
        surfaces = (flown.elevator_rad, flown.aileron_rad, flown.rudder_rad)
        held.append(np.array([one[met, at[met]] for one in surfaces]))
        left = left[at < 0]
    which, state = np.concatenate(whose), np.concatenate(states, axis=-1)
    if not which.size:
        return which, {name: np.empty(0) for name in BANDED}
    chosen = _only(flights, which)
    elevator, aileron, rudder = np.concatenate(held, axis=-1)
    controls = Controls(elevator, aileron, rudder, chosen.controls.throttle)
    after = chosen.recovered(state, controls, reaction_s)
    numbers = stall_numbers(unrolled(after), reaction_s)
    ended = np.isfinite(after.state).all(axis=(0, -1))
    lost = numbers["height_lost_m"]
    numbers["height_lost_m"] = np.where(np.isnan(lost), np.inf, lost)
    return which[ended], {name: numbers[name][ended] for name in BANDED}


def stalls_at_each(airplane: Airplane, flown: History) -> Chosen:
    """Return the number of the sample at which each of many flights stalls; -1 where it does not, or has diverged.

    Parameters
    ----------
    airplane : Airplane
        That is many, with strips.
    flown : History
        Of each of them.
    """
    found = np.full(flown.state.shape[1], -1)
    for block in np.array_split(np.arange(found.size), max(1, found.size // FLOWN)):
        own = _upright(flown, block)
        found[block] = stalls_at(separation(only_of(airplane, block), own.state, own.controls))
    return found


def _upright(flown: History, chosen: Chosen) -> History:
    """Return some of many flights with the axis of time before that of the flights, as numbers of airplanes go."""
    turned = {
        name: np.swapaxes(getattr(flown, name)[..., chosen, :], -1, -2)
        for name in (
            "state",
            "elevator_rad",
            "aileron_rad",
            "rudder_rad",
            "throttle",
        )
    }
    return replace(flown, **turned)


def _with_bands(entry: StallEntry, drawn: Mapping[str, Numbers]) -> StallEntry:
    """Return a stall with the bands of those of the airplanes drawn."""
    if entry.stall_m_s is None:
        return entry
    share = drawn["stall_m_s"].size / FLOWN
    ends: dict[str, Any] = ends_of(drawn) if share else {}
    return replace(entry, **ends, stalled_probability=share)
