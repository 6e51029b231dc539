"""The engine on its isolators: sag, sway in the load cases, clearances left, and frequencies beside those it makes."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.structures.isolators import EngineMode, Isolators, modes, movement
from sim.structures.load_cases import at_rest

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.model.mount import Mount
    from sim.model.mount_isolators import Clearance
    from sim.model.powerplant import Powerplant
    from sim.structures.isolators import EngineMovement
    from sim.structures.truss import Node
    from sim.studies.mount_answer import MountCase

    Vector = tuple[float, float, float]

ISOLATES: Final = 2.0**0.5
"""Rate over natural frequency above which an undamped isolator passes on less than the force (Den Hartog, 2.12)."""


@dataclass(frozen=True, slots=True)
class IsolatorSway:
    """How far the engine moves in one load case at limit load, from where it hangs at rest.

    Attributes
    ----------
    name : str
        The load case.
    cg_shift_m : tuple of float
        Of the centre of mass: forward, right, down. [m]
    sway_m : float
        Of the centre of mass, in any direction. [m]
    """

    name: str
    cg_shift_m: Vector
    sway_m: float


@dataclass(frozen=True, slots=True)
class IsolatorClearance:
    """The least clearance of one point of the engine.

    Attributes
    ----------
    name, case : str
        The point, and the load case that takes most of its clearance.
    clearance_m : float
        At rest. [m]
    sway_m : float
        How far it moves in that case from where it hangs at rest. [m]
    left_m : float
        Of the clearance; below 0 the engine strikes. [m]
    """

    name: str
    case: str
    clearance_m: float
    sway_m: float
    left_m: float


@dataclass(frozen=True, slots=True)
class IsolatorRate:
    """A rate at which the engine shakes its mount, beside the natural frequencies.

    Attributes
    ----------
    name : str
        ``firing``, ``engine shaft`` or ``propeller``.
    idle_rad_s, full_rad_s : float
        At idle and at full speed. [rad/s]
    idle_ratio, full_ratio : float
        Over the lowest natural frequency: isolated above the root of 2.
    idle_highest_ratio : float
        At idle over the highest natural frequency.
    meets : tuple of str
        Motions whose natural frequency the rate passes between idle and full speed.
    """

    name: str
    idle_rad_s: float
    full_rad_s: float
    idle_ratio: float
    full_ratio: float
    idle_highest_ratio: float
    meets: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class IsolatedEngine:
    """The engine on its isolators.

    Attributes
    ----------
    isolator_count : int
        One at each node of the engine.
    isolator_n_per_m : tuple of float
        Stiffness of each: fore and aft, sideways, up and down. [N/m]
    stiffness_source : str
        As the scenario names it.
    sag_m : tuple of float
        How far the weight alone moves the centre of mass: forward, right, down. [m]
    sways : tuple of IsolatorSway
        Case by case.
    clearances : tuple of IsolatorClearance
        In the order of the file.
    modes : tuple of EngineMode
        From the lowest up; three where the scenario does not give the size of the engine.
    rates : tuple of IsolatorRate
        Of the engine.
    """

    isolator_count: int
    isolator_n_per_m: Vector
    stiffness_source: str
    sag_m: Vector
    sways: tuple[IsolatorSway, ...]
    clearances: tuple[IsolatorClearance, ...]
    modes: tuple[EngineMode, ...]
    rates: tuple[IsolatorRate, ...]


def isolated(
    drawn: Mount, engine: Powerplant, nodes: Sequence[Node], cases: Sequence[MountCase], *, move_m: float
) -> IsolatedEngine | None:
    """Return the engine of a mount on its isolators; None where it has none.

    Parameters
    ----------
    drawn : Mount
        With the engine where it stands.
    engine : Powerplant
        The one that hangs there.
    nodes : sequence of Node
        Of the truss, with the engine there.
    cases : sequence of MountCase
        Of this engine.
    move_m : float
        From where it is drawn, aft positive. [m]

    Raises
    ------
    NoAnswerError
        When the isolators stand in one line.
    """
    given = drawn.isolators
    if given is None:
        return None
    hung = drawn.engines[engine.name]
    cg_m = (hung.ahead_m, 0.0, hung.below_m)
    places = tuple(node.place_m for node in nodes if node.held == "engine")
    isolators = Isolators(places, given.stiffness_n_per_m)
    rest = at_rest(hung)
    found = modes(isolators, hung.mass_kg, cg_m, drawn.inertias_kg_m2[engine.name])
    sways = {
        case.name: movement(
            isolators,
            np.subtract(case.limit_force_n, rest.limit_force_n).tolist(),
            np.subtract(case.limit_moment_n_m, rest.limit_moment_n_m).tolist(),
        )
        for case in cases
    }
    return IsolatedEngine(
        isolator_count=len(places),
        isolator_n_per_m=given.stiffness_n_per_m,
        stiffness_source=given.source,
        sag_m=movement(isolators, rest.limit_force_n, rest.limit_moment_n_m).at(cg_m),
        sways=tuple(IsolatorSway(name, at := sway.at(cg_m), hypot(*at)) for name, sway in sways.items()),
        clearances=tuple(_clearance(point, sways, move_m) for point in given.clearances),
        modes=found,
        rates=tuple(_rates(engine, found)),
    )


def _clearance(point: Clearance, sways: dict[str, EngineMovement], move_m: float) -> IsolatorClearance:
    ahead_m, right_m, down_m = point.place_m
    moves = {name: hypot(*sway.at((ahead_m - move_m, right_m, down_m))) for name, sway in sways.items()}
    case = max(moves, key=lambda name: moves[name])
    return IsolatorClearance(point.name, case, point.clearance_m, moves[case], left_m=point.clearance_m - moves[case])


def _rates(engine: Powerplant, found: Sequence[EngineMode]) -> Iterator[IsolatorRate]:
    """Yield the rates of a four-stroke engine: half a firing a turn and cylinder, its shaft, and a geared propeller."""
    times = {"firing": 0.5 * engine.cylinders, "engine shaft": 1.0}
    if abs(engine.gear_ratio) != 1.0:
        times["propeller"] = abs(engine.gear_ratio)
    lowest, highest = found[0].natural_rad_s, found[-1].natural_rad_s
    for name, factor in times.items():
        idle, full = factor * engine.idle_speed_rad_s, factor * engine.full_speed_rad_s
        yield IsolatorRate(
            name=name,
            idle_rad_s=idle,
            full_rad_s=full,
            idle_ratio=idle / lowest,
            full_ratio=full / lowest,
            idle_highest_ratio=idle / highest,
            meets=tuple(one.name for one in found if idle <= one.natural_rad_s <= full),
        )
