"""Lift and drag of the whole airplane: the wing as one equivalent monoplane, and its drag polar."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from sim.numerics.number import Number


@dataclass(frozen=True, slots=True)
class Polar:
    """CD = CD0 + CL² / (π e A) up to the greatest lift, and the dimensions that coefficients are referred to.

    Attributes
    ----------
    area_m2, span_m, chord_m : float
        Reference area, span and mean chord; no area, no air loads. [m², m, m]
    aspect_ratio : float
        Of the equivalent monoplane, above 0.
    span_efficiency : float
        Oswald's e, above 0.
    drag_zero_lift : float
        CD0, drag coefficient without lift.
    lift_zero, lift_max : float
        Lift coefficient at no incidence, and the greatest one.

    Notes
    -----
    Any of them may be an array with one entry an airplane, and what follows from it then is one.
    """

    area_m2: float
    span_m: float
    chord_m: float
    aspect_ratio: float
    span_efficiency: float
    drag_zero_lift: float
    lift_zero: float
    lift_max: float

    @property
    def induced(self) -> float:
        """Induced drag coefficient over lift coefficient squared: 1 / (π e A)."""
        return 1.0 / (pi * self.span_efficiency * self.aspect_ratio)

    def stall_m_s(self, weight_n: Number, density_kg_m3: float) -> Number:
        """Return the level speed below which the wing cannot carry the weight [m/s].

        Parameters
        ----------
        weight_n, density_kg_m3 : float
            [N, kg/m³]
        """
        return (2.0 * weight_n / (density_kg_m3 * self.area_m2 * self.lift_max)) ** 0.5

    def attached_to_rad(self, lift_alpha: Number) -> Number:
        """Return the angle of attack at which a line of lift reaches the greatest lift [rad].

        Parameters
        ----------
        lift_alpha : float
            Its slope. [1/rad]
        """
        return (self.lift_max - self.lift_zero) / lift_alpha

    def drag_n(self, weight_n: Number, density_kg_m3: float, speed_m_s: Number) -> Number:
        """Return the drag in level flight [N].

        Parameters
        ----------
        weight_n, density_kg_m3, speed_m_s : float
            [N, kg/m³, m/s]
        """
        pressed = 0.5 * density_kg_m3 * speed_m_s**2 * self.area_m2
        return pressed * self.drag_zero_lift + self.induced * weight_n**2 / pressed

    @property
    def lift_drag_max(self) -> Number:
        """Greatest lift over drag: ½ √(π e A / CD0), or that at the stall where the wing cannot reach it."""
        best = np.minimum((self.drag_zero_lift / self.induced) ** 0.5, self.lift_max)
        return best / (self.drag_zero_lift + self.induced * best**2)


NO_WING: Final = Polar(
    area_m2=0.0,
    span_m=1.0,
    chord_m=1.0,
    aspect_ratio=1.0,
    span_efficiency=1.0,
    drag_zero_lift=0.0,
    lift_zero=0.0,
    lift_max=1.0,
)


@dataclass(frozen=True, slots=True)
class PolarBands:
    """How well a polar is known: one standard deviation of what it is made of, 0 where nothing is said.

    Attributes
    ----------
    drag_zero_lift_band, span_efficiency_band, lift_max_band : float
        Of the fields of `Polar` that are called so.
    """

    drag_zero_lift_band: float
    span_efficiency_band: float
    lift_max_band: float
