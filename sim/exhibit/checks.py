"""A check: a value, the limit it must keep, where the limit comes from, and what would mend a failure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.exhibit.cam import FloatArray

Bound = Literal["at most", "at least"]

OWN = "own limit"
"""Set for this display, with no standard behind it."""


@dataclass(frozen=True, slots=True)
class Row:
    """A limit on many candidates at once.

    Attributes
    ----------
    name, unit : str
        What is checked, and the unit it is printed in.
    value : array
        One value a candidate.
    bound : str
        ``at most`` or ``at least``.
    limit : float
        The limit.
    source : str
        Where it comes from.
    """

    name: str
    unit: str
    value: FloatArray
    bound: Bound
    limit: float
    source: str

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
    name, unit : str
        What is checked, and the unit it is printed in.
    value, limit : float
        What it is, and what it may be.
    bound : str
        ``at most`` or ``at least``.
    source : str
        Where the limit comes from.
    cure : str
        For a failure, the nearest change that would pass; empty otherwise.
    """

    name: str
    value: float
    bound: Bound
    limit: float
    unit: str
    source: str
    cure: str = ""

    @property
    def margin(self) -> float:
        """What is left to the limit, negative on a failure, in the check's own unit."""
        return self.limit - self.value if self.bound == "at most" else self.value - self.limit

    @property
    def passes(self) -> bool:
        """Whether the limit is kept; a value that does not exist keeps none."""
        return bool(self.margin >= 0.0)


def check(row: Row, cure: str) -> Check:
    """Return the check of a row with one candidate; the cure is kept only where it fails."""
    judged = Check(row.name, float(row.value), row.bound, row.limit, row.unit, row.source)
    return judged if judged.passes else Check(*_fields(judged), cure)


def _fields(judged: Check) -> tuple[str, float, Bound, float, str, str]:
    return judged.name, judged.value, judged.bound, judged.limit, judged.unit, judged.source


def rounded_up(value: float, step: float = 0.1) -> float:
    """Return the next multiple of `step` at or above `value`.

    Examples
    --------
    >>> rounded_up(2.31)
    2.4
    """
    return round(float(np.ceil(value / step - 1e-9)) * step, 9)


def rounded_down(value: float, step: float = 0.1) -> float:
    """Return the next multiple of `step` at or below `value`."""
    return -rounded_up(-value, step)
