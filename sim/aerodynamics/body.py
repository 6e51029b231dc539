"""What the air does to a fuselage and to a running propeller: forces and moments that lifting surfaces leave out."""

from __future__ import annotations

import math

BODY_ERROR = 0.30
PROPELLER_ERROR = 0.40


def apparent_mass_factor(fineness: float) -> float:
    """Return k2 − k1 of an ellipsoid of revolution: across minus along, in masses of the air it displaces.

    Parameters
    ----------
    fineness : float
        Length over largest breadth, greater than 1.

    Notes
    -----
    Exact for the ellipsoid in an ideal fluid. A real body with a blunt tail turns about 30 % less.

    References
    ----------
    Munk, NACA TR 184, 1924; Lamb, Hydrodynamics, 6th ed. 1932, article 114.

    Examples
    --------
    >>> round(apparent_mass_factor(6.01), 3)
    0.872
    """
    e = math.sqrt(1.0 - 1.0 / (fineness * fineness))
    log = math.log((1.0 + e) / (1.0 - e))
    along = 2.0 * (1.0 - e * e) / e**3 * (0.5 * log - e)
    across = 1.0 / (e * e) - (1.0 - e * e) / (2.0 * e**3) * log
    return across / (2.0 - across) - along / (2.0 - along)


def body_moment_volume(length_m: float, across_m: float) -> float:
    """Return the unstable moment of a body per unit of angle and of dynamic pressure, positive. [m³/rad].

    Parameters
    ----------
    length_m : float
        Length, greater than `across_m`. [m]
    across_m : float
        Breadth across the flow: width for pitch, depth for yaw. [m]

    Notes
    -----
    Munk's slender body with the volume of the ellipsoid of that breadth. Known error ±30 %: box sections and the
    wing's upwash add, separation at the tail takes away.

    References
    ----------
    Munk, NACA TR 184, 1924; Nelson, 2nd ed. 1998, section 2.3.3.

    Examples
    --------
    >>> round(body_moment_volume(6.0, 1.0), 2)
    5.48
    """
    return 2.0 * apparent_mass_factor(length_m / across_m) * math.pi / 6.0 * length_m * across_m**2


def body_side_area(length_m: float, width_m: float, depth_m: float) -> float:
    """Return the side force of a body per unit of sideslip and of dynamic pressure, positive. [m²/rad].

    Parameters
    ----------
    length_m, width_m, depth_m : float
        Overall sizes, length the largest. [m]

    Notes
    -----
    Slender body whose flow parts near the largest section. Known error ±30 %.

    References
    ----------
    USAF Datcom, section 5.2.1.1 (body side force).

    Examples
    --------
    >>> round(body_side_area(6.0, 0.8, 1.0), 2)
    1.1
    """
    return 2.0 * apparent_mass_factor(length_m / depth_m) * math.pi / 4.0 * width_m * depth_m


def propeller_side_area(
    *, blades: int, chord_m: float, diameter_m: float, spin_rad_s: float, speed_m_s: float, slope: float = 5.0
) -> float:
    """Return the force in the plane of a running propeller per unit of angle and of dynamic pressure. [m²/rad].

    Parameters
    ----------
    blades : int
        Number of blades.
    chord_m, diameter_m : float
        Mean blade chord; diameter. [m]
    spin_rad_s : float
        Shaft speed of the propeller, either sense. [rad/s]
    speed_m_s : float
        Airspeed, greater than 0. [m/s]
    slope : float
        Lift slope of the blade section with its three-dimensional loss. [1/rad]

    Notes
    -----
    A propeller in a side wind works as a fin of its projected side area: the blade elements between a fifth of the
    radius and the tip, each met at the helix angle tan φ = V/(Ω r), averaged over a turn. Small thrust; inflow and
    blade camber are left out. Known error ±40 %. The slipstream over the tail is not in it.

    References
    ----------
    Ribner, NACA TR 820, 1945 (projected side area); Glauert, R. & M. 642, 1919.

    Examples
    --------
    >>> area = propeller_side_area(blades=2, chord_m=0.2, diameter_m=2.6, spin_rad_s=131.0, speed_m_s=40.0)
    >>> round(area, 2)
    0.42
    """
    if spin_rad_s == 0.0:
        return 0.0
    advance_m = speed_m_s / abs(spin_rad_s)
    tip_m, root_m = 0.5 * diameter_m, 0.1 * diameter_m
    side_m = advance_m * (math.asinh(tip_m / advance_m) - math.asinh(root_m / advance_m))
    return 0.5 * blades * chord_m * slope * side_m
