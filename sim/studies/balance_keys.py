"""What a balance changes in a scenario: mass, inertia, and every arm that is measured from the centre of gravity."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.studies.balance_remarks import unlike_axes, wing_arm_m
from sim.units.text import written

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.model.model import Model
    from sim.studies.balance_answer import BalanceAnswer
    from sim.units.quantities import System

MOVE_DIGITS = 9
"""Of a written move, so that a third of an inch three times forward is an inch back."""
NO_MOVE_M = 1e-9
"""Of moves and their way back, what rounding leaves."""


def move_key(answer: BalanceAnswer, *, system: System) -> dict[str, str]:
    """Return the key that moves the engine of a scenario as it was moved for a balance; no move is a key to spare.

    Parameters
    ----------
    answer : BalanceAnswer
        With the engine moved.
    system : {"us", "si"}
        Units to write.
    """
    move_m = answer.moved_m if abs(answer.moved_m) > NO_MOVE_M else 0.0
    return {f"powerplant.{answer.powerplant}.move": written("m", move_m, system=system, digits=MOVE_DIGITS)}


def to_spare(answer: BalanceAnswer, keys: Iterable[str]) -> frozenset[str]:
    """Return those of the keys of `move_key` that say what a scenario without them means."""
    return frozenset(keys if abs(answer.moved_m) <= NO_MOVE_M else ())


def balance_keys(model: Model, answer: BalanceAnswer, *, system: System) -> dict[str, str]:
    """Return the keys of a scenario that its balance determines, as text, for the flights to go by.

    Parameters
    ----------
    model : Model
        The airplane that was balanced.
    answer : BalanceAnswer
        Its balance.
    system : {"us", "si"}
        Units to write.

    Notes
    -----
    Where items without sizes, which count as points, give a moment of inertia that no airplane has, none is written,
    see `sim.studies.balance_remarks`. The wing's arm follows from its station and the loaded centre of gravity; tail
    and fin stand where they stood, so their arms change as much as the wing's; those of the propellers of all engines
    are to the disc where it is drawn, for all arms of a scenario are from one centre of gravity. The airplane table
    leaves the rotor out of the roll inertia; engine and propeller are points on the thrust line here, so nothing need
    be taken off. Where the arms are right already they stay as they are written, so that writing twice changes
    nothing.
    """
    inertia = answer.inertia_kg_m2
    stated = {key: value.value for key, value in model.flight_keys.items()}
    arm_m = wing_arm_m(model, answer.cg_station_m)
    arm = written("m", arm_m, answer.cg_error_m, system=system)
    stays = arm == written("m", stated["wing.arm"], answer.cg_error_m, system=system)
    back_m = 0.0 if stays else arm_m - stated["wing.arm"]
    arms_m = {"tailplane.arm": stated["tailplane.arm"] + back_m, "fin.arm": stated["fin.arm"] + back_m}
    for name, engine in model.powerplants.items():
        nose, disc_m = f"powerplant.{name}.propeller.arm", engine.propeller.station_m
        drawn_m = None if disc_m is None else disc_m - model.engine_move_m(name)
        arms_m[nose] = stated[nose] - back_m if drawn_m is None else answer.cg_station_m - drawn_m
        arms_m[f"powerplant.{name}.thrust_arm"] = answer.cg_waterline_m - model.thrust_line_m
    inertias = {"roll": inertia.xx, "pitch": inertia.yy, "yaw": inertia.zz, "product": inertia.xz}
    if unlike_axes(model, answer.mass_kg, inertia):
        inertias = {}
    return {
        "airplane.mass": written("kg", answer.mass_kg, answer.mass_error_kg, system=system),
        **{f"airplane.inertia_{axis}": written("kg m^2", of, system=system) for axis, of in inertias.items()},
        "wing.arm": arm,
        **{key: written("m", of_m, system=system) for key, of_m in arms_m.items()},
    }
