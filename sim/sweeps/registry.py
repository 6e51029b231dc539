"""Every study that a sweep can compute, by the name of its command."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, get_args

from sim.errors import did_you_mean, refuse
from sim.flight.maneuver import ManeuverName
from sim.studies.autorotation import autorotation
from sim.studies.balance import balance
from sim.studies.burst import burst
from sim.studies.compare import compare
from sim.studies.cooling import cooling
from sim.studies.derivatives import derivatives
from sim.studies.drag import drag
from sim.studies.drawing import drawing
from sim.studies.exhibit import exhibit
from sim.studies.field import field
from sim.studies.handling import handling
from sim.studies.layout import layout
from sim.studies.link import link
from sim.studies.maneuver import maneuver
from sim.studies.modes import modes
from sim.studies.mount import mount
from sim.studies.propeller import propeller
from sim.studies.rate import rate
from sim.studies.rotor_effect import rotor_effect
from sim.studies.safe_range import safe_range
from sim.studies.speeds import speeds
from sim.studies.structure import structure
from sim.studies.windows import windows
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.model.model import Model

ROUNDS = 100_000
"""Fired for each point that asks for bursts, from the same seed; the exact answer stands beside them."""

MANEUVERS: Final = get_args(ManeuverName)

STUDIES: Final[dict[str, Callable[[Model], object]]] = {
    "compare": compare,
    "handling": handling,
    "summary": rotor_effect,
    "modes": modes,
    "derivatives": derivatives,
    "drag": drag,
    "speeds": speeds,
    "field": field,
    "autorotation": autorotation,
    "propeller": propeller,
    "layout": layout,
    "drawing": drawing,
    "balance": balance,
    "mount": mount,
    "structure": structure,
    "windows": windows,
    "rate": rate,
    "safe_range": safe_range,
    "burst": lambda model: burst(model, rounds=ROUNDS),
    "link": link,
    "cooling": cooling,
    "exhibit": exhibit,
    **{
        f"maneuver.{name}": lambda model, name=name: maneuver(model, name)  # type: ignore[misc]
        for name in MANEUVERS
    },
}
"""Name -> the study's answer about a model."""


def split(key: str, where: str) -> tuple[str, str]:
    """Return the study that a dotted key begins with, and the path into its answer.

    Raises
    ------
    InputError
        When it begins with none.
    """
    study, _, path = key.partition(".")
    if study == "maneuver":
        name, _, path = path.partition(".")
        if name not in MANEUVERS:
            known = f"must name a manoeuvre after maneuver, {', '.join(MANEUVERS)}"
            refuse(where, f"{known}, got {quoted(name)}{did_you_mean(name, MANEUVERS)}")
        study = f"maneuver.{name}"
    elif study not in STUDIES:
        known = ", ".join(dict.fromkeys(name.partition(".")[0] for name in STUDIES))
        refuse(where, f"must begin with a study, {known}, got {quoted(study)}{did_you_mean(study, STUDIES)}")
    return study, path
