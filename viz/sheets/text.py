"""Cells and sentences of a sheet as text, in the units a reader asked for."""

from __future__ import annotations

from math import isfinite
from typing import TYPE_CHECKING, Literal

from sim.units.quantities import any_quantity, quantity
from sim.units.text import feet_inches, with_unit
from viz.sheets import format as shown
from viz.sheets.blocks import Column, Sentence, Value

if TYPE_CHECKING:
    from viz.sheets.blocks import Cell, Table
    from viz.sheets.format import Units

WORDY = 40
"""Letters beyond which a cell is no number."""


def text_of(cell: Cell, units: Units) -> str:
    """Return one cell as text; a sentence with its slots filled."""
    match cell:
        case Value():
            return _number(cell, units)
        case Column():
            return head_of(cell, units)
        case Sentence():
            return cell.text.format(**{name: text_of(slot, units) for name, slot in cell.slots.items()})
    return cell


def head_of(column: Column, units: Units, *, short: bool = False) -> str:
    """Return the head of a column, with the unit of its quantity in square brackets; below it where room is scarce."""
    head = (short and column.short) or column.head
    unit = shown.shown(column.quantity, units)[0] if column.quantity else ""
    between = "\n" if short else " "
    return f"{head}{between}[{unit}]" if unit else head


def unit_of(value: Value, units: Units) -> tuple[str, float]:
    """Return the unit in which a number is shown, and the factor to it."""
    return ("%", 100.0) if value.percent else shown.shown(value.quantity, units)


def wordy(table: Table, units: Units) -> bool:
    """Return whether the cells behind the first column hold sentences, which stand better at the left."""
    lines = (line for row in table.rows() for cell in row[1:] for line in text_of(cell, units).split("\n"))
    return max(map(len, lines), default=0) > WORDY


def side_of(column: Column, units: Units) -> Literal["left", "right"]:
    """Return the side at which the cells of a column stand: words left, numbers right."""
    words = all(isinstance(cell, str) and not cell[:1].isdigit() for cell in column.cells)
    long = any(len(text_of(cell, units)) > WORDY for cell in column.cells)
    return "left" if words or long else "right"


def _number(value: Value, units: Units) -> str:
    if value.number is None or not isfinite(value.number):
        return value.absent
    if value.tape and units == "us":
        return feet_inches(value.number)
    unit, factor = unit_of(value, units)
    number = value.number * factor if value.percent else any_quantity(value.quantity).number(value.number, units)
    size = _digits(abs(number) if value.signed else number, value)
    behind = "" if value.bare else with_unit("", unit)
    signs = quantity(value.quantity).signs if value.signed and float(size) else None
    if signs and value.brief:
        signs = _distinct(*signs)
    spread = f" ± {shown.significant(value.error * factor, 2)}{behind}" if value.error else ""
    return size + behind + spread + (f" {signs[number < 0.0]}" if signs else "")


def _distinct(positive: str, negative: str) -> tuple[str, str]:
    """Return two phrases without the words that they share, ``up`` and ``down`` for ``nose up`` and ``nose down``."""
    ups, downs = positive.split(), negative.split()
    return " ".join(word for word in ups if word not in downs), " ".join(word for word in downs if word not in ups)


def _digits(number: float, value: Value) -> str:
    if value.plain:
        return f"{number + 0.0:.{value.digits or 6}g}"
    if value.decimals is not None:
        return f"{number + 0.0:.{value.decimals}f}"
    if value.nominal:
        return f"{number:.{value.digits or 4}g}"
    return shown.significant(number, value.digits or quantity(value.quantity).digits)
