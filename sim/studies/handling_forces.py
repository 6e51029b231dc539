"""Forces at the controls in straight flight, with their bands, and stability with the stick free."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any, cast

import numpy as np

from sim.atmosphere import air
from sim.flight.control_forces import control_forces, hands_off_turn_rad, stream_of
from sim.flight.control_system import drawn_system, repeated_system
from sim.flight.force_limits import MINUTES, MOMENT, held, past
from sim.flight.many_airplanes import Draws, repeated
from sim.flight.stability_margins import static_margin
from sim.flight.stick_free import hinge_slopes, stick_force_per_g_n, with_free_elevator
from sim.flight.trim import steady_turns
from sim.studies.bands import DRAWS, ends_of
from sim.studies.controls_let_go import controls_let_go
from sim.studies.forces_answer import StickForces, StraightForces
from sim.studies.turns import flown_limits, full_and_idle, turns

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from sim.flight.control_system import ControlSystem
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane

    Array = NDArray[np.float64]

SPEED_SHARES = (0.7, 0.85, 1.0, 1.15, 1.3, 1.5)
"""Speeds of level flight over that of the turns."""
SAME_SHARES = (0.9, 1.1)
"""Speeds over that of the turns, at the throttle that there is level."""


def stick_forces(flying: FlyingAirplane) -> StickForces:
    """Return stick and pedal forces of straight flight with one powerplant, and the stick force for a load factor.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, powerplant, speed and altitude.
    """
    speeds = flying.speed_m_s * np.array(SPEED_SHARES)
    level = turns(flying, np.zeros(len(speeds)), speed_m_s=speeds)
    rows = [*_rows(flying, level, speeds, ("level",) * len(speeds))]
    turn_rad = hands_off_turn_rad(flying.airplane, flying.controls, level.only_found())[SPEED_SHARES.index(1.0)]
    slower, faster = same = [*_at_one_throttle(flying, float(level.throttle[SPEED_SHARES.index(1.0)]))]
    rows += same
    rows += _rows(flying, full_and_idle(flying), np.full(2, flying.speed_m_s), ("full", "idle"))
    system = flying.controls
    return StickForces(
        stick_force_per_g_n=float(per_g_n(flying, system)),
        hands_off_m_s=tuple(_crossings(speeds, np.array([row.stick_force_n for row in rows[: len(speeds)]]))),
        tail_turn_deg=math.degrees(turn_rad),
        static_margin=static_margin(flying.airplane),
        static_margin_free=float(_free_margin(flying, system)),
        stick_friction_n=system.stick_friction_n,
        pedal_friction_n=system.pedal_friction_n,
        position_reversed=faster.elevator_share < slower.elevator_share,
        force_reversed=faster.stick_force_n > slower.stick_force_n,
        straight=tuple(rows),
        elevator_swing_rad_s=_swing_rad_s(flying, level.only_found()),
        let_go=tuple(controls_let_go(flying)),
        estimated=system.estimated,
        open_gaps=system.open_gaps,
    )


def _swing_rad_s(flying: FlyingAirplane, level: Turns) -> float:
    """Return the frequency of the elevator about its hinge in the air of level flight at the speed of the turns."""
    system = flying.controls
    pressure = stream_of(flying.airplane, level.state, level.throttle).tail[1][SPEED_SHARES.index(1.0)]
    stiffness = -float(pressure * hinge_slopes(flying.airplane, system.elevator).elevator_m3)
    inertia = float(system.elevator_inertia_kg_m2)
    return math.sqrt(stiffness / inertia) if min(stiffness, inertia) > 0.0 else math.nan


def _at_one_throttle(flying: FlyingAirplane, throttle: float) -> Iterator[StraightForces]:
    """Yield straight flight slower and faster at a throttle, climbing and sinking."""
    speeds = flying.speed_m_s * np.array(SAME_SHARES)
    found = steady_turns(
        flying.airplane,
        speed_m_s=speeds,
        altitude_m=flying.altitude_m,
        bank_rad=np.zeros(len(speeds)),
        throttle=np.full(len(speeds), throttle),
    )
    return _rows(flying, found, speeds, ("same",) * len(speeds))


def per_g_n(flying: FlyingAirplane, system: ControlSystem) -> Array:
    """Return the stick force for a unit of load factor of one airplane, or of many drawn as one [N]."""
    density = air(flying.altitude_m).density_kg_m3
    return np.asarray(stick_force_per_g_n(flying.airplane, system, density), float)


def drawn_forces(many: FlyingAirplane, every: Turns, seed: int) -> tuple[dict[str, Array], dict[str, float | None]]:
    """Return the forces in the turns of many airplanes, a row an airplane, and ends of the bands of `StickForces`.

    Parameters
    ----------
    many : FlyingAirplane
        Drawn, from `sim.studies.bands.drawn_flying`.
    every : Turns
        Their turns, airplane by airplane.
    seed : int
        Of the draws.
    """
    system = drawn_system(many.controls, Draws(DRAWS, seed))
    count = every.bank_rad.size // DRAWS
    forces = control_forces(repeated(many.airplane, count), repeated_system(system, count), every.only_found())
    names = ("stick_force_n", "stick_side_force_n", "pedal_force_n")
    rows = {name: row.reshape(DRAWS, -1) for name, row in zip(names, forces, strict=True)}
    whole = {"stick_force_per_g_n": per_g_n(many, system), "static_margin_free": _free_margin(many, system)}
    return rows, ends_of(whole)


def with_force_bands(found: StickForces, ends: dict[str, float | None]) -> StickForces:
    """Return forces with the ends of their bands."""
    return replace(found, **cast("dict[str, Any]", ends))


def _free_margin(flying: FlyingAirplane, system: ControlSystem) -> Array:
    """Return the static margin with the stick free; not-a-number where the free elevator does not centre."""
    law = system.elevator
    centres = np.asarray(hinge_slopes(flying.airplane, law).elevator_m3) < 0.0
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(centres, static_margin(with_free_elevator(flying.airplane, law)), np.nan)


def _rows(flying: FlyingAirplane, found: Turns, speeds: Array, powers: tuple[str, ...]) -> Iterator[StraightForces]:
    limits = flown_limits(flying, found)
    found = found.only_found()
    forces, elevator = control_forces(flying.airplane, flying.controls, found), flying.travel.shares(found)["elevator"]
    lasting, minutes, moment = held(forces), past(forces, MINUTES), past(forces, MOMENT)
    for i, (speed, power) in enumerate(zip(speeds.tolist(), powers, strict=True)):
        stick, side, pedal = (float(one[i]) for one in forces)
        yield StraightForces(
            speed_m_s=speed,
            power=power,
            elevator_share=float(elevator[i]),
            stick_force_n=stick,
            stick_side_force_n=side,
            pedal_force_n=pedal,
            force_held=lasting[i],
            past_minutes=minutes[i],
            past_moment=moment[i],
            limit=limits[i] or None,
        )


def _crossings(speeds: Array, forces: Array) -> Iterator[float]:
    """Yield the speeds at which the stick force vanishes, between those computed linear over dynamic pressure."""
    for i in range(len(speeds) - 1):
        before, after = float(forces[i]), float(forces[i + 1])
        if before * after < 0.0:
            low, high = float(speeds[i]) ** 2, float(speeds[i + 1]) ** 2
            yield math.sqrt(low + (high - low) * before / (before - after))
