"""Everything of a scenario that has mass: the item list of each powerplant, and what the flights go by."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL
from sim.airframe.masses import Item, PastBuild, fill_missing
from sim.errors import Fault, InputError
from sim.model.flown_mass import set_keys
from sim.units.parsing import Measured

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator

    from sim.model.plausibility.remark import Remark
    from sim.scenario.shop import ItemTable
    from sim.scenario.tables import Scenario

ENGINE = "engine"
FLIGHT_KEYS = (
    "airplane.mass",
    "airplane.inertia_roll",
    "airplane.inertia_pitch",
    "airplane.inertia_yaw",
    "wing.arm",
    "tailplane.arm",
    "fin.arm",
)
"""Keys that say what an item list says as well."""
DERIVED_MASS, DERIVED_ARMS = ("airplane.mass",), ("wing.arm",)
DERIVED_INERTIAS = ("airplane.inertia_product", *(key for key in FLIGHT_KEYS if key.startswith("airplane.inertia")))
"""Of these, those in whose place a complete list serves; tail and fin keep their places, which their arms say."""


@dataclass(frozen=True, slots=True)
class Weights:
    """Everything that has mass in the loaded airplane with one powerplant.

    Attributes
    ----------
    powerplant : str
        Its name.
    items : tuple of Item
        The items of the file, then those filled in from past builds, then engine and propeller; where they are drawn,
        without the move of the engine or their own.
    from_past : frozenset of str
        Names of the items whose mass is a share of past builds.
    engine_station_m : float
        Centre of gravity of the engine, aft of the datum, with the move that its table gives. [m]
    propeller_station_m : float or None
        Disc of the propeller, likewise; None where the scenario does not say. [m]
    """

    powerplant: str
    items: tuple[Item, ...]
    from_past: frozenset[str]
    engine_station_m: float
    propeller_station_m: float | None


def weights(scenario: Scenario, powerplant: str) -> Weights:
    """Return everything that has mass with one powerplant, missing masses filled in from past builds.

    Parameters
    ----------
    scenario : Scenario
        With at least one item.
    powerplant : str
        Name of one of its powerplants.

    Raises
    ------
    InputError
        Every missing station and mass at once.
    """
    listed = [
        (_item(scenario, number, row), row.mass_kg is None)
        for number, row in enumerate(scenario.item, start=1)
        if row.powerplant in (None, powerplant)
    ]
    faults = [] if scenario.item else [Fault("item", "is missing: give what weighs something, one [[item]] each")]
    faults += _unplaced(scenario, powerplant)
    faults += [
        Fault(f"item.{item.name}.mass", "is missing: past builds serve only for the empty airplane")
        for item, missing in listed
        if missing and item.group in USEFUL
    ]
    if faults:
        raise InputError(faults)
    engine = tuple(_engine_and_propeller(scenario, powerplant))
    known = tuple(item for item, missing in listed if not missing)
    empty = [*(item for item in known if item.group not in USEFUL and not item.added), *engine]
    past = [PastBuild(build.name, build.empty_mass_kg, dict(build.group)) for build in scenario.past]
    filled = fill_missing(empty, [item for item, missing in listed if missing], past)
    table = scenario.powerplant[powerplant]
    disc_m = table.propeller.station_m
    return Weights(
        powerplant,
        (*known, *filled, *engine),
        frozenset(item.name for item in filled),
        engine_station_m=(table.station_m or 0.0) + table.move_m,
        propeller_station_m=None if disc_m is None else disc_m + table.move_m,
    )


def settings_of(scenario: Scenario, items: Iterable[Item]) -> Iterator[str]:
    """Yield the keys of masses and places of these items that settings gave, in place of the file."""
    names = {item.name for item in items}
    engines = {f"powerplant.{name}" for name in scenario.powerplant if name in names}
    places = {
        f"item.{called}" for n, row in enumerate(scenario.item, 1) if row.name in names for called in (row.name, n)
    }
    places |= {*engines, *(f"{engine}.propeller" for engine in engines)}
    for key in sorted(set_keys(scenario)):
        place, _, what = key.rpartition(".")
        if place in places and what in ("mass", "station", "waterline"):
            yield key


def doubts(places: Collection[Remark], changed: Iterable[str]) -> Iterator[Fault]:
    """Yield what to look at first where the scales make masses of the list absurd.

    Parameters
    ----------
    places : collection of Remark
        On what stands where nothing of the airplane can.
    changed : iterable of str
        Keys that settings give of what stood on the scales: a station among them may be a move since, which has a key
        of its own.
    """
    for remark in places:
        yield Fault(remark.key, remark.text.removeprefix(f"{remark.key}: "))
    for key in () if places else changed:
        place, _, what = key.rpartition(".")
        if what == "station":
            said = "was set, of what stood on the scales: a correction of the list. If it moved since, set"
            yield Fault(key, f"{said} {place}.move")


def listed(scenario: Scenario, powerplant: str) -> bool:
    """Return whether there is an item list, and engine and propeller of a powerplant have their stations."""
    return bool(scenario.item) and not _unplaced(scenario, powerplant)


def _item(scenario: Scenario, number: int, row: ItemTable) -> Item:
    errors = scenario.tolerances
    return Item(
        name=row.name,
        group=row.group,
        mass_kg=row.mass_kg or 0.0,
        station_m=row.station_m,
        waterline_m=row.waterline_m,
        buttline_m=row.buttline_m,
        mass_error_kg=errors.get(f"item.{number}.mass", 0.0),
        station_error_m=errors.get(f"item.{number}.station", 0.0),
        waterline_error_m=errors.get(f"item.{number}.waterline", 0.0),
        length_m=row.length_m,
        width_m=row.width_m,
        height_m=row.height_m,
        moves_with_engine=row.moves_with_engine,
        move_m=row.move_m,
        added=row.added,
    )


def _unplaced(scenario: Scenario, powerplant: str) -> list[Fault]:
    engine = scenario.powerplant[powerplant]
    faults = []
    if engine.station_m is None:
        what = 'is missing: its CG aft of the datum, as in "18 in", is needed to balance'
        faults.append(Fault(f"powerplant.{powerplant}.station", what))
    if engine.propeller.mass_kg is not None and engine.propeller.station_m is None:
        what = 'is missing: its disc aft of the datum, as in "0 in", is needed to balance'
        faults.append(Fault(f"powerplant.{powerplant}.propeller.station", what))
    return faults


def _engine_and_propeller(scenario: Scenario, powerplant: str) -> Iterator[Item]:
    """Yield engine and propeller; a propeller without a mass is taken to stand among the items."""
    engine, errors = scenario.powerplant[powerplant], scenario.tolerances
    rows = [(powerplant, f"powerplant.{powerplant}", engine.mass_kg, engine.station_m)]
    if engine.propeller.mass_kg is not None:
        place = f"powerplant.{powerplant}.propeller"
        rows.append((f"{powerplant} propeller", place, engine.propeller.mass_kg, engine.propeller.station_m))
    for name, place, mass_kg, station_m in rows:
        yield Item(
            name,
            ENGINE,
            mass_kg,
            station_m or 0.0,
            thrust_line_m(scenario),
            mass_error_kg=errors.get(f"{place}.mass", 0.0),
            station_error_m=errors.get(f"{place}.station", 0.0),
            moves_with_engine=True,
        )


def thrust_line_m(scenario: Scenario) -> float:
    """Return the waterline of engine and propeller [m]."""
    return scenario.balance.thrust_line_m if scenario.balance else 0.0


def flight_keys(scenario: Scenario) -> dict[str, Measured]:
    """Return mass, inertia and arms as the scenario states them, by key, with their standard deviations in SI.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    """
    airplane = scenario.airplane
    stated = dict(
        zip(
            FLIGHT_KEYS,
            (
                airplane.mass_kg,
                airplane.inertia_roll_kg_m2,
                airplane.inertia_pitch_kg_m2,
                airplane.inertia_yaw_kg_m2,
                scenario.wing.arm_m,
                scenario.tailplane.arm_m,
                scenario.fin.arm_m,
            ),
            strict=True,
        )
    )
    stated |= {f"powerplant.{name}.propeller.arm": row.propeller.arm_m for name, row in scenario.powerplant.items()}
    return {key: Measured(value, scenario.tolerances.get(key, 0.0)) for key, value in stated.items()}
