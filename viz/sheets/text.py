"""Cells and sentences of a sheet as text, in the units a reader asked for and the language of the document."""

from __future__ import annotations

from itertools import groupby
from math import floor, isfinite, log10, nan
from operator import itemgetter
from string import Formatter
from typing import TYPE_CHECKING, Literal

from sim.told import Told
from sim.units.quantities import any_quantity, quantity
from sim.units.text import feet_inches, with_unit
from viz.sheets import format as shown
from viz.sheets.blocks import Column, Either, Run, Sentence, Value
from viz.sheets.from_sim import in_either_system
from viz.words.catalogue import SOURCE
from viz.words.reader import language, worded
from viz.words.say import numeral

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.sheets.blocks import Cell, Table
    from viz.sheets.format import Units

STEP_SHARE = 0.282
"""Greatest rounding step over the error of a number, so that the error has two digits up to .35 and else one."""
WORDY = 40
"""Letters beyond which a cell is no number."""


def text_of(cell: Cell, units: Units) -> str:
    """Return one cell as text; a sentence with its slots filled."""
    match cell:
        case Value():
            return numeral(_number(cell, units), language())
        case Column():
            return head_of(cell, units)
        case Either():
            return numeral(cell.us if units == "us" else cell.si, language())
        case Run():
            program = "whirlgate --units si" if units == "si" else "whirlgate"
            parts = (program, cell.command, cell.scenario or "", text_of(cell.options, units))
            return " ".join(part for part in parts if part)
        case Sentence():
            return "".join(words for words, _ in pieces(cell, units))
        case Told():
            return text_of(in_either_system(cell), units) if language() != SOURCE else cell
    return _as_told(cell)


def _as_told(text: str) -> str:
    """Return words in the reader's language; a number that leads them has its marks."""
    return text if language() == SOURCE else numeral(worded(text), language())


def pieces(cell: Cell, units: Units) -> Iterator[tuple[str, bool]]:
    """Yield a cell as pieces of text, as long as they go, each with whether it is a command line."""
    for command, parts in groupby(_parts(cell, units), key=itemgetter(1)):
        yield "".join(words for words, _ in parts), command


def _parts(cell: Cell, units: Units) -> Iterator[tuple[str, bool]]:
    if not isinstance(cell, Sentence):
        yield text_of(cell, units), isinstance(cell, Run)
        return
    for words, name, _, _ in Formatter().parse(worded(cell.text)):
        if words:
            yield words, False
        if name is not None:
            yield from _parts(cell.slots[name], units)


def head_of(column: Column, units: Units, *, short: bool = False) -> str:
    """Return the head of a column, with the unit of its quantity in square brackets; below it where room is scarce."""
    head = worded((short and column.short) or column.head)
    unit = shown.shown(column.quantity, units)[0] if column.quantity else ""
    between = "\n" if short else " "
    return f"{head}{between}[{worded(unit)}]" if unit else head


def unit_of(value: Value, units: Units) -> tuple[str, float]:
    """Return the unit in which a number is shown, and the factor to it."""
    if value.held:
        return any_quantity(value.quantity).unit, 1.0
    return ("%", 100.0) if value.percent else shown.shown(value.quantity, units)


def number_of(value: Value, units: Units) -> float:
    """Return the number in the unit in which it is shown, not-a-number where there is none."""
    if value.number is None:
        return nan
    if value.percent or value.held or value.change:
        return value.number * unit_of(value, units)[1]
    return any_quantity(value.quantity).number(value.number, units)


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
        return worded(value.absent)
    if value.tape and units == "us":
        return feet_inches(value.number)
    unit, factor = unit_of(value, units)
    number = number_of(value, units)
    size = _digits(abs(number) if value.signed else number, value, factor)
    behind = "" if value.bare else with_unit("", worded(unit))
    signs = _signs(value) if value.signed and float(size) else None
    spread = f" ± {numeral(shown.significant(value.error * factor, 2), language())}{behind}" if value.error else ""
    plus = "+" if value.change and number > 0.0 else ""
    return plus + size + behind + spread + (f" {signs[number < 0.0]}" if signs else "")


def _signs(value: Value) -> tuple[str, str] | None:
    """Return what a positive and a negative value are called in the reader's language."""
    signs = quantity(value.quantity).signs
    if signs is None:
        return None
    positive, negative = map(worded, signs)
    return _distinct(positive, negative) if value.brief else (positive, negative)


def _distinct(positive: str, negative: str) -> tuple[str, str]:
    """Return two phrases without the words that they share, ``up`` and ``down`` for ``nose up`` and ``nose down``."""
    ups, downs = positive.split(), negative.split()
    return " ".join(word for word in ups if word not in downs), " ".join(word for word in downs if word not in ups)


LEAST_POWER = 9
"""Power of ten below one to which a small number is written in decimals."""


def known_decimals(half_band: float) -> int:
    """Return after how many decimals a number with a 90 % band is cut, negative before the point.

    Parameters
    ----------
    half_band : float
        Half the width of the band, above 0, in the unit shown.

    References
    ----------
    The rule of the Particle Data Group for errors, Review of Particle Physics, introduction, section 5.3: two digits
    where the error begins with 10 to 35, else one (from memory).

    Examples
    --------
    >>> known_decimals(0.34), known_decimals(0.36), known_decimals(12.0), known_decimals(50.0)
    (2, 1, 0, -1)
    """
    return -floor(log10(STEP_SHARE * half_band))


def _digits(number: float, value: Value, factor: float) -> str:
    """Return a number in digits, no finer than its ± of two digits or its band, where it has one."""
    own, known = _own_digits(number, value), None
    if value.error:
        known = len(shown.significant(value.error * factor, 2).partition(".")[2])
    elif value.half_band and isfinite(value.half_band):
        known = known_decimals(value.half_band * factor)
    if known is None or "e" in own:
        return own
    return _with_decimals(number, min(known, len(own.partition(".")[2])))


def _with_decimals(number: float, decimals: int) -> str:
    text = f"{round(number, decimals):.{max(0, decimals)}f}"
    return text if float(text) else text.removeprefix("-")


def without_exponent(number: float, digits: int) -> str:
    """Return a number to so many significant digits without trailing zeros, a small one in decimals as well.

    Examples
    --------
    >>> without_exponent(0.000053312, 3), without_exponent(102.44, 2), without_exponent(2e-12, 3)
    ('0.0000533', '100', '2e-12')
    """
    text = f"{number + 0.0:.{digits}g}"
    if "e+" in text:
        return f"{float(text):.0f}"
    mantissa, _, power = text.partition("e-")
    if not power or int(power) > LEAST_POWER:
        return text
    return f"{number:.{int(power) + len(mantissa.lstrip('-').replace('.', '')) - 1}f}"


def _own_digits(number: float, value: Value) -> str:
    if value.plain:
        return without_exponent(number, value.digits or 6)
    if value.decimals is not None:
        text = f"{number:.{value.decimals}f}"
        return text if float(text) else text.removeprefix("-")
    if value.nominal:
        return f"{number:.{value.digits or 4}g}"
    return shown.significant(number, value.digits or quantity(value.quantity).digits)
