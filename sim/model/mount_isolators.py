"""The isolators of an engine mount: their stiffness, clearances of the engine, and inertia of what hangs there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.airframe.masses import Item, total
from sim.atmosphere import GRAVITY_M_S2
from sim.errors import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from sim.model.powerplant import Powerplant
    from sim.scenario.mount import HungTable, IsolatorsTable, MountTable

    Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Clearance:
    """A point of the engine that comes near the airframe.

    Attributes
    ----------
    name : str
        As in the scenario.
    place_m : tuple of float
        Forward, right, down from the point where the shaft axis meets the firewall, engine as drawn. [m]
    clearance_m : float
        Clearance in any direction, engine hanging at rest. [m]
    """

    name: str
    place_m: Vector
    clearance_m: float


@dataclass(frozen=True, slots=True)
class MountIsolators:
    """The isolators of a mount.

    Attributes
    ----------
    stiffness_n_per_m : tuple of float
        Of each: fore and aft, sideways, up and down. [N/m]
    clearances : tuple of Clearance
        Of the engine.
    source : str
        Where the stiffness comes from, as the scenario says it.
    """

    stiffness_n_per_m: Vector
    clearances: tuple[Clearance, ...]
    source: str


def isolator_faults(table: MountTable) -> Iterator[Fault]:
    """Yield what isolators and clearances lack: nodes of the engine to stand at, and isolators to move on."""
    if table.isolators is not None and not any(node.held == "engine" for node in table.node.values()):
        yield Fault("mount.isolators", 'stand at the nodes of the engine; give mount.node with held = "engine"')
    if table.isolators is None and table.clearance:
        yield Fault("mount.clearance", "is of an engine on isolators; give the table mount.isolators")


def mount_isolators(table: MountTable, mass_kg: float) -> MountIsolators | None:
    """Return the isolators of a mount; None where it has none.

    Parameters
    ----------
    table : MountTable
        Without faults.
    mass_kg : float
        That makes their deflection, where it is given. [kg]
    """
    given = table.isolators
    if given is None:
        return None
    count = sum(node.held == "engine" for node in table.node.values())
    upright = _upright(given, mass_kg * GRAVITY_M_S2 / count)
    return MountIsolators(
        stiffness_n_per_m=(
            given.fore_aft_stiffness_n_per_m or upright,
            given.side_stiffness_n_per_m or upright,
            upright,
        ),
        clearances=tuple(
            Clearance(name, (row.ahead_m, row.right_m, -row.up_m), row.clearance_m)
            for name, row in table.clearance.items()
        ),
        source=given.source,
    )


def _upright(given: IsolatorsTable, weight_n: float) -> float:
    """Return the stiffness up and down of one isolator under its part of the weight [N/m]."""
    return given.vertical_stiffness_n_per_m or weight_n / (given.deflection_m or np.inf)


def hung_inertia(
    engine: Powerplant, items: Sequence[Item] | None, given: HungTable | None
) -> NDArray[np.float64] | None:
    """Return the inertia of what hangs on a mount about its own centre of mass, body axes [kg m²].

    Parameters
    ----------
    engine : Powerplant
        Whose box the table gives.
    items : sequence of Item or None
        The list with it; without one engine and propeller count alone.
    given : HungTable or None
        Its table, which may give length, width and height of the engine; None is returned where it does not.

    Notes
    -----
    The engine is an even box; the propeller has its polar inertia about the shaft and half of it across, that of two
    blades in the mean of a turn. Where the table gives the mass, all radii of gyration are kept. An engine is heavier
    in its middle than an even box, so that its inertia comes out high; by how much was not measured.
    """
    sizes_m = (given.length_m, given.width_m, given.height_m) if given else (None, None, None)
    if given is None or None in sizes_m:
        return None
    hung = [item for item in items if item.moves_with_engine] if items is not None else _alone(engine)
    length_m, width_m, height_m = (size or 0.0 for size in sizes_m)
    boxed = [
        replace(item, length_m=length_m, width_m=width_m, height_m=height_m) if item.name == engine.name else item
        for item in hung
    ]
    whole = total(boxed)
    own, disc = whole.inertia_kg_m2, engine.propeller.polar_inertia_kg_m2
    tensor = np.array([[own.xx, -own.xy, -own.xz], [-own.xy, own.yy, -own.yz], [-own.xz, -own.yz, own.zz]])
    tensor += np.diag([disc, 0.5 * disc, 0.5 * disc])
    return tensor * ((given.mass_kg or whole.mass_kg) / whole.mass_kg)


def _alone(engine: Powerplant) -> list[Item]:
    engine_m, propeller = engine.station_m or 0.0, engine.propeller
    disc_m = engine_m if propeller.station_m is None else propeller.station_m
    return [Item(engine.name, "engine", engine.mass_kg, engine_m), Item("", "engine", propeller.mass_kg or 0.0, disc_m)]
