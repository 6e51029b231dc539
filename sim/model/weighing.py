"""The limits of the centre of gravity and the weighing of a scenario."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from sim.airframe.loading import CgLimits
from sim.airframe.weighing import Attitude, Reading, Support, Weighing
from sim.errors import Fault, InputError, one_of, refuse

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.weights import Weights
    from sim.scenario.shop import WeighingTable
    from sim.scenario.tables import Scenario


def limits(scenario: Scenario) -> CgLimits:
    """Return the limits of the centre of gravity; the target is midway where none is given.

    Raises
    ------
    InputError
        When the scenario has no table ``balance``.
    """
    table = scenario.balance
    if table is None:
        refuse("balance", "is missing: the table with forward_limit and aft_limit is needed to balance")
    midway = 0.5 * (table.forward_limit + table.aft_limit)
    return CgLimits(
        forward_limit=table.forward_limit,
        aft_limit=table.aft_limit,
        target=midway if table.target is None else table.target,
        pilot_lightest_kg=table.pilot_lightest_kg,
        pilot_heaviest_kg=table.pilot_heaviest_kg,
        ballast_station_m=table.ballast_station_m,
    )


def weighing(scenario: Scenario, table: WeighingTable, there: Weights) -> Weighing:
    """Return the weighing of a scenario.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    table : WeighingTable
        Its table ``weighing``.
    there : Weights
        Of the powerplant that was in the airplane.

    Raises
    ------
    InputError
        A group aboard that is not in the item list.
    """
    groups = sorted({item.group for item in there.items})
    faults = [Fault("weighing.aboard", one_of(groups, name)) for name in table.aboard if name not in groups]
    if faults:
        raise InputError(faults)
    supports = {name: Support(row.station_m, row.buttline_m, row.waterline_m) for name, row in table.support.items()}
    return Weighing(there.powerplant, tuple(table.aboard), supports, tuple(_attitudes(scenario, table)))


def _attitudes(scenario: Scenario, table: WeighingTable) -> Iterator[Attitude]:
    """Yield the readings by attitude; a scale read twice at one attitude counts with its mean."""
    rows: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for number, row in enumerate(table.reading, start=1):
        error_kg = scenario.tolerances.get(f"weighing.reading.{number}.scale", 0.0)
        rows[row.attitude, row.support].append(Reading(row.scale_kg, error_kg, row.tare_kg))
    for name, pitch_rad in table.attitude.items():
        means = {support: _mean(rows[name, support]) for support in table.support if rows[name, support]}
        yield Attitude(name, pitch_rad, means)


def _mean(readings: list[Reading]) -> Reading:
    count = len(readings)
    return Reading(
        sum(reading.mass_kg for reading in readings) / count,
        sum(reading.mass_error_kg**2 for reading in readings) ** 0.5 / count,
        sum(reading.tare_kg for reading in readings) / count,
    )
