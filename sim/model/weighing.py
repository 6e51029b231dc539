"""The limits of the centre of gravity and the weighing of a scenario."""

from __future__ import annotations

from collections import defaultdict
from math import hypot, radians
from typing import TYPE_CHECKING

from sim.airframe.loading import CgLimits
from sim.airframe.weighing import weigh
from sim.airframe.weighing_data import AssumedErrors, Attitude, Reading, Support, Weighing
from sim.errors import Fault, InputError, one_of, refuse
from sim.model.flown_mass import set_keys
from sim.scenario.toml_text import parse
from sim.units.convert import INCH_M
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.airframe.masses import Total
    from sim.airframe.weighing_data import Weighed
    from sim.model.weights import Weights
    from sim.scenario.tables import Scenario
    from sim.scenario.weighing import ScaleReadingTable, SupportTable, WeighingTable

SCALE_ERROR_KG = float(ratio("lb", "kg"))
SUPPORT_ERROR_M = INCH_M / 16.0
PITCH_ERROR_DEG = 0.1
"""Standard errors where the scenario gives none: a platform scale, a steel tape and plumb line, a digital level. Common
practice, no source."""

BALANCED = "balance.powerplant"
"""Key of the engine that is balanced where none is asked for."""
HEIGHT_ERROR_M = INCH_M
"""Standard error of a listed height besides that of its items, for few state one: an estimate of ours."""


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
        ballast_places=table.ballast,
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
    group_of = {item.name: item.group for item in there.items}
    groups = sorted(set(group_of.values()))
    faults = [
        Fault("weighing.aboard", one_of(groups, name, meant=group_of.get(name)))
        for name in table.aboard
        if name not in groups
    ]
    if faults:
        raise InputError(faults)
    errors = _Errors(scenario.tolerances)
    supports = {name: _support(errors, name, row) for name, row in table.support.items()}
    attitudes = tuple(_attitudes(errors, table))
    return Weighing(
        there.powerplant,
        tuple(table.aboard),
        supports,
        attitudes,
        errors.assumed(),
        table.engine_move_m,
        table.pilot_kg,
        as_read=not any(setting.startswith("weighing.") for setting in scenario.source.drawn),
    )


def engine_on_scales(scenario: Scenario, table: WeighingTable) -> str:
    """Return the name of the engine that stood on the scales.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    table : WeighingTable
        Its table ``weighing``.

    Notes
    -----
    Where the weighing does not say, that of the table ``balance`` as the file has it, else the first: to set another
    engine to be balanced does not put it on scales that were read before.
    """
    if table.powerplant:
        return table.powerplant
    usual = scenario.balance.powerplant if scenario.balance else None
    if BALANCED in set_keys(scenario):
        written = parse(scenario.source.text, scenario.source.called).data or {}
        usual = written.get("balance", {}).get("powerplant")
    return usual or next(iter(scenario.powerplant))


def height_error_m(listed: Total) -> float:
    """Return the standard error of a listed height: that of its items, and `HEIGHT_ERROR_M`, for few state one [m]."""
    return hypot(HEIGHT_ERROR_M, listed.cg_waterline_error_m)


def weighed(readings: Weighing, listed: Total) -> Weighed:
    """Return what the scales gave.

    Parameters
    ----------
    readings : Weighing
        Of `weighing`.
    listed : Total
        What stood on the scales, as listed: its height serves where the scales do not determine it.

    Raises
    ------
    InputError
        Readings that are missing, do not balance or put the centre of gravity outside the wheels.
    """
    return weigh(
        readings.supports,
        readings.attitudes,
        assumed_waterline_m=listed.cg_waterline_m,
        assumed_waterline_error_m=height_error_m(listed),
        as_read=readings.as_read,
    )


class _Errors:
    """The ± of a weighing's keys: what was given, else what is assumed, and of which kinds that was."""

    def __init__(self, given: Mapping[str, float]) -> None:
        self._given, self._assumed = given, set[str]()

    def of(self, key: str, otherwise: float) -> float:
        """Return the standard error of a key below ``weighing``."""
        found = self._given.get(f"weighing.{key}")
        if found is None:
            self._assumed.add(key.partition(".")[0])
        return otherwise if found is None else found

    def given(self, key: str) -> float:
        """Return the standard error of a key below ``weighing``, 0 where none is given."""
        return self._given.get(f"weighing.{key}", 0.0)

    def assumed(self) -> AssumedErrors:
        """Return the errors that were not given."""
        scale, support, pitch = (kind in self._assumed for kind in ("reading", "support", "attitude"))
        return AssumedErrors(
            SCALE_ERROR_KG if scale else None, SUPPORT_ERROR_M if support else None, PITCH_ERROR_DEG if pitch else None
        )


def _support(errors: _Errors, name: str, row: SupportTable) -> Support:
    """Return where a support turns with the airplane: the axle of a wheel, the contact itself of a skid or jack."""
    station_m, buttline_m, waterline_m = (
        errors.of(f"support.{name}.{key}", SUPPORT_ERROR_M) for key in ("station", "buttline", "waterline")
    )
    return Support(
        row.station_m,
        row.buttline_m,
        row.waterline_m + (row.radius_m or 0.0),
        station_error_m=station_m,
        buttline_error_m=buttline_m,
        waterline_error_m=hypot(waterline_m, errors.given(f"support.{name}.radius")),
    )


def _attitudes(errors: _Errors, table: WeighingTable) -> Iterator[Attitude]:
    """Yield the readings by attitude; a scale read twice at one attitude counts with its mean."""
    rows: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for number, row in enumerate(table.reading, start=1):
        rows[row.attitude, row.support].append(_reading(errors, number, row))
    for name, pitch_rad in table.attitude.items():
        means = {support: _mean(rows[name, support]) for support in table.support if rows[name, support]}
        yield Attitude(name, pitch_rad, means, errors.of(f"attitude.{name}", radians(PITCH_ERROR_DEG)))


def _reading(errors: _Errors, number: int, row: ScaleReadingTable) -> Reading:
    return Reading(row.scale_kg, errors.of(f"reading.{number}.scale", SCALE_ERROR_KG), row.tare_kg)


def _mean(readings: list[Reading]) -> Reading:
    count = len(readings)
    return Reading(
        sum(reading.mass_kg for reading in readings) / count,
        sum(reading.mass_error_kg**2 for reading in readings) ** 0.5 / count,
        sum(reading.tare_kg for reading in readings) / count,
    )
