"""What the equations may be computed with: one text serves floats, rows of an array, complex numbers and symbols."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, Final, Protocol, TypeAlias

import numpy as np

Number: TypeAlias = Any
"""A float, a row of floats with one for each flight, a complex number or a symbol."""


class MathFunctions(Protocol):
    """Where the equations take their functions from: `math`, `cmath`, `sympy` or `ARRAY_MATH`."""

    def sqrt(self, x: Number, /) -> Number:
        """Return the square root."""

    def atan(self, x: Number, /) -> Number:
        """Return the arc tangent in radians."""


ARRAY_MATH: Final[MathFunctions] = SimpleNamespace(sqrt=np.sqrt, atan=np.arctan)
"""For rows of an array, real or complex."""
