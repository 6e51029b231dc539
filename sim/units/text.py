"""Numbers for people: a quantity in the units that a reader asked for, rounded as one would write it."""

from __future__ import annotations

import math
import re
from decimal import Context, Decimal
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from sim.units.convert import INCH_M
from sim.units.quantities import any_quantity, kinds, printed_units, quantity
from sim.units.registry import ratio

if TYPE_CHECKING:
    from sim.units.quantities import System

TINY = -9
"""Power of ten below which nobody counts zeros."""
NO_BREAK = "\u00a0"
"""A space at which no line ends."""


def amount(name: str, value: float, system: System, digits: int | None = None) -> str:
    """Return `value` with its unit: ``amount("mass_kg", 635.0, "us")`` is ``1400 lb``.

    Parameters
    ----------
    name : str
        Of the quantity.
    value : float
        In the unit that the name ends in.
    system : {"us", "si"}
        Units of the reader.
    digits : int, optional
        Significant digits; those of the quantity if left out.
    """
    row = any_quantity(name)
    return with_unit(significant(row.number(value, system), digits or row.digits), row.shown(system)[0])


def fixed(name: str, value: float, system: System, decimals: int = 2) -> str:
    """Return `value` with its unit and as many decimals as asked: ``47.93 in``."""
    row = any_quantity(name)
    return with_unit(_without_negative_zero(f"{row.number(value, system):.{decimals}f}"), row.shown(system)[0])


def brief(name: str, value: float, system: System = "si", digits: int = 4) -> str:
    """Return `value` with its unit as a scenario file would hold it, without trailing zeros: ``12.5 mm``."""
    row = any_quantity(name)
    unit = row.units[system == "si"] if row.unit else ""
    return with_unit(_without_negative_zero(f"{row.number(value, system):.{digits}g}"), unit)


def in_both(name: str, value: float, digits: int | None = None) -> str:
    """Return `value` as `brief` does in SI, and in the units of a US shop behind it where they differ.

    Of the two a sheet, and a fault that a command tells, keep that of the reader.

    Parameters
    ----------
    name, value
        As for `amount`.
    digits : int, optional
        Significant digits, for a result; a limit that a user typed is told in full if they are left out.

    Examples
    --------
    >>> in_both("wall_m", 0.003175), in_both("rpm", 1200.0), in_both("thrust_n", 25489.3259, digits=4)
    ('3.175 mm (0.125 in)', '1200 rpm', '25489 N (5730 lbf)')
    """
    si, us = (_plain(name, value, s) if digits is None else amount(name, value, s, digits) for s in ("si", "us"))
    return si if si == us else f"{si} ({us})"


def _plain(name: str, value: float, system: System) -> str:
    """Return a value with four digits, or more where they would need a power of ten."""
    text = brief(name, value, system)
    return brief(name, value, system, digits=9) if "e" in text.partition(" ")[0] else text


def fixed_in_both(name: str, value: float, decimals: int) -> str:
    """Return `value` as `fixed` does, in SI and with that of a US shop behind it.

    Examples
    --------
    >>> fixed_in_both("mass_kg", 1.0, 1)
    '1.0 kg (2.2 lb)'
    """
    si, us = (fixed(name, value, system, decimals) for system in ("si", "us"))
    return f"{si} ({us})"


def signed(name: str, value: float, system: System, words: tuple[str, str] | None = None) -> str:
    """Return a signed value in the words of its quantity.

    Parameters
    ----------
    name, value, system
        As for `amount`.
    words : tuple of str, optional
        What positive and negative are called, where it is not what the table says.

    Examples
    --------
    >>> signed("pitch_n_m", -100.0, "si")
    '100 N m nose down'
    """
    positive, negative = words or quantity(name).signs or ("", "")
    size = amount(name, abs(value), system)
    return size if value == 0.0 else f"{size} {positive if value > 0.0 else negative}"


def significant(value: float, digits: int = 3) -> str:
    """Return `value` rounded to `digits` significant digits, without an exponent where people would not write one."""
    if value == 0.0 or not math.isfinite(value):
        return "0" if value == 0.0 else "none"
    exponent = int(f"{value:.{digits - 1}e}".partition("e")[2])
    if exponent < TINY:
        return f"{value:.{digits - 1}e}"
    return f"{value:.{max(0, digits - 1 - exponent)}f}"


