"""Bands of the forces in straight flight: the same flights with many airplanes, and how many reverse their force."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.flight.control_forces import control_forces
from sim.flight.control_system import drawn_system, repeated_system
from sim.flight.many_airplanes import Draws, repeated
from sim.flight.trim import steady_turns
from sim.studies.bands import DRAWS, ends_of
from sim.studies.turns import idle_throttle, turns

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.studies.forces_answer import StickForces

    Array = NDArray[np.float64]

NAMES = ("stick_force_n", "stick_side_force_n", "pedal_force_n")


def with_straight_bands(many: FlyingAirplane, found: StickForces, seed: int) -> StickForces:
    """Return forces with the ends of the bands of straight flight.

    Parameters
    ----------
    many : FlyingAirplane
        Drawn, from `sim.studies.bands.drawn_flying`, at the speed of the turns.
    found : StickForces
        Of the likeliest airplane.
    seed : int
        Of the draws.
    """
    powers = np.array([row.power for row in found.straight])
    speeds = np.array([row.speed_m_s for row in found.straight])
    forces = np.full((len(NAMES), DRAWS, len(powers)), np.nan)
    level = powers == "level"
    flown = turns(_each(many, level.sum()), np.zeros(DRAWS * level.sum()), speed_m_s=np.tile(speeds[level], DRAWS))
    forces[:, :, level] = _forces(many, flown.only_found(), seed)
    held = flown.throttle.reshape(DRAWS, -1)[:, np.flatnonzero(speeds[level] == many.speed_m_s)[0]]
    throttles = {"same": held, "full": np.ones(DRAWS), "idle": np.broadcast_to(idle_throttle(many), (DRAWS,))}
    set_at = np.stack([throttles[power] for power in powers[~level]], axis=1)
    others = steady_turns(
        _each(many, (~level).sum()).airplane,
        speed_m_s=np.tile(speeds[~level], DRAWS),
        altitude_m=many.altitude_m,
        bank_rad=np.zeros(set_at.size),
        throttle=np.nan_to_num(set_at, nan=1.0).ravel(),
    )
    forces[:, :, ~level] = np.where(np.isfinite(set_at), _forces(many, others.only_found(), seed), np.nan)
    rows = []
    for i, row in enumerate(found.straight):
        ends: dict[str, Any] = ends_of({name: drawn[:, i] for name, drawn in zip(NAMES, forces, strict=True)})
        rows.append(replace(row, **ends))
    change = np.diff(forces[0][:, powers == "same"], axis=1)
    change = change[np.isfinite(change)]
    reverses = float((change > 0.0).mean()) if change.size else None
    return replace(found, straight=tuple(rows), force_reversed_probability=reverses)


def _each(many: FlyingAirplane, times: int) -> FlyingAirplane:
    return replace(many, airplane=repeated(many.airplane, int(times)))


def _forces(many: FlyingAirplane, found: Turns, seed: int) -> Array:
    """Return the forces in the flights of every airplane, of shape (forces, airplanes, flights)."""
    times = found.bank_rad.size // DRAWS
    system = repeated_system(drawn_system(many.controls, Draws(DRAWS, seed)), times)
    return np.array(control_forces(_each(many, times).airplane, system, found)).reshape(len(NAMES), DRAWS, times)
