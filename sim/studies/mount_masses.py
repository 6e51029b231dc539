"""What hangs on the mount with each powerplant, how far ahead, and how far the balance moves it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import Fault
from sim.model.powerplant import powerplant
from sim.model.weights import item_list
from sim.structure.load_cases import MountedPowerplant, disc_thrust
from sim.studies.balance import balance

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.scenario.mount import MountTable
    from sim.scenario.tables import Scenario

Lump = tuple[float, float, float]
"""Mass, station of its centre aft of the datum, and how far it lies below the shaft axis. [kg, m, m]"""


def engine_moves(scenario: Scenario, engine_move_m: float | None = None) -> dict[str, float]:
    """Return how far each powerplant stands aft of where it is drawn [m].

    Parameters
    ----------
    scenario : Scenario
        Where it can be balanced, each engine goes where it brings the loaded centre of gravity on target.
    engine_move_m : float, optional
        Instead, the same for every engine; 0 is as drawn. [m]
    """
    if engine_move_m is not None or scenario.balance is None or scenario.layout is None:
        return dict.fromkeys(scenario.powerplant, engine_move_m or 0.0)
    return {
        name: balance(scenario, name).engine_move_m if _listed(scenario, name) else 0.0 for name in scenario.powerplant
    }


def _listed(scenario: Scenario, name: str) -> bool:
    """Whether the item list holds all that flies with a powerplant."""
    engine, propeller = scenario.powerplant[name], scenario.powerplant[name].propeller
    placed = engine.station_m is not None and (propeller.mass_kg is None or propeller.station_m is not None)
    return placed and bool(scenario.item)


def hung_bodies(scenario: Scenario, mount: MountTable, moves: dict[str, float]) -> dict[str, MountedPowerplant]:
    """Return every powerplant as it hangs on the mount.

    Parameters
    ----------
    scenario, mount : Scenario, MountTable
        The airplane and its table of the mount.
    moves : dict of float
        By powerplant, aft positive. [m]

    Notes
    -----
    With an item list everything that moves with the engine hangs on the mount; without one, engine and propeller.
    The table ``mount.hung`` goes before both.
    """
    return {name: _hung(scenario, mount, name, moves[name]) for name in scenario.powerplant}


def place_faults(scenario: Scenario, mount: MountTable) -> Iterator[Fault]:
    """Yield what is missing to tell how far ahead of the firewall each powerplant hangs.

    Parameters
    ----------
    scenario, mount : Scenario, MountTable
        The airplane and its table of the mount.
    """
    for name, engine in scenario.powerplant.items():
        hung = mount.hung.get(name)
        if hung is not None and hung.ahead_m is not None:
            continue
        other = f"or give mount.hung.{name}.ahead"
        if mount.firewall_m is None:
            yield Fault("mount.firewall", f"is missing; give the station of the firewall, {other}")
        if engine.station_m is None:
            yield Fault(f"powerplant.{name}.station", f"is missing; give the station of the engine's CG, {other}")


def _hung(scenario: Scenario, mount: MountTable, name: str, move_m: float) -> MountedPowerplant:
    engine, said, turning = scenario.powerplant[name], mount.hung.get(name), powerplant(name, scenario.powerplant[name])
    mass_kg, station_m, below_m = _lump(scenario, name)
    drawn_m = said.ahead_m if said else None
    ahead_m = (mount.firewall_m or 0.0) - station_m if drawn_m is None else drawn_m
    up_m = said.up_m if said else None
    backward = -1.0 if engine.gear_ratio < 0.0 else 1.0
    return MountedPowerplant(
        mass_kg=said.mass_kg if said and said.mass_kg else mass_kg,
        ahead_m=ahead_m - move_m,
        below_m=below_m if up_m is None else -up_m,
        thrust_n=disc_thrust(engine.power_w, engine.propeller.diameter_m),
        torque_n_m=-turning.sense * backward * engine.power_w / abs(engine.speed_rad_s * engine.gear_ratio),
        cylinders=engine.cylinders,
        momentum_kg_m2_s=turning.momentum_kg_m2_s(engine.speed_rad_s),
        pulsing_momentum_kg_m2_s=turning.pulsing_momentum_kg_m2_s(engine.speed_rad_s),
    )


def _lump(scenario: Scenario, name: str) -> Lump:
    """Return all that hangs with one powerplant as one mass; 0 for a station that is not given."""
    engine = scenario.powerplant[name]
    if _listed(scenario, name):
        line_m = scenario.balance.thrust_line_m if scenario.balance else 0.0
        moving = [item for item in item_list(scenario, name) if item.moves_with_engine]
        return _together([(item.mass_kg, item.station_m, line_m - item.waterline_m) for item in moving])
    engine_m, propeller = engine.station_m or 0.0, engine.propeller
    disc_m = engine_m if propeller.station_m is None else propeller.station_m
    return _together([(engine.mass_kg, engine_m, 0.0), (propeller.mass_kg or 0.0, disc_m, 0.0)])


def _together(lumps: list[Lump]) -> Lump:
    mass_kg = sum(lump[0] for lump in lumps)
    return mass_kg, sum(m * x for m, x, _ in lumps) / mass_kg, sum(m * z for m, _, z in lumps) / mass_kg