def written(unit: str, value: float, error: float = 0.0, *, system: System, digits: int = 5) -> str:
    """Return an amount as a scenario file holds it, with its error where there is one.

    Parameters
    ----------
    unit : str
        SI unit of the value, a key of `kinds`.
    value, error : float
        In that unit; the error is one standard deviation, 0 where there is none.
    system : {"us", "si"}
        Units to write.
    digits : int
        Significant digits of the value at most.

    Examples
    --------
    >>> written("kg", 632.5428, 4.55, system="us")
    '1394.5 lb ± 10 lb'
    """
    filed = kinds()[unit].filed[system == "si"]
    factor = float(ratio(unit, filed))
    text = f"{_rounded(value * factor, digits)} {filed}"
    return f"{text} ± {_rounded(error * factor, 2)} {filed}" if error > 0.0 else text


def exact(unit: str, value: float, other: str) -> str:
    """Return the shortest decimal that, read in another unit, is this value to the last bit.

    Parameters
    ----------
    unit : str
        SI unit of the value, a key of `kinds`.
    value : float
        In that unit.
    other : str
        Unit of the decimal; none whose zero lies elsewhere.

    Notes
    -----
    `sim.units.parsing.read` rounds once, so 17 significant digits always serve (IEEE 754, double precision).

    Examples
    --------
    >>> exact("m", 1.143, "in"), exact("m", 1.3, "in")
    ('45', '51.18110236220473')
    """
    factor = ratio(other, unit)
    number = Fraction(value) / factor
    ample = Context(prec=40).divide(Decimal(number.numerator), Decimal(number.denominator))
    shorter = (Context(prec=digits).plus(ample).normalize() for digits in range(1, 18))
    found = next((short for short in shorter if float(Fraction(short) * factor) == value), ample)
    return f"{found:f}" if -9 <= found.adjusted() <= 15 else str(found)


def _rounded(value: float, digits: int) -> str:
    return f"{float(f'{value:.{digits}g}'):.12g}"


def with_unit(number: str, unit: str) -> str:
    """Return a number with its unit as printed: ``12 mm``, ``45°``."""
    return number + unit if unit == "°" else f"{number} {unit}".rstrip()


def _without_negative_zero(number: str) -> str:
    return number if float(number) else number.removeprefix("-")


def feet_inches(length_m: float) -> str:
    """Return a length as a shop reads its tape: ``28 ft 1.00 in``, below a foot ``7.25 in``.

    Parameters
    ----------
    length_m : float
        [m]

    Examples
    --------
    >>> feet_inches(8.5598)
    '28 ft 1.00 in'
    """
    hundredths = round(abs(length_m) / INCH_M * 100.0)
    feet, inches = divmod(hundredths, 1200)
    text = f"{feet} ft {inches / 100.0:.2f} in" if feet else f"{inches / 100.0:.2f} in"
    return f"-{text}" if length_m < 0.0 and hundredths else text


def unbroken(text: str) -> str:
    """Return a text with no-break spaces in every quantity, ``28 ft 1 in``, ``2 1/2 in``, and behind ``±``.

    Quantities stand in the words of answers and remarks too, so that they are found by the units of the table.

    Examples
    --------
    >>> unbroken("move it 12.8 mm forward ± 7.8 mm").replace(NO_BREAK, "_")
    'move it 12.8_mm forward ±_7.8_mm'
    """
    return _inside().sub(lambda found: found[0].replace(" ", NO_BREAK), text)


@cache
def _inside() -> re.Pattern[str]:
    """Return the pattern of the spaces inside quantities, each with the unit behind it."""
    units = "|".join(re.escape(unit) for unit in sorted(printed_units(), key=len, reverse=True))
    return re.compile(rf"(?<=\d) (?:{units})(?!\w)|(?<=±) (?=\d)|(?<=\d ft) (?=\d)|(?<=\d) (?=\d+/\d)")
