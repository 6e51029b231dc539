"""What is so small or so large that nobody can mean it: ends of a kind of quantity, where a value has none itself."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from sim.units.limits import in_words
from sim.units.quantities import kinds
from sim.units.registry import DIMENSIONS, Unit, find

if TYPE_CHECKING:
    from sim.units.parsing import Allowed

ROUNDING = 1e-9
"""What an amount may lose in another unit, as a share of it."""
_NONE = Unit("", DIMENSIONS["1"], Fraction(1))


def unmeant(value: float, tolerance: float, unit: Unit, allowed: Allowed) -> str:
    """Return why a value or its tolerance cannot be meant, or nothing.

    Parameters
    ----------
    value, tolerance : float
        In the SI unit.
    unit : Unit
        In which they were written.
    allowed : Allowed
        What the value may be.
    """
    return _too_small(value, allowed) or _too_large(value, allowed) or _too_wide(tolerance, unit, allowed)


def _too_small(value: float, allowed: Allowed) -> str:
    """Tell what is above 0 and of no size that can be meant, as a length of 1e-30 m."""
    smallest, zero = allowed.smallest or kinds()[allowed.unit].least, allowed.least == 0.0
    sized = allowed.above == 0.0 or (zero and allowed.unit != "1")
    small = sized and 0.0 < value < _in_si(smallest) * (1.0 - ROUNDING)
    return f"must be {'0 or ' * zero}at least {smallest}" if small else ""


def _too_large(value: float, allowed: Allowed) -> str:
    """Tell what no shop, airplane or gun has, as a length of 1e30 m, at an end without a limit of its own."""
    most = kinds()[allowed.unit].most
    upper, lower = allowed.most is None and allowed.below is None, allowed.least is None and allowed.above is None
    if upper and value > _most(allowed):
        return f"must be at most {most}"
    return f"must be at least -{most}" if lower and value < -_most(allowed) else ""


def _too_wide(tolerance: float, unit: Unit, allowed: Allowed) -> str:
    """Tell a tolerance larger than any value that is allowed."""
    ends = (allowed.above, allowed.least), (allowed.below, allowed.most)
    reach = max(max((abs(end) for end in pair if end is not None), default=_most(allowed)) for pair in ends)
    if tolerance <= reach:
        return ""
    widest = replace(allowed, above=None, least=None, below=None, most=reach)
    return f"must have a tolerance of {in_words(widest, replace(unit, offset=Fraction(0)))}"


def _most(allowed: Allowed) -> float:
    """Return the most of the kind of quantity in SI; of a kind that nobody writes there is none."""
    most = kinds()[allowed.unit].most
    return _in_si(most) * (1.0 + ROUNDING) if most else math.inf


@cache
def _in_si(written: str) -> float:
    """Return an amount in SI; 0 for none."""
    number, _, text = written.partition(" ")
    unit = find(text) or _NONE
    return float(Fraction(number or 0) * unit.factor + unit.offset)
