"""The items of a scenario written as a bill: a CSV file that reads back to the same values, to the last bit."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from sim.scenario.bill_cells import defused
from sim.scenario.bill_columns import column, quantities
from sim.scenario.fields import key_of
from sim.units.text import exact

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.scenario.bill_columns import BillColumn
    from sim.scenario.shop import ItemTable
    from sim.scenario.tables import Scenario
    from sim.units.quantities import System

MEASURED = ("mass", "station")
"""Keys that have a column for their error even where no item has one."""


def bill_text(scenario: Scenario, system: System) -> str:
    """Return the items of a scenario as CSV, a row each in their order; the cell of a key that is not given is blank.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    system : {"us", "si"}
        Units of the columns.
    """
    places = range(1, len(scenario.item) + 1)
    toleranced = {key for key in quantities() for place in places if f"item.{place}.{key}" in scenario.tolerances}
    columns = list(_columns(system, {*toleranced, *MEASURED}))
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(column.head for column in columns)
    for place, item in zip(places, scenario.item, strict=True):
        writer.writerow(_cell(scenario, place, item, one) for one in columns)
    return text.getvalue()


def _columns(system: System, toleranced: set[str]) -> Iterator[BillColumn]:
    for key in quantities():
        yield column(key, system)
        if key in toleranced:
            yield column(key, system, error=True)


def _cell(scenario: Scenario, place: int, item: ItemTable, one: BillColumn) -> str:
    given = quantities()[one.key]
    if one.error and given:
        error = scenario.tolerances.get(f"item.{place}.{one.key}")
        return exact(given.unit, error, one.unit) if error else ""
    attribute = next(name for name in type(item).model_fields if key_of(name) == one.key)
    value = getattr(item, attribute)
    if value is None or attribute not in item.model_fields_set:
        return ""
    if given:
        return exact(given.unit, value, one.unit)
    return str(value).lower() if isinstance(value, bool) else defused(value)
