"""The item list and the mean chord of a scenario, as the physics takes them."""

from __future__ import annotations

from math import tan
from typing import TYPE_CHECKING

from sim.airframe.loading import FUEL, PILOT
from sim.airframe.masses import Item, PastBuild, Total, fill_missing, total
from sim.airframe.mean_chord import MeanChord, PlaneStation, mean_chord, tapered
from sim.errors import Fault, InputError
from sim.model.planes import plane_values

if TYPE_CHECKING:
    from sim.scenario import shop
    from sim.scenario.tables import Scenario

ENGINE = "engine"
USEFUL = (PILOT, FUEL)
"""Groups that are not part of the empty airplane."""


def chosen(scenario: Scenario, name: str | None = None) -> str:
    """Return the powerplant to balance with: the one named, else the balance table's, else the first.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    name : str or None
        Of one of its powerplants.

    Raises
    ------
    InputError
        When no powerplant has that name.
    """
    from sim.scenario.shop import one_of

    if name is not None and name not in scenario.powerplant:
        raise InputError([Fault("--powerplant", one_of(scenario.powerplant, name))])
    usual = scenario.balance.powerplant if scenario.balance else None
    return name or usual or next(iter(scenario.powerplant))


def item_list(scenario: Scenario, powerplant: str) -> tuple[Item, ...]:
    """Return everything that flies with one powerplant, missing masses filled from past builds.

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

    Notes
    -----
    Order: the items of the file, then those filled in, then engine and propeller.
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
    engine = _drive(scenario, powerplant)
    known = [item for item, missing in listed if not missing]
    empty = [*(item for item in known if item.group not in USEFUL), *engine]
    past = [PastBuild(build.name, build.empty_mass_kg, dict(build.group)) for build in scenario.past]
    return (*known, *fill_missing(empty, [item for item, missing in listed if missing], past), *engine)


def loaded(scenario: Scenario, powerplant: str | None = None) -> Total:
    """Return mass, centre of gravity and inertia of the loaded airplane with one of its engines.

    Parameters
    ----------
    scenario : Scenario
        With at least one item.
    powerplant : str or None
        Name of one of its powerplants; None as for `chosen`.
    """
    return total(item_list(scenario, chosen(scenario, powerplant)))


def _item(scenario: Scenario, number: int, row: shop.ItemTable) -> Item:
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
        length_m=row.length_m,
        width_m=row.width_m,
        height_m=row.height_m,
        moves_with_engine=row.moves_with_engine,
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


def _drive(scenario: Scenario, powerplant: str) -> tuple[Item, ...]:
    """Return engine and propeller; a propeller without a mass is taken to stand among the items."""
    engine, line_m = scenario.powerplant[powerplant], scenario.balance.thrust_line_m if scenario.balance else 0.0
    propeller, errors = engine.propeller, scenario.tolerances
    rows = [(powerplant, f"powerplant.{powerplant}", engine.mass_kg, engine.station_m)]
    if propeller.mass_kg is not None:
        place = f"powerplant.{powerplant}.propeller"
        rows.append((f"{powerplant} propeller", place, propeller.mass_kg, propeller.station_m))
    return tuple(
        Item(
            name,
            ENGINE,
            mass_kg,
            station_m or 0.0,
            line_m,
            mass_error_kg=errors.get(f"{place}.mass", 0.0),
            station_error_m=errors.get(f"{place}.station", 0.0),
            moves_with_engine=True,
        )
        for name, place, mass_kg, station_m in rows
    )


def wing_chord(scenario: Scenario) -> MeanChord:
    """Return the mean aerodynamic chord of a scenario's wing, in stations.

    Parameters
    ----------
    scenario : Scenario
        With ``layout.leading_edge``.

    Raises
    ------
    InputError
        When the station of the leading edge is not given.
    """
    return mean_chord(planes(scenario, scenario.balance.lower_efficiency if scenario.balance else 1.0))


def planes(scenario: Scenario, lower_efficiency: float) -> tuple[PlaneStation, ...]:
    """Return the planes from the lowest up, each leading edge ahead of the one below by the stagger.

    Parameters
    ----------
    scenario : Scenario
        With ``layout.leading_edge``.
    lower_efficiency : float
        Lift of every plane but the top one for its area, beside the top one's.

    Raises
    ------
    InputError
        When the station of the leading edge is not given.
    """
    wing, layout = scenario.wing, scenario.layout
    if layout is None:
        what = 'is missing: the station of the lowest leading edge, as in "40 in", is needed for the mean chord'
        raise InputError([Fault("layout.leading_edge", what)])
    return tuple(
        _plane(
            own, layout.leading_edge_m - number * wing.stagger_m, lower_efficiency if number < wing.planes - 1 else 1.0
        )
        for number, own in enumerate(reversed(plane_values(scenario).values()))
    )


def _plane(own: dict[str, float], leading_edge_station_m: float, efficiency: float) -> PlaneStation:
    chord = tapered(
        span_m=own["span_m"],
        chord_m=own["chord_m"],
        taper=own["taper"],
        sweep=tan(own["sweep_rad"]),
        leading_edge_station_m=leading_edge_station_m,
    )
    return PlaneStation(own["span_m"] * own["chord_m"], chord.chord_m, chord.leading_edge_station_m, efficiency)
