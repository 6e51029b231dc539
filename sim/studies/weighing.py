"""What the scales said beside the estimate, and which groups that makes suspect."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.airframe.masses import total
from sim.airframe.weighing import Attitude, Reading, Support, Weighed, weigh
from sim.airframe.weighing_residuals import Suspicion, suspicions
from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.model.weights import USEFUL, chosen, item_list
from sim.scenario.shop import one_of

if TYPE_CHECKING:
    from sim.scenario.shop import WeighingTable
    from sim.scenario.tables import Scenario


@dataclass(frozen=True, slots=True)
class WeighingAnswer(Answer):
    """The airplane on the scales beside the same items as estimated.

    Attributes
    ----------
    powerplant : str
        That was in it.
    aboard : tuple of str
        Groups aboard besides the empty airplane.
    weighed : Weighed
        What the scales say.
    estimate_kg, estimate_cg_station_m : float
        What the item list says. [kg, m]
    over_kg : float
        Scales less estimate, heavier positive. [kg]
    over_cg_m : float
        Scales less estimate, aft positive. [m]
    suspicions : tuple of Suspicion
        Most likely corrections, the strongest first: suspicions, not facts.
    """

    powerplant: str
    aboard: tuple[str, ...]
    weighed: Weighed
    estimate_kg: float
    estimate_cg_station_m: float
    over_kg: float
    over_cg_m: float
    suspicions: tuple[Suspicion, ...]


def weighing(scenario: Scenario) -> WeighingAnswer | None:
    """Return the weighing of a scenario beside its item list; None where it has none.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.

    Raises
    ------
    InputError
        A group aboard that is not in the item list; readings that are missing, do not balance or put the centre of
        gravity outside the wheels.
    """
    table = scenario.weighing
    if table is None:
        return None
    powerplant = chosen(scenario, table.powerplant)
    items = item_list(scenario, powerplant)
    groups = sorted({item.group for item in items})
    faults = [Fault("weighing.aboard", one_of(groups, name)) for name in table.aboard if name not in groups]
    if faults:
        raise InputError(faults)
    there = [item for item in items if item.group not in USEFUL or item.group in table.aboard]
    estimate = total(there)
    weighed = weigh(_supports(table), _attitudes(scenario, table), assumed_waterline_m=estimate.cg_waterline_m)
    return WeighingAnswer(
        powerplant=powerplant,
        aboard=tuple(table.aboard),
        weighed=weighed,
        estimate_kg=estimate.mass_kg,
        estimate_cg_station_m=estimate.cg_station_m,
        over_kg=weighed.mass_kg - estimate.mass_kg,
        over_cg_m=weighed.cg_station_m - estimate.cg_station_m,
        suspicions=suspicions(
            there,
            mass_kg=weighed.mass_kg,
            mass_error_kg=weighed.mass_error_kg,
            cg_station_m=weighed.cg_station_m,
            cg_error_m=weighed.cg_error_m,
        ),
    )


def _supports(table: WeighingTable) -> dict[str, Support]:
    return {name: Support(row.station_m, row.buttline_m, row.waterline_m) for name, row in table.support.items()}


def _attitudes(scenario: Scenario, table: WeighingTable) -> list[Attitude]:
    """Return the readings by attitude; a scale read twice at one attitude counts with its mean."""
    rows: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for number, row in enumerate(table.reading, start=1):
        error_kg = scenario.tolerances.get(f"weighing.reading.{number}.scale", 0.0)
        rows[row.attitude, row.support].append(Reading(row.scale_kg, error_kg, row.tare_kg))
    return [
        Attitude(
            name, pitch_rad, {support: _mean(rows[name, support]) for support in table.support if rows[name, support]}
        )
        for name, pitch_rad in table.attitude.items()
    ]


def _mean(readings: list[Reading]) -> Reading:
    count = len(readings)
    return Reading(
        sum(reading.mass_kg for reading in readings) / count,
        sum(reading.mass_error_kg**2 for reading in readings) ** 0.5 / count,
        sum(reading.tare_kg for reading in readings) / count,
    )
