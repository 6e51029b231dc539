"""Handling with each powerplant: controls in steady turns to the left and to the right, their limits, and modes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.flight.control_forces import control_forces
from sim.flight.force_limits import FORCES, MINUTES, MOMENT, held, past, too_large
from sim.flight.turn_limits import steepest_bank
from sim.flight.validity import passed_in_turns
from sim.studies.carried_mass import carried_masses
from sim.studies.handling_answer import Handling, PowerplantHandling, SteadyTurn
from sim.studies.handling_forces import stick_forces
from sim.studies.modes import graded_modes
from sim.studies.turns import checked_banks, flown_limits, gyroscopic_couple, not_held, of_each, turns

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.flight.quality import Category
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.turns import Power

BANKS_DEG = (-60.0, -45.0, -30.0, -15.0, 0.0, 15.0, 30.0, 45.0, 60.0)
SWEEP_DEG = tuple(float(bank) for bank in range(-74, 75, 2))
"""Banks of the figure, each way. [°]"""


def handling(
    model: Model,
    *,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
    banks_deg: Sequence[float] = BANKS_DEG,
    power: Power | None = None,
    category: Category = "B",
    bands: bool = False,
    seed: int = 1,
) -> Handling:
    """Return how the airplane handles with each of its powerplants.

    Parameters
    ----------
    model : Model
        The airplane.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude; None for those of the scenario. [m/s, m]
    banks_deg : sequence of float
        Bank angles of the turns, left negative, above −90 and below 90. [°]
    power : str or None
        ``idle``, ``cruise`` or ``full``, climbing or sinking at that power; None for level turns.
    category : str
        Flight phase category of the grading: A, B or C.
    bands : bool
        Draw many airplanes from what is not known of this one, and give the 90 % bands of each control's share,
        of gyroscopic moments, rotor and mass, of the steepest banks and of the modes.
    seed : int
        Of the draws.

    Raises
    ------
    InputError
        When a bank is out of range.
    NoAnswerError
        When there is no steady straight flight.

    Examples
    --------
    >>> from sim.model.model import model
    >>> answer = handling(model("tollgate"), banks_deg=(-45.0, 45.0))
    >>> [turn.holds for turn in answer.powerplants["flat_four"].turns]
    [True, True]
    """
    banks = checked_banks(banks_deg)
    flying = model.airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    handled = of_each(flying, lambda one: _handled(one, banks, power, category))
    found = {one.name: own for one, own in zip(flying, handled, strict=True)}
    if bands:
        from sim.studies.handling_bands import banded

        asked: dict[str, Any] = {"power": power, "category": category, "seed": seed}
        found = {one.name: banded(model, one, found[one.name], **asked) for one in flying}
    unusual = model.remark_texts("handling")
    return Handling(
        flying[0].speed_m_s, flying[0].altitude_m, found, carried_masses(model, bands=bands), unusual, power
    )


def _handled(
    flying: FlyingAirplane, banks_deg: tuple[float, ...], power: Power | None, category: Category
) -> PowerplantHandling:
    every = turns(flying, np.radians((*banks_deg, 0.0)), power=power)
    straight = len(banks_deg)
    modes, free = (graded_modes(flying, every, straight, category=category, free=free) for free in (False, True))
    spin = float(every.spin_rad_s[straight])
    inertia = flying.powerplant.polar_inertia_kg_m2
    left, right, *by_force = _steepest(flying, power)
    ends = passed_in_turns(flying.airplane, turns(flying, np.array([left[0], right[0]]), power=power).only_found())
    return PowerplantHandling(
        kind=flying.powerplant.kind,
        polar_inertia_kg_m2=inertia,
        spin_rad_s=spin,
        angular_momentum_kg_m2_s=inertia * spin,
        turns=_described(flying, every, banks_deg),
        steepest_left_deg=math.degrees(left[0]),
        steepest_right_deg=math.degrees(right[0]),
        steepest_left_limit=left[1] or None,
        steepest_right_limit=right[1] or None,
        **_forced(*by_force),
        modes=modes,
        free_modes=free,
        forces=stick_forces(flying),
        steepest_left_beyond=ends[0],
        steepest_right_beyond=ends[1],
        modes_beyond=passed_in_turns(flying.airplane, every.only_found())[straight],
        modes_not_held=not_held(flying, every, straight),
    )


def _steepest(flying: FlyingAirplane, power: Power | None) -> Iterator[tuple[float, Any]]:
    """Yield the steepest bank to the left and to the right with its limit, then those that a pilot can hold."""

    def turning(banks: Any) -> Turns:  # noqa: ANN401
        return turns(flying, banks, power=power)

    def by_force(found: Turns) -> Sequence[str]:
        return too_large(control_forces(flying.airplane, flying.controls, found.only_found()))

    most_rad_s = flying.powerplant.full_speed_rad_s
    for further in (None, by_force):
        yield from (
            steepest_bank(turning, flying.travel, side, most_rad_s=most_rad_s, too_much=further) for side in (-1.0, 1.0)
        )


def _forced(left: tuple[float, Any], right: tuple[float, Any]) -> dict[str, Any]:
    """Return the banks that a pilot can hold and the force that is too large beyond, by their names."""
    found: dict[str, Any] = {}
    for side, (bank, limit) in (("left", left), ("right", right)):
        found[f"force_{side}_deg"] = math.degrees(bank)
        found[f"force_{side}_limit"] = limit if limit in FORCES else None
    return found


def _described(flying: FlyingAirplane, found: Turns, banks_deg: Sequence[float]) -> tuple[SteadyTurn, ...]:
    """Return the first steady turns found in degrees, with shares of travel, gyroscopic moments and limits."""
    limits = flown_limits(flying, found)
    found = found.only_found()
    shares = flying.travel.shares(found)
    beyond = passed_in_turns(flying.airplane, found)
    forces = control_forces(flying.airplane, flying.controls, found)
    lasting, minutes, moment = held(forces), past(forces, MINUTES), past(forces, MOMENT)
    degrees = {name: np.degrees(getattr(found, name)).tolist() for name in _ANGLES}
    rows = []
    for i, (bank, limit) in enumerate(zip(banks_deg, limits, strict=False)):
        gyro = gyroscopic_couple(flying, found, i)
        rows.append(
            SteadyTurn(
                bank_deg=bank,
                **{_ANGLES[name]: values[i] for name, values in degrees.items()},
                **{f"{name}_share": float(values[i]) for name, values in shares.items()},
                load_factor=float(found.load_factor[i]),
                spin_rad_s=float(found.spin_rad_s[i]),
                gyro_pitch_n_m=gyro.pitch_n_m,
                gyro_yaw_n_m=gyro.yaw_n_m,
                stick_force_n=float(forces.stick_n[i]),
                stick_side_force_n=float(forces.stick_side_n[i]),
                pedal_force_n=float(forces.pedal_n[i]),
                force_held=lasting[i],
                past_minutes=minutes[i],
                past_moment=moment[i],
                holds=not limit,
                limit=limit or None,
                beyond=beyond[i],
            )
        )
    return tuple(rows)


_ANGLES = {
    "turn_rate_rad_s": "turn_rate_deg_s",
    "alpha_rad": "alpha_deg",
    "sideslip_rad": "sideslip_deg",
    "elevator_rad": "elevator_deg",
    "aileron_rad": "aileron_deg",
    "rudder_rad": "rudder_deg",
}
