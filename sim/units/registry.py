"""The units a shop writes, each with its factor to SI as an exact fraction; pint knows every other unit.

The table spares a run the third of a second that pint's registry costs; ``tests/physics/test_units.py`` holds every
row against pint. Trade readings that pint does not share: ``lb ft`` is a torque and ``lb/in`` a spring rate, since
nothing here is a mass times or over a length. An angle is a dimension of its own, so that 20 Hz is not 20 rad/s.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import pint

Dimension = tuple[int, ...]
"""Exponents of kilogram, metre, second, radian, kelvin, ampere."""


@dataclass(frozen=True, slots=True)
class Unit:
    """What a unit is worth: a quantity in SI is ``number * factor + offset``."""

    text: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)


DIMENSIONS: dict[str, Dimension] = {
    "1": (0, 0, 0, 0, 0, 0),
    "kg": (1, 0, 0, 0, 0, 0),
    "m": (0, 1, 0, 0, 0, 0),
    "s": (0, 0, 1, 0, 0, 0),
    "rad": (0, 0, 0, 1, 0, 0),
    "K": (0, 0, 0, 0, 1, 0),
    "m^2": (0, 2, 0, 0, 0, 0),
    "m^3": (0, 3, 0, 0, 0, 0),
    "m/s": (0, 1, -1, 0, 0, 0),
    "m/s^2": (0, 1, -2, 0, 0, 0),
    "rad/s": (0, 0, -1, 1, 0, 0),
    "1/s": (0, 0, -1, 0, 0, 0),
    "N": (1, 1, -2, 0, 0, 0),
    "N m": (1, 2, -2, 0, 0, 0),
    "W": (1, 2, -3, 0, 0, 0),
    "Pa": (1, -1, -2, 0, 0, 0),
    "N/m": (1, 0, -2, 0, 0, 0),
    "kg m^2": (1, 2, 0, 0, 0, 0),
    "kg m^2/s": (1, 2, -1, 0, 0, 0),
    "kg/m^3": (1, -3, 0, 0, 0, 0),
    "kg/m^2": (1, -2, 0, 0, 0, 0),
    "V": (1, 2, -3, 0, 0, -1),
    "kg/m": (1, -1, 0, 0, 0, 0),
    "W/(m^2 K)": (1, 0, -3, 0, -1, 0),
}
"""SI unit -> its dimension, for every unit that a factor below leads to."""

_FT = Fraction("0.3048")
_IN = Fraction("0.0254")
_LB = Fraction("0.45359237")
STANDARD_GRAVITY_M_S2 = Fraction("9.80665")
_LBF = _LB * STANDARD_GRAVITY_M_S2
_SLUG = _LBF / _FT
_MILE = 5280 * _FT
_BTU = Fraction("1055.056")
_TURN = Fraction(2.0 * math.pi)

_WORTH: tuple[tuple[str, Fraction | int | str, str], ...] = (
    ("1", "0.01", "%, percent"),
    ("kg", 1, "kg"),
    ("kg", "0.001", "g"),
    ("kg", _LB, "lb, lbs, lbm"),
    ("kg", _LB / 16, "oz"),
    ("kg", _SLUG, "slug, slugs"),
    ("m", 1, "m"),
    ("m", 1000, "km"),
    ("m", "0.01", "cm"),
    ("m", "0.001", "mm"),
    ("m", "1e-6", "µm, um"),
    ("m", _IN, "in, inch, inches"),
    ("m", _FT, "ft, foot, feet"),
    ("m", 3 * _FT, "yd"),
    ("m", _MILE, "mi, mile, miles"),
    ("m", 1852, "nmi"),
    ("s", 1, "s"),
    ("s", "0.001", "ms"),
    ("s", "1e-6", "µs, us"),
    ("s", 60, "min"),
    ("s", 3600, "h"),
    ("rad", 1, "rad"),
    ("rad", "0.001", "mrad"),
    ("rad", _TURN / 360, "°, deg, degree, degrees"),
    ("rad", _TURN / 21600, "arcmin"),
    ("rad", _TURN / 1296000, "arcsec"),
    ("rad", _TURN, "rev, turn, turns"),
    ("m^2", 1, "m^2"),
    ("m^2", "1e-4", "cm^2"),
    ("m^2", "1e-6", "mm^2"),
    ("m^2", _FT**2, "ft^2, sq ft"),
    ("m^2", _IN**2, "in^2, sq in"),
    ("m^3", 1, "m^3"),
    ("m^3", "0.001", "L"),
    ("m^3", 231 * _IN**3, "gal"),
    ("m/s", 1, "m/s"),
    ("m/s", Fraction(5, 18), "km/h"),
    ("m/s", _MILE / 3600, "mph"),
    ("m/s", _FT, "ft/s"),
    ("m/s", _FT / 60, "ft/min"),
    ("m/s", Fraction(1852, 3600), "kt, kts, knot, knots"),
    ("m/s^2", 1, "m/s^2"),
    ("m/s^2", _FT, "ft/s^2"),
    ("rad/s", 1, "rad/s"),
    ("rad/s", _TURN / 60, "rpm, rev/min, r/min"),
    ("rad/s", _TURN, "rev/s"),
    ("rad/s", _TURN / 360, "°/s, deg/s"),
    ("1/s", 1, "1/s, Hz, rounds/s"),
    ("1/s", Fraction(1, 60), "1/min, round/min, rounds/min, shots/min"),
    ("N", 1, "N"),
    ("N", 1000, "kN"),
    ("N", _LBF, "lbf"),
    ("N", STANDARD_GRAVITY_M_S2, "kgf"),
    ("N m", 1, "N m, Nm, J"),
    ("N m", 1000, "kN m, kJ"),
    ("N m", STANDARD_GRAVITY_M_S2, "kgf m"),
    ("N m", _LBF * _FT, "lbf ft, ft lbf, lb ft, ft lb"),
    ("N m", _LBF * _IN, "lbf in, in lbf, lb in, in lb"),
    ("N m", _BTU, "BTU, Btu"),
    ("V", 1, "V, volt, volts"),
    ("W", 1, "W"),
    ("W", 1000, "kW"),
    ("W", 550 * _FT * _LBF, "hp"),
    ("W", _BTU / 3600, "BTU/h, Btu/h"),
    ("W/(m^2 K)", 1, "W/(m^2 K)"),
    ("W/(m^2 K)", _BTU / 3600 / _FT**2 / Fraction(5, 9), "BTU/(h ft^2 °F)"),
    ("Pa", 1, "Pa"),
    ("Pa", 1000, "kPa"),
    ("Pa", 10**6, "MPa"),
    ("Pa", 10**9, "GPa"),
    ("Pa", 10**5, "bar"),
    ("Pa", _LBF / _IN**2, "psi"),
    ("Pa", 1000 * _LBF / _IN**2, "ksi"),
    ("N/m", 1, "N/m"),
    ("N/m", 1000, "N/mm"),
    ("N/m", _LBF / _IN, "lbf/in, lb/in"),
    ("N/m", _LBF / _FT, "lbf/ft"),
    ("kg m^2", 1, "kg m^2"),
    ("kg m^2", _SLUG * _FT**2, "slug ft^2"),
    ("kg m^2", _LB * _FT**2, "lb ft^2"),
    ("kg m^2", _LB * _IN**2, "lb in^2"),
    ("kg m^2/s", 1, "kg m^2/s"),
    ("kg m^2/s", _SLUG * _FT**2, "slug ft^2/s"),
    ("kg/m^3", 1, "kg/m^3"),
    ("kg/m^2", 1, "kg/m^2"),
    ("kg/m^2", _LB / _FT**2, "lb/ft^2"),
    ("kg/m^3", _SLUG / _FT**3, "slug/ft^3"),
    ("kg/m", 1, "kg/m"),
    ("K", 1, "K"),
)
"""SI unit, the factor to it, and the spellings of the unit worth that much."""

_CELSIUS, _FAHRENHEIT = Fraction("273.15"), Fraction("459.67") * Fraction(5, 9)
_DEGREES = ((Fraction(1), _CELSIUS, "°C, degC"), (Fraction(5, 9), _FAHRENHEIT, "°F, degF"))

COMMON: dict[str, Unit] = {
    text: Unit(text, DIMENSIONS[si], Fraction(factor))
    for si, factor, spellings in _WORTH
    for text in spellings.split(", ")
} | {
    text: Unit(text, DIMENSIONS["K"], factor, offset)
    for factor, offset, spellings in _DEGREES
    for text in spellings.split(", ")
}
"""Every unit of the table by its spelling."""

_WORD = r"(?:[A-Za-zµΩ]+|°[CF]?|%)(?:\^?-?[1-9])?"
_SHAPE = re.compile(rf"(?:1/)?{_WORD}(?:[ /]{_WORD})*")
_PINT_ROOTS = ("gram", "meter", "second", "radian", "kelvin", "ampere")


def zero(unit: str) -> float:
    """Return how far the zero of a unit lies above that of SI, in this unit: 273.15 for ``°C``, mostly 0."""
    found = COMMON.get(unit)
    return float(found.offset / found.factor) if found else 0.0


def spelled(text: str) -> str:
    """Return a unit in the table's spelling: ``slug-ft²`` and ``slug * ft**2`` are ``slug ft^2``."""
    text = text.replace("²", "^2").replace("³", "^3").replace("**", "^").replace("\u03bc", "µ")
    text = re.sub(r"\b(?:minutes?)\b", "min", re.sub(r"\s+(?:per|a)\s+", "/", text))
    text = re.sub(r"(?<=[A-Za-z])-(?=[A-Za-z])|[*·⋅]", " ", text)
    text = re.sub(r"\s*([/^])\s*", r"\1", " ".join(text.split()))
    text = re.sub(r"(?<=[A-Za-z])([23])\b", r"^\1", text)
    text = text.removesuffix(".")
    return f"1{text}" if text.startswith("/") else text


