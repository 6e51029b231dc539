"""Conversion factors of NIST Special Publication 811.

A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units (SI),
NIST Special Publication 811, 2008 edition, Appendix B.8. Mark M: from memory, recomputed from the exact definitions.

The printed factors have seven digits; those that the source sets in bold are exact.
"""

import pytest

from sim.units.parsing import Allowed, read

ROUNDED = [
    ("1 lb", "kg", "4.535924e-1"),
    ("1 oz", "kg", "2.834952e-2"),
    ("1 slug", "kg", "1.459390e+1"),
    ("1 lbf", "N", "4.448222e+0"),
    ("1 lbf ft", "N m", "1.355818e+0"),
    ("1 lbf in", "N m", "1.129848e-1"),
    ("1 lbf/in", "N/m", "1.751268e+2"),
    ("1 psi", "Pa", "6.894757e+3"),
    ("1 hp", "W", "7.456999e+2"),
    ("1 kt", "m/s", "5.144444e-1"),
    ("1 rpm", "rad/s", "1.047198e-1"),
    ("1 °", "rad", "1.745329e-2"),
    ("1 lb ft^2", "kg m^2", "4.214011e-2"),
    ("1 lb in^2", "kg m^2", "2.926397e-4"),
    ("1 slug/ft^3", "kg/m^3", "5.153788e+2"),
    ("1 gal", "m^3", "3.785412e-3"),
]
EXACT = [
    ("1 ft", "m", 0.3048),
    ("1 in", "m", 0.0254),
    ("1 yd", "m", 0.9144),
    ("1 mi", "m", 1609.344),
    ("1 nmi", "m", 1852.0),
    ("1 ft^2", "m^2", 0.09290304),
    ("1 in^2", "m^2", 0.00064516),
    ("1 mph", "m/s", 0.44704),
    ("1 ft/s", "m/s", 0.3048),
    ("1 kgf", "N", 9.80665),
    ("1 atm", "Pa", 101325.0),
    ("32 °F", "K", 273.15),
    ("0 °C", "K", 273.15),
]


@pytest.mark.parametrize(("text", "unit", "factor"), ROUNDED)
def test_a_rounded_factor(text, unit, factor, printed):
    printed(read(text, Allowed(unit), key="x").value, factor, unit, row=text)


@pytest.mark.parametrize(("text", "unit", "exact"), EXACT)
def test_an_exact_factor(text, unit, exact, printed):
    printed(read(text, Allowed(unit), key="x").value, f"{exact}".removesuffix(".0"), unit, row=text, exact=True)
