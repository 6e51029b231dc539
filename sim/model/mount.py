"""The engine mount of a scenario and every powerplant on it, where the scenario has it; its truss as drawn."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, one_of
from sim.model.mount_isolators import hung_inertia, isolator_faults, mount_isolators
from sim.model.weights import thrust_line_m
from sim.structures.bolts import Bolt
from sim.structures.load_cases import MountedPowerplant, disc_thrust
from sim.structures.materials import materials
from sim.structures.truss import Node, Tube, truss_faults

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    import numpy as np
    from numpy.typing import NDArray

    from sim.airframe.masses import Item
    from sim.model.mount_isolators import MountIsolators
    from sim.model.powerplant import Powerplant
    from sim.scenario.mount import HungTable, MountTable
    from sim.scenario.tables import Scenario
    from sim.structures.materials import StructuralMaterial

Lump = tuple[float, float, float]
"""Mass, station of its centre aft of the datum, and how far it lies below the shaft axis. [kg, m, m]"""


@dataclass(frozen=True, slots=True)
class Mount:
    """The engine mount, and every powerplant at the firewall where the scenario has it.

    Attributes
    ----------
    powerplant : str
        The one that hangs on it; the loads of the others at the firewall are for comparison.
    load_factor : float
        Limit manoeuvring load factor.
    side_factor : float or None
        Sideways limit load factor; None for that of the rules.
    bolts : tuple of Bolt
        Through the firewall.
    nodes, tubes : tuple
        Of the truss, as drawn; empty without one.
    engines : dict of MountedPowerplant
        By powerplant.
    alone : frozenset of str
        Powerplants whose engine and propeller alone count, for nothing tells what else hangs there.
    isolators : MountIsolators or None
        Between engine and mount; None without.
    inertias_kg_m2 : dict
        By powerplant: 3 x 3, of what hangs on the mount about its own centre of mass, body axes; None where the
        scenario does not give the size of the engine. [kg m²]
    """

    powerplant: str
    load_factor: float
    side_factor: float | None
    bolts: tuple[Bolt, ...]
    nodes: tuple[Node, ...]
    tubes: tuple[Tube, ...]
    engines: dict[str, MountedPowerplant]
    alone: frozenset[str]
    isolators: MountIsolators | None
    inertias_kg_m2: dict[str, NDArray[np.float64] | None]


def mount(
    scenario: Scenario,
    powerplants: Mapping[str, Powerplant],
    usual: str,
    items: Callable[[str], tuple[Item, ...] | None],
) -> Mount:
    """Return the mount of a scenario.

    Parameters
    ----------
    scenario : Scenario
        With the table ``mount``.
    powerplants : mapping of Powerplant
        By name.
    usual : str
        Name of the one that hangs on the mount where its table names none.
    items : callable
        The items with a powerplant, by its name; None where there is no list. With it everything that moves with the
        engine is on the mount, without it engine and propeller; the table ``mount.hung`` goes before both.

    Raises
    ------
    InputError
        When the scenario does not say where engine and firewall stand, its tubes make no truss, or a material is
        unknown.
    """
    table = scenario.mount
    if table is None:
        raise InputError([Fault("mount", "is missing; give the table mount with firewall and bolts")])
    of_tubes, of_bolts = _materials(table)
    nodes = tuple(Node(name, (row.ahead_m, row.right_m, -row.up_m), row.held) for name, row in table.node.items())
    tubes = tuple(
        Tube(name, row.start, row.end, row.diameter_m, row.wall_m, of_tubes) for name, row in table.tube.items()
    )
    faults = [
        *_unknown(table, powerplants),
        *_unplaced(powerplants, table),
        *(truss_faults(nodes, tubes) if nodes or tubes else ()),
        *isolator_faults(table),
    ]
    if faults:
        raise InputError(faults)
    hung = {name: items(name) for name in powerplants}
    engines = {
        name: _mounted(
            engine, table, _lump(engine, hung[name], thrust_line_m(scenario)), scenario.powerplant[name].move_m
        )
        for name, engine in powerplants.items()
    }
    hangs = table.powerplant or usual
    return Mount(
        powerplant=hangs,
        load_factor=table.load_factor,
        side_factor=table.side_factor,
        bolts=tuple(
            Bolt(name, row.right_m, -row.up_m, row.diameter_m, row.thread_pitch_m, of_bolts)
            for name, row in table.bolt.items()
        ),
        nodes=nodes,
        tubes=tubes,
        engines=engines,
        alone=frozenset(name for name, there in hung.items() if there is None and not _weighs(table, name)),
        isolators=mount_isolators(table, engines[hangs].mass_kg),
        inertias_kg_m2={name: hung_inertia(powerplants[name], hung[name], table.hung.get(name)) for name in engines},
    )


def _materials(table: MountTable) -> tuple[StructuralMaterial, StructuralMaterial]:
    """Return the materials of tubes and bolts; a yield strength of the scenario is the strength of tubes in all."""
    known = materials()
    asked = {"material": table.material, "bolt_material": table.bolt_material}
    faults = [Fault(f"mount.{key}", one_of(known, name)) for key, name in asked.items() if name not in known]
    if faults:
        raise InputError(faults)
    tubes = known[table.material]
    if table.modulus_pa is not None:
        tubes = replace(tubes, modulus_pa=table.modulus_pa)
    if table.yield_strength_pa is not None:
        own = table.yield_strength_pa
        tubes = replace(
            tubes,
            name="as given",
            tension_pa=own,
            yield_pa=own,
            column_pa=own,
            column_power=2.0,
            source="mount.yield_strength of the scenario",
        )
    return tubes, known[table.bolt_material]


def _weighs(table: MountTable, name: str) -> bool:
    """Return whether the table says what hangs on the mount with a powerplant."""
    return name in table.hung and table.hung[name].mass_kg is not None


def _unknown(table: MountTable, powerplants: Mapping[str, Powerplant]) -> Iterator[Fault]:
    if table.powerplant is not None and table.powerplant not in powerplants:
        yield Fault("mount.powerplant", one_of(powerplants, table.powerplant))


def _unplaced(powerplants: Mapping[str, Powerplant], mount: MountTable) -> Iterator[Fault]:
    """Yield what is missing to tell how far ahead of the firewall each powerplant is."""
    for name, engine in powerplants.items():
        hung = mount.hung.get(name)
        if hung is not None and hung.ahead_m is not None:
            continue
        other = f"or give mount.hung.{name}.ahead"
        if mount.firewall_m is None:
            yield Fault("mount.firewall", f"is missing; give the station of the firewall, {other}")
        if engine.station_m is None:
            yield Fault(f"powerplant.{name}.station", f"is missing; give the station of the engine's CG, {other}")


def _mounted(engine: Powerplant, table: MountTable, lump: Lump, move_m: float) -> MountedPowerplant:
    mass_kg, ahead_m, below_m = _placed(lump, table, table.hung.get(engine.name), move_m)
    backward = -1.0 if engine.gear_ratio < 0.0 else 1.0
    return MountedPowerplant(
        mass_kg=mass_kg,
        ahead_m=ahead_m,
        below_m=below_m,
        thrust_n=disc_thrust(engine.power_w, engine.propeller.diameter_m),
        torque_n_m=-engine.sense * backward * engine.power_w / abs(engine.full_speed_rad_s * engine.gear_ratio),
        cylinders=engine.cylinders,
        momentum_kg_m2_s=engine.momentum_kg_m2_s(engine.full_speed_rad_s),
        pulsing_momentum_kg_m2_s=engine.pulsing_momentum_kg_m2_s(engine.full_speed_rad_s),
    )


def _placed(lump: Lump, table: MountTable, given: HungTable | None, move_m: float) -> Lump:
    """Return mass, distance ahead of the firewall and below the shaft axis: as given where drawn, else of the lump."""
    mass_kg, station_m, below_m = lump
    ahead_m = (table.firewall_m or 0.0) - station_m
    if given is None:
        return mass_kg, ahead_m, below_m
    return (
        given.mass_kg or mass_kg,
        ahead_m if given.ahead_m is None else given.ahead_m - move_m,
        below_m if given.up_m is None else -given.up_m,
    )


def _lump(engine: Powerplant, items: Sequence[Item] | None, line_m: float) -> Lump:
    """Return everything on the mount with one powerplant as one mass; 0 for a station that is not given."""
    if items is not None:
        hung = [item for item in items if item.moves_with_engine]
        return _together([(item.mass_kg, item.station_m, line_m - item.waterline_m) for item in hung])
    engine_m, propeller = engine.station_m or 0.0, engine.propeller
    disc_m = engine_m if propeller.station_m is None else propeller.station_m
    return _together([(engine.mass_kg, engine_m, 0.0), (propeller.mass_kg or 0.0, disc_m, 0.0)])


def _together(lumps: Sequence[Lump]) -> Lump:
    mass_kg = sum(lump[0] for lump in lumps)
    return mass_kg, sum(m * x for m, x, _ in lumps) / mass_kg, sum(m * z for m, _, z in lumps) / mass_kg