def find(text: str) -> Unit | None:
    """Return the unit written as `text`, or None where no unit is so called."""
    name = text if text in COMMON else spelled(text)
    if name in COMMON:
        return COMMON[name]
    return _from_pint(name) if len(name) <= 40 and _SHAPE.fullmatch(name) else None


@cache
def ratio(unit: str, other: str) -> Fraction:
    """Return how many of the `other` unit are worth one of `unit`, exactly; 1 for a unit and itself.

    Examples
    --------
    >>> ratio("mi", "ft")
    Fraction(5280, 1)
    >>> ratio("1", "%")
    Fraction(100, 1)
    """
    return Fraction(1) if unit == other else _factor(unit) / _factor(other)


def _factor(unit: str) -> Fraction:
    return Fraction(1) if unit == "1" else COMMON[unit].factor


@cache
def registry() -> pint.UnitRegistry:  # type: ignore[type-arg]
    """Return pint's registry, built once a run."""
    import pint

    return pint.UnitRegistry()


@cache
def _from_pint(name: str) -> Unit | None:
    import pint

    root: Any
    try:
        parsed = registry().parse_units(name.replace(" ", "*"))
        root, zero = (registry().Quantity(number, parsed).to_root_units() for number in (1.0, 0.0))
    except (pint.PintError, AttributeError, TypeError, ValueError, ArithmeticError):
        return None
    exponents = dict(root.unit_items())
    dimension = tuple(round(float(exponents.pop(unit, 0.0))) for unit in _PINT_ROOTS)
    factor = float(root.magnitude) / 1000.0 ** dimension[0]  # pint's root of mass is the gram
    known = not exponents and 0.0 < factor < math.inf and zero.magnitude == 0.0
    return Unit(name, dimension, Fraction(factor)) if known else None


def zero_alike(unit: str) -> Unit | None:
    """Return a unit where 0 is the same amount in every unit of its kind, None where not, as of temperatures.

    Examples
    --------
    >>> zero_alike("rad").text, zero_alike("K")
    ('rad', None)
    """
    found = find(unit)
    return (
        found
        if found and not any(each.offset for each in COMMON.values() if each.dimension == found.dimension)
        else None
    )
