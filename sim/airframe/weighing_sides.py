"""What the buttline of the centre of gravity says for one cause of a gap and against another."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, hypot, log, pi, sqrt
from typing import TYPE_CHECKING

from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_data import Weighed

UNSURE_BUTTLINE_M = 0.25 * INCH_M
"""Standard error of the buttline of an item, a quarter of an inch: an estimate of ours, for items state none, and most
stand in the plane of symmetry."""
OTHER_SHARE, OTHER_M = 0.1, 0.02
"""Probability that something else moves the centre of gravity aside, and by how much (standard deviation): a wheel's
buttline misread, an item off its place. An estimate of ours."""


@dataclass(frozen=True, slots=True)
class Side:
    """Scales less list across the airplane.

    Attributes
    ----------
    moment_kg_m, error_kg_m : float
        Moment about the plane of symmetry, right heavy positive, and its standard error. [kg m]
    mass_kg : float
        Of the airplane. [kg]
    """

    moment_kg_m: float
    error_kg_m: float
    mass_kg: float

    @property
    def z_score(self) -> float:
        """The moment over its standard error."""
        return self.moment_kg_m / self.error_kg_m

    def evidence(self, size_kg: float, size_error_kg: float, at: tuple[float, float]) -> float:
        """Return the logarithm of the probability density of this moment where a mass is what is wrong.

        Parameters
        ----------
        size_kg, size_error_kg : float
            The mass too many by the scales, and its standard error; 0 for a cause that is no mass. [kg]
        at : tuple of float
            Its buttline, and the standard deviation of that. [m]
        """
        off = self.moment_kg_m - size_kg * at[0]
        error = hypot(self.error_kg_m, size_error_kg * at[0], size_kg * at[1])
        other = hypot(error, OTHER_M * self.mass_kg)
        density = (1.0 - OTHER_SHARE) * _normal(off, error) + OTHER_SHARE * _normal(off, other)
        return log(density) if density > 0.0 else -0.5 * (off / other) ** 2


def side(items: Sequence[Item], weighed: Weighed) -> Side:
    """Return the gap across the airplane.

    Parameters
    ----------
    items : sequence of Item
        What stood on the scales, as listed.
    weighed : Weighed
        By the scales.
    """
    listed = sum(item.mass_kg * item.buttline_m for item in items)
    scales = weighed.mass_kg * weighed.cg_buttline_m
    list_error = UNSURE_BUTTLINE_M * sqrt(sum(item.mass_kg**2 for item in items))
    return Side(scales - listed, hypot(weighed.mass_kg * weighed.cg_buttline_error_m, list_error), weighed.mass_kg)


def _normal(value: float, deviation: float) -> float:
    return exp(-0.5 * (value / deviation) ** 2) / (deviation * sqrt(2.0 * pi))
