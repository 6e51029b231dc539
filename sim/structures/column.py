"""Strength of a column: Euler's load when slender, a short-column curve that meets it when stocky, and eccentricity."""

from __future__ import annotations

from math import cos, inf, pi, sqrt
from typing import TYPE_CHECKING

from scipy.optimize import brentq

if TYPE_CHECKING:
    from sim.structures.cross_section import CrossSection
    from sim.structures.materials import StructuralMaterial


def column_stress_pa(slenderness: float, *, modulus_pa: float, column_pa: float, power: float = 2.0) -> float:
    """Return the mean stress at which a straight column with hinged ends fails. [Pa].

    Parameters
    ----------
    slenderness : float
        Effective length over radius of gyration, from 0.
    modulus_pa, column_pa : float
        Young's modulus, and the stress at which a column of no length fails. [Pa]
    power : float
        Of the slenderness in the short-column curve, above 0.

    Notes
    -----
    σ = σ0 (1 − 2/(p + 2) (s/s0)^p) up to s0 = π √((1 + 2/p) E/σ0), where it meets Euler's π² E/s² with the same slope.
    p = 2 is Johnson's parabola, which leaves at σ0/2; p = 1.5 that of normalised 4130 tubes (within .3 % of Bruhn's
    79 500 − 51.9 s^1.5 psi); p = 4 that of wood, which leaves at 2/3 σ0. Local buckling of thin walls is not in it.

    References
    ----------
    S. P. Timoshenko & J. M. Gere, Theory of Elastic Stability, 2nd ed., article 2.1; E. F. Bruhn, Analysis and Design
    of Flight Vehicle Structures, chapter C4; Forest Products Laboratory, columns of wood (from memory).

    Examples
    --------
    >>> round(column_stress_pa(100.0, modulus_pa=205e9, column_pa=250e6) / 1e6)
    173
    """
    leaves = pi * sqrt((1.0 + 2.0 / power) * modulus_pa / column_pa)
    if slenderness >= leaves:
        return pi**2 * modulus_pa / slenderness**2
    return column_pa * float(1.0 - 2.0 / (power + 2.0) * (slenderness / leaves) ** power)


def column_strength_n(
    section: CrossSection,
    material: StructuralMaterial,
    length_m: float,
    *,
    fixity: float = 1.0,
    eccentricity_m: float = 0.0,
) -> float:
    """Return the greatest compression that a strut bears. [N].

    Parameters
    ----------
    section : CrossSection
        Constant along the strut; it buckles about the axis of its smaller moment of inertia.
    material : StructuralMaterial
        Of the strut.
    length_m : float
        From pin to pin, above 0. [m]
    fixity : float
        Of the ends, 1 hinged to 4 clamped: the effective length is that over its square root.
    eccentricity_m : float
        Of the load at both ends, to the side on which the strut bends. [m]

    Notes
    -----
    The lesser of the column curve and, with an eccentricity e, the load of the secant formula,
    P/A (1 + e c/ρ² sec(L'/2ρ √(P/EA))) = σ, at which the compressed fibre of a crooked or off-centre strut yields.

    References
    ----------
    S. P. Timoshenko & J. M. Gere, Theory of Elastic Stability, 2nd ed., article 1.9.
    """
    radius_m = sqrt(section.least_inertia_m4 / section.area_m2)
    slenderness = length_m / sqrt(fixity) / radius_m
    curve_n = section.area_m2 * column_stress_pa(
        slenderness, modulus_pa=material.modulus_pa, column_pa=material.column_pa, power=material.column_power
    )
    if not eccentricity_m:
        return curve_n
    euler_n = pi**2 * material.modulus_pa * section.area_m2 / slenderness**2
    lever = eccentricity_m * section.least_fibre_m / radius_m**2

    def beyond(load_n: float) -> float:
        bent = 1.0 / cos(0.5 * pi * sqrt(load_n / euler_n))
        return float(load_n / section.area_m2 * (1.0 + lever * bent) - material.yield_pa)

    top_n = min(euler_n * (1.0 - 1e-12), material.yield_pa * section.area_m2)
    return min(curve_n, float(brentq(beyond, 0.0, top_n, xtol=1e-9 * top_n)))


def margin(strength_n: float, load_n: float) -> float:
    """Return the margin of safety: strength over load, less 1; infinite without load."""
    return strength_n / load_n - 1.0 if load_n > 0.0 else inf
