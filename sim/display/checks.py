"""A check: a value, the limit it must keep, where the limit comes from, and what would correct a failure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

from sim.units.quantities import quantity, shown
from sim.units.text import with_unit

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.display.rise_laws import FloatArray

Bound = Literal["at most", "at least"]

OWN = "own limit"
"""Set for this display, with no standard behind it."""


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit on one candidate or on many at once.

    Attributes
    ----------
    name : str
        What is checked.
    quantity : str
        Its name in the table of quantities, which says the unit of value and limit.
    value : float or array
        One value a candidate.
    bound : str
        ``at most`` or ``at least``.
    limit : float
        The limit.
    source : str
        Where it comes from.
    cure : str
        What would correct a failure, where that is known before the limit is judged.
    """

    name: str
    quantity: str
    value: float | FloatArray
    bound: Bound
    limit: float
    source: str
    cure: str = ""

    @property
    def passes(self) -> NDArray[np.bool_]:
        """Whether each candidate keeps the limit; one without a value does not."""
        kept = self.value <= self.limit if self.bound == "at most" else self.value >= self.limit
        return np.asarray(kept)


@dataclass(frozen=True, slots=True)
class Check:
    """A limit on the display as it will be built.

    Attributes
    ----------
    name : str
        What is checked.
    value, limit : float
        What it is, and what it may be, in `unit`.
    unit : str
        Unit in which they are held.
    passes : bool
        Whether the limit is kept; a value that does not exist keeps none.
    source : str
        Where the limit comes from.
    cure : str
        For a failure, the nearest change that would pass; empty otherwise.
    bound : str
        ``at most`` or ``at least``.
    quantity : str
        Name in the table of quantities.
    """

    name: str
    value: float
    limit: float
    unit: str
    passes: bool
    source: str
    cure: str
    bound: Bound
    quantity: str

    @property
    def margin(self) -> float:
        """What is left to the limit, negative on a failure, in the check's own unit."""
        return self.limit - self.value if self.bound == "at most" else self.value - self.limit


def check(limit: Limit) -> Check:
    """Return the check of one candidate; the cure is kept only where it fails."""
    passes = bool(limit.passes)
    return Check(
        name=limit.name,
        value=float(limit.value),
        limit=limit.limit,
        unit=quantity(limit.quantity).unit,
        passes=passes,
        source=limit.source,
        cure="" if passes else limit.cure,
        bound=limit.bound,
        quantity=limit.quantity,
    )


def rounded_up(name: str, value: float, step: float = 0.1) -> str:
    """Return a quantity in the unit it is shown in, rounded up.

    Parameters
    ----------
    name : str
        Name of the quantity.
    value : float
        Its value, in the unit of that name.
    step : float
        It is rounded to a multiple of this, in the unit shown.

    Examples
    --------
    >>> rounded_up("cam_diameter_m", 0.12034)
    '120.4 mm'
    """
    unit, factor = shown(name, "si")
    number = round(float(np.ceil(value * factor / step - 1e-9)) * step, 9)
    return with_unit(f"{number:g}", unit)


def rounded_down(name: str, value: float, step: float = 0.1) -> str:
    """Return a quantity in the unit it is shown in, rounded down; parameters as for `rounded_up`.

    Examples
    --------
    >>> rounded_down("rise_deg", 28.99)
    '28.9°'
    """
    return rounded_up(name, value, -step)
