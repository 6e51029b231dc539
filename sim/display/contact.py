"""Contact stress between roller and cam: line contact of two cylinders."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray

MaterialName = Literal["steel", "brass", "aluminium", "acetal", "birch plywood"]


@dataclass(frozen=True, slots=True)
class Material:
    """Material of a cam or roller.

    Attributes
    ----------
    elastic_modulus_pa : float
        Young's modulus. [Pa]
    poisson_ratio : float
        Poisson's ratio.
    contact_limit_pa : float
        Contact stress allowed for long service in a display. [Pa]
    """

    elastic_modulus_pa: float
    poisson_ratio: float
    contact_limit_pa: float


MATERIALS: dict[MaterialName, Material] = {
    "steel": Material(207e9, 0.29, 500e6),
    "brass": Material(105e9, 0.34, 200e6),
    "aluminium": Material(70e9, 0.33, 150e6),
    "acetal": Material(2.9e9, 0.35, 40e6),
    "birch plywood": Material(9e9, 0.30, 20e6),
}
"""Moduli are handbook values; the contact limits are set for this display, well below the onset of yield."""


def contact_stress(
    force_n: float | FloatArray, width_m: float, curvature_per_m: float | FloatArray, bodies: tuple[Material, Material]
) -> FloatArray:
    """Return the largest pressure between two bodies in contact along a line. [Pa].

    Parameters
    ----------
    force_n : float or array
        Force that presses them together. [N]
    width_m : float
        Length of the line. [m]
    curvature_per_m : float or array
        Sum of the two curvatures 1/R1 + 1/R2; a concave one counts negative. [1/m]
    bodies : pair of Material
        The two materials.

    Notes
    -----
    Hertz: p = √(F κ E* / (π b)), 1/E* = (1 − ν1²)/E1 + (1 − ν2²)/E2. Smooth, elastic, no friction.

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, chapter 17.

    Examples
    --------
    >>> round(float(contact_stress(1000.0, 0.01, 100.0, (MATERIALS["steel"], MATERIALS["steel"]))) / 1e6)
    600
    """
    soft = sum((1.0 - body.poisson_ratio**2) / body.elastic_modulus_pa for body in bodies)
    pressed = np.asarray(force_n) > 0.0
    loaded = np.where(pressed, curvature_per_m, 0.0) * np.where(pressed, force_n, 0.0)
    stress: FloatArray = np.sqrt(loaded / (math.pi * width_m * soft))
    return stress
