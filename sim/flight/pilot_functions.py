"""The functions of which a pilot model is made, for one flight and for many at once."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import TYPE_CHECKING, Final, Protocol

import numpy as np

if TYPE_CHECKING:
    from sim.numerics.number import Number


class PilotFunctions(Protocol):
    """The functions of one kind of number that a pilot model needs."""

    def sqrt(self, x: Number, /) -> Number:
        """Return the square root."""

    def sin(self, x: Number, /) -> Number:
        """Return the sine of an angle in radians."""

    def cos(self, x: Number, /) -> Number:
        """Return the cosine of an angle in radians."""

    def tan(self, x: Number, /) -> Number:
        """Return the tangent of an angle in radians."""

    def atan2(self, y: Number, x: Number, /) -> Number:
        """Return the angle of a point in radians."""

    def larger(self, x: Number, y: Number, /) -> Number:
        """Return the larger of two numbers."""

    def smaller(self, x: Number, y: Number, /) -> Number:
        """Return the smaller of two numbers."""

    def either(self, condition: Number, x: Number, y: Number, /) -> Number:
        """Return x where the condition holds, else y."""


ONE: Final[PilotFunctions] = SimpleNamespace(
    sqrt=math.sqrt,
    sin=math.sin,
    cos=math.cos,
    tan=math.tan,
    atan2=math.atan2,
    larger=max,
    smaller=min,
    either=lambda condition, x, y: x if condition else y,
)
"""For one flight."""
MANY: Final[PilotFunctions] = SimpleNamespace(
    sqrt=np.sqrt,
    sin=np.sin,
    cos=np.cos,
    tan=np.tan,
    atan2=np.arctan2,
    larger=np.maximum,
    smaller=np.minimum,
    either=np.where,
)
"""For arrays with one entry a flight."""
