"""What a bill of items changes in an item of a scenario; a value that is the same in SI keeps its text."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from sim.errors import InputError
from sim.scenario.bill_columns import NAME, quantities
from sim.scenario.fields import key_of
from sim.scenario.shop import ItemTable
from sim.units.parsing import Measured, read
from sim.units.text import exact

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.scenario.bill import Bill, BillRow
    from sim.scenario.bill_columns import BillColumn
    from sim.scenario.fields import Given

SAME = 1e-12
"""Largest relative difference of values that count as the same: a spreadsheet keeps some 15 digits."""
_ERROR = re.compile(r"±|\+/-|\+-")

Written = str | bool | None
"""What a scenario file holds for a key; None where it holds none."""


def changes(bill: Bill, row: BillRow, item: Mapping[str, str | bool]) -> Iterator[tuple[str, Written]]:
    """Yield each key of an item that a row of a bill changes, with what the scenario file is to hold.

    Parameters
    ----------
    bill : Bill
        A column that it lacks leaves its key alone; without a column for the error, that stays too.
    row : BillRow
        Of that item; a blank cell takes the key away, a wrong one leaves it alone.
    item : mapping
        As the scenario file holds it.
    """
    for column in bill.columns:
        if column.key == NAME or column.error or column.key in row.unread:
            continue
        given, was = quantities()[column.key], item.get(column.key)
        if given:
            new = _quantity(bill, row, column, given, was=None if was is None else str(was))
        else:
            new = row.values.get(column.key)
            new = was if new is False and was is None else new
        if new != was:
            yield column.key, new


def _quantity(bill: Bill, row: BillRow, column: BillColumn, given: Given, *, was: str | None) -> Written:
    before = given.measured(was) if was is not None else _default(column.key)
    if column.key not in row.values:
        return None
    text = str(row.written(column.key))
    try:
        after = read(text, given.allowed, key="")
    except InputError:  # told when the whole scenario is read
        return text
    value, error = _parts(text)
    if before and before.tolerance and column.unit and not bill.has_error(column.key):
        after = Measured(after.value, before.tolerance)
        error = f"{exact(given.unit, before.tolerance, column.unit)} {column.unit}"
    if before and math.isclose(before.value, after.value, rel_tol=SAME):
        if math.isclose(before.tolerance, after.tolerance, rel_tol=SAME):
            return was
        value = _parts(was)[0] if was else value
    return f"{value} ± {error}" if error else value


def _parts(text: str) -> tuple[str, str]:
    """Return value and error of a quantity as it is written."""
    value, *error = _ERROR.split(text, maxsplit=1)
    return value.strip(), error[0].strip() if error else ""


def _default(key: str) -> Measured | None:
    field = next(field for name, field in ItemTable.model_fields.items() if key_of(name) == key)
    return Measured(field.default) if isinstance(field.default, float) else None
