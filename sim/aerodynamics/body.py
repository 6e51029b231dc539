"""What the air does to a fuselage: forces and moments that lifting surfaces leave out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.aerodynamics.geometry import Airframe

FORE_BODY_CENTRE = 1.0 / 6.0
"""Centre of the side force on the fore half of an ellipsoid, from its nose in lengths."""


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


def body_yaw_volume(length_m: float, width_m: float, depth_m: float, nose_m: float) -> float:
    """Return the unstable yawing moment of a body per unit of sideslip and of dynamic pressure. [m³/rad].

    Parameters
    ----------
    length_m, width_m, depth_m : float
        Overall sizes, length the largest. [m]
    nose_m : float
        From its nose aft to the centre of gravity. [m]

    Notes
    -----
    The force of `body_side_area`, spread over the fore half of an ellipsoid as slender-body theory has it; behind the
    largest section the flow has left the body, which Munk's moment leaves out. Known error a quarter of Munk's moment,
    `body_moment_volume`; with a nose as short as a sixth of the length there is none.

    References
    ----------
    USAF Datcom, 1978, section 4.2.2.1, with the flow leaving at the largest section (from memory).

    Examples
    --------
    >>> round(body_yaw_volume(6.0, 0.8, 1.0, 2.0), 2)
    1.1
    """
    force_m2 = body_side_area(length_m, width_m, depth_m)
    return force_m2 * (nose_m - FORE_BODY_CENTRE * length_m)


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


def wing_height_effect(airframe: Airframe, span_m: float) -> float:
    """Return the rolling moment coefficient due to sideslip of planes above the axis of the body, negative. [1/rad].

    Parameters
    ----------
    airframe : Airframe
        Its body with the axis through the centre of gravity; a plane clear of it counts as one at its edge.
    span_m : float
        That the coefficient is referred to. [m]

    Notes
    -----
    −1.2 √A (z/b) (2d/b), by the area of the planes; the stream across the body turns up at one root and down at the
    other. Known error ±40 %.

    References
    ----------
    USAF Datcom, 1978, section 5.2.2.1 (from memory).
    """
    depth_m = math.sqrt(airframe.body_width_m * airframe.body_depth_m)
    total = 0.0
    for plane in airframe.wing.planes:
        height_m = min(max(plane.height_m + airframe.wing_height_m, -0.5 * depth_m), 0.5 * depth_m)
        aspect = plane.span_m / plane.chord_m
        total -= plane.area_m2 * 2.4 * math.sqrt(aspect) * height_m * depth_m / span_m**2
    return total / airframe.wing.area_m2
