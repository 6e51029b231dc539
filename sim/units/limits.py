"""Limits of a quantity in words, and whether a value lies within them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from sim.units.quantities import kinds
from sim.units.registry import DIMENSIONS, Unit, find

if TYPE_CHECKING:
    from sim.units.parsing import Allowed

WHOLES = 2.0
"""Most of what may be a share; a number that may be larger is a count or a ratio."""
HUNDREDTHS = 5.0
"""From here on a number where a share is asked for is taken to be meant in per cent."""
POWER = re.compile(r"\de[+-]?\d")
"""Of a number with a power of ten, which nobody writes where a unit fits."""
_NONE = Unit("", DIMENSIONS["1"], Fraction(1))


def in_words(allowed: Allowed, unit: Unit | None = None, shop: Unit | None = None) -> str:
    """Return the limits in words and in `unit`: ``above 0 and at most 3500 rpm``; nothing where there are none.

    With `shop` each limit has the unit of a US shop behind it: ``0.1 m (3.937 in) to 0.3 m (11.811 in)``; a 0
    beside another limit has none.
    """
    several = sum(limit is not None for limit in (allowed.above, allowed.least, allowed.below, allowed.most)) > 1
    shown = unit or find(allowed.unit) or _NONE
    name = f" {shown.text}" if shown.text and not shop else ""

    def number(limit: float) -> str:
        held = _plain((Fraction(limit) - shown.offset) / shown.factor)
        if shop is None:
            return held
        if limit == 0.0:
            return held if several and not shown.offset else f"{held} {shown.text}"
        return f"{held} {shown.text} ({_plain((Fraction(limit) - shop.offset) / shop.factor)} {shop.text})"

    if allowed.least is not None and allowed.most is not None:
        return f"{number(allowed.least)} to {number(allowed.most)}{name}"
    words = (("above", allowed.above), ("at least", allowed.least), ("below", allowed.below), ("at most", allowed.most))
    said = " and ".join(f"{word} {number(limit)}" for word, limit in words if limit is not None)
    return said and said + name


def _plain(number: Fraction) -> str:
    value = float(f"{float(number):.5g}")
    return f"{value:.5g}" if abs(value) >= 1e7 or 0.0 < abs(value) < 1e-4 else f"{value:.10g}"


def limits_of(allowed: Allowed, unit: Unit, *, bare: bool) -> str:
    """Return the limits in the unit that was written; of a bare 0, or a unit far from them, in those of both shops."""
    shop, own = find(kinds()[allowed.unit].filed[0]), find(allowed.unit)
    said = in_words(allowed, unit)
    far = bool(unit.text) and POWER.search(said) is not None
    shown = own if far else unit
    both = (bare or far) and shown and shown.text and shop and shop.text != shown.text
    return in_words(allowed, shown, shop) if both else in_words(allowed, shown)


def per_cent(value: float, allowed: Allowed, unit: Unit) -> str:
    """Return how to write a share of so many in a hundred, where that is what a number may mean."""
    share = allowed.unit == "1" and allowed.most is not None and allowed.most <= WHOLES and not unit.text
    meant = share and value >= HUNDREDTHS and not outside(0.01 * value, allowed)
    return f'; in per cent it is "{_plain(Fraction(value))} %"' if meant else ""


def outside(value: float, allowed: Allowed) -> bool:
    """Return whether a value lies outside its limits."""
    return (
        (allowed.above is not None and value <= allowed.above)
        or (allowed.least is not None and value < allowed.least)
        or (allowed.below is not None and value >= allowed.below)
        or (allowed.most is not None and value > allowed.most)
    )
