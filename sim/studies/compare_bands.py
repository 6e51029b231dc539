"""Bands of a comparison: the same turns and the same inputs with many airplanes, drawn from what is not known."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.flight.many_airplanes import only_of
from sim.flight.many_flights import fly_prescribed
from sim.flight.motion import Controls
from sim.studies.bands import drawn_flying, drawn_turns, ends_of, gyroscopic_moments, rotor_inertias_kg_m2
from sim.studies.handling_forces import drawn_forces
from sim.studies.impulse_response import HELD_S, TIMES_S, inputs_from, largest, nose_deg
from sim.studies.turns import without_rotor

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from numpy.typing import NDArray

    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.compare import PowerplantComparison
    from sim.studies.impulse_response import Disturbance

    Array = NDArray[np.float64]


def banded(
    model: Model, flying: Iterable[FlyingAirplane], found: Mapping[str, PowerplantComparison], *, seed: int
) -> dict[str, PowerplantComparison]:
    """Return each powerplant with the 90 % bands of its rotor, its moments in turns, and its part in responses.

    Parameters
    ----------
    model : Model
        That the airplanes are of.
    flying : iterable of FlyingAirplane
        With each powerplant.
    found : Mapping of str to PowerplantComparison
        Each without bands.
    seed : int
        Of the draws.

    Notes
    -----
    Full speed is an input without error. The ratio of angular momenta is that to the powerplant of the smallest.
    """
    many = {one.name: drawn_flying(model, one, seed) for one in flying}
    inertia = {name: rotor_inertias_kg_m2(one) for name, one in many.items()}
    momentum = {name: found[name].spin_rad_s * own for name, own in inertia.items()}
    smallest = min(found, key=lambda name: abs(found[name].angular_momentum_kg_m2_s))
    least = np.where(momentum[smallest] == 0.0, np.nan, np.abs(momentum[smallest]))
    drawn = {
        name: {
            "polar_inertia_kg_m2": inertia[name],
            "angular_momentum_kg_m2_s": momentum[name],
        }
        | ({} if name == smallest else {"momentum_ratio": np.abs(momentum[name]) / least})
        for name in found
    }
    return {name: _banded(one, many[name], drawn[name], seed) for name, one in found.items()}


def _banded(
    one: PowerplantComparison, many: FlyingAirplane, drawn: Mapping[str, Array], seed: int
) -> PowerplantComparison:
    every = drawn_turns(many, np.radians([turn.bank_deg for turn in one.turns]))
    pitch, yaw = gyroscopic_moments(many, every)
    forces, _ = drawn_forces(many, every, seed)
    held = {name: forces[name] for name in ("stick_force_n", "pedal_force_n")}
    by_turn = {"pitch_n_m": pitch, "yaw_n_m": yaw} | held
    rows = []
    for number, turn in enumerate(one.turns):
        ends: dict[str, Any] = ends_of({name: values[:, number] for name, values in by_turn.items()})
        rows.append(replace(turn, **ends))
    whole: dict[str, Any] = ends_of(drawn)
    return replace(one, turns=tuple(rows), disturbances=_responses(one.disturbances, many), **whole)


def _responses(likely: tuple[Disturbance, ...], many: FlyingAirplane) -> tuple[Disturbance, ...]:
    """Return the responses with the bands of the rotor's part, each airplane from its own straight flight."""
    by_input = dict(drawn_by_spin(many))
    rows = []
    for one in likely:
        pitch, yaw = by_input[one.input]
        ends: dict[str, Any] = ends_of({"pitch_by_spin_deg": pitch, "yaw_by_spin_deg": yaw})
        rows.append(replace(one, **ends))
    return tuple(rows)


def drawn_by_spin(many: FlyingAirplane) -> Iterable[tuple[str, Array]]:
    """Yield each input with the rotor's largest part in pitch and in heading, of each airplane that flies straight.

    Returns
    -------
    iterable of tuple of str and array, shape (2, N)
        As in `sim.studies.impulse_response.Disturbance`. [°]
    """
    start = drawn_turns(many, (0.0,))
    own = np.flatnonzero(start.found)
    trim = Controls(*(c[own] for c in (start.elevator_rad, start.aileron_rad, start.rudder_rad, start.throttle)))
    airplanes = [only_of(one.airplane, own) for one in (many, without_rotor(many))]
    for name, held in inputs_from(trim):

        def controls(t: float, held: Controls = held) -> Controls:
            return held if t < HELD_S else trim

        spinning, still = (
            nose_deg(fly_prescribed(one, controls, state=start.state[:, own], times_s=TIMES_S, breakpoints_s=(HELD_S,)))
            for one in airplanes
        )
        yield name, largest(spinning - still)
