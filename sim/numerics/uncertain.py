"""A number with its standard deviation, and sums and products of independent ones."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Uncertain:
    """A number as well as it is known.

    Attributes
    ----------
    value : float
        In the unit that its name says.
    band : float
        One standard deviation, 0 or more, in the same unit.
    """

    value: float
    band: float = 0.0

    def __mul__(self, other: Uncertain | float) -> Uncertain:
        """Return the product with an independent number, to first order in both deviations."""
        if not isinstance(other, Uncertain):
            return Uncertain(self.value * other, self.band * abs(other))
        return Uncertain(self.value * other.value, math.hypot(self.band * other.value, self.value * other.band))

    def __add__(self, other: Uncertain) -> Uncertain:
        """Return the sum with an independent number."""
        return Uncertain(self.value + other.value, math.hypot(self.band, other.band))

    @property
    def relative(self) -> float:
        """The deviation over the value, which must not be 0."""
        return self.band / abs(self.value)


def total(numbers: Iterable[Uncertain]) -> Uncertain:
    """Return the sum of independent numbers.

    Examples
    --------
    >>> total([Uncertain(1.0, 0.3), Uncertain(2.0, 0.4)])
    Uncertain(value=3.0, band=0.5)
    """
    found = Uncertain(0.0)
    for number in numbers:
        found += number
    return found
