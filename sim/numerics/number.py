"""The kinds of number that the equations are evaluated with: floats, arrays, complex numbers, symbols."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, Final, Protocol, TypeAlias

import numpy as np

Number: TypeAlias = Any
"""A float, an array with one entry per flight, a complex number or a symbol."""


class MathFunctions(Protocol):
    """The functions of one kind of number: `math`, `cmath`, `sympy` or `ARRAY_MATH`."""

    def sqrt(self, x: Number, /) -> Number:
        """Return the square root."""

    def atan(self, x: Number, /) -> Number:
        """Return the arc tangent in radians."""


ARRAY_MATH: Final[MathFunctions] = SimpleNamespace(sqrt=np.sqrt, atan=np.arctan)
"""For arrays, real or complex."""
