"""Bands of handling: the same turns with many airplanes, drawn from what is not known of this one."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.studies.bands import DRAWS, drawn_flying, drawn_turns, ends_of, gyroscopic_moments, rotor_inertias_kg_m2
from sim.studies.handling_forces import drawn_forces, with_force_bands
from sim.studies.mode_bands import drawn_modes, roots_of, with_bands
from sim.studies.steepest_bands import COARSE_DEG, drawn_steepest_rad
from sim.studies.straight_bands import with_straight_bands
from sim.studies.turns import flown_limits

if TYPE_CHECKING:
    from sim.flight.quality import Category
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.handling_answer import PowerplantHandling
    from sim.studies.turns import Power


def banded(
    model: Model,
    flying: FlyingAirplane,
    found: PowerplantHandling,
    *,
    power: Power | None,
    category: Category,
    seed: int,
) -> PowerplantHandling:
    """Return handling with the 90 % bands of each control's share in each turn, the steepest banks, and the modes.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    flying : FlyingAirplane
        With one powerplant.
    found : PowerplantHandling
        Its handling without bands.
    power : str or None
        As in `sim.studies.handling.handling`.
    category : str
        As there.
    seed : int
        Of the draws.

    Notes
    -----
    Of those airplanes alone that have a balanced turn at all; `holds_probability` counts the others as not holding it.
    """
    asked = [turn.bank_deg for turn in found.turns]
    every_deg = list(dict.fromkeys((*asked, *COARSE_DEG)))
    banks = np.radians(every_deg)
    many = drawn_flying(model, flying, seed)
    every = drawn_turns(many, banks, power)
    held = np.array([not limit for limit in flown_limits(flying, every)]).reshape(DRAWS, -1)
    couples = dict(zip(("gyro_pitch_n_m", "gyro_yaw_n_m"), gyroscopic_moments(many, every), strict=True))
    shares = {name: row.reshape(DRAWS, -1) for name, row in flying.travel.shares(every.only_found()).items()}
    forces, force_ends = drawn_forces(many, every, seed)
    drawn_rows = {f"{name}_share": values for name, values in shares.items()} | couples | forces
    rows = []
    for turn, i in zip(found.turns, map(every_deg.index, asked), strict=True):
        ends: dict[str, Any] = ends_of({name: values[:, i] for name, values in drawn_rows.items()})
        rows.append(replace(turn, **ends, holds_probability=float(held[:, i].mean())))
    level = every_deg.index(0.0)
    balanced = np.flatnonzero(every.found.reshape(DRAWS, -1)[:, level])
    drawn = drawn_modes(many, every, balanced * len(banks) + level, balanced)
    left, right = drawn_steepest_rad(many, banks, held, power)
    spin, inertia = every.only_found().spin_rad_s.reshape(DRAWS, -1)[:, level], rotor_inertias_kg_m2(many)
    whole: dict[str, Any] = ends_of(
        {
            "steepest_left_deg": np.degrees(left),
            "steepest_right_deg": np.degrees(right),
            "polar_inertia_kg_m2": inertia,
            "spin_rad_s": spin,
            "angular_momentum_kg_m2_s": inertia * spin,
        }
    )
    return replace(
        found,
        turns=tuple(rows),
        forces=with_straight_bands(many, with_force_bands(found.forces, force_ends), seed),
        modes=with_bands(found.modes, drawn, category),
        drawn_roots=roots_of(drawn),
        **whole,
    )
