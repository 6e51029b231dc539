"""Velocity that horseshoe vortices with straight wakes along x induce across the stream."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_panels import Panels

    Numbers = NDArray[np.float64]

TRAILING_CORE = 0.125
"""Radius of the core of a trailing vortex in widths of its strip: no control point of its own plane is so near."""
BOUND_CORE = 0.25
"""Radius of the core of a bound vortex in chords of its panel: its own control point is twice as far."""

LEAST_SQUARE = float(np.finfo(np.float64).tiny)
"""Of a distance: at the very end of a vortex there is no direction. [m²]"""


class Way(NamedTuple):
    """From each end of the bound vortices to each point: by axis, and how far; shape (points, panels) each. [m]."""

    x: Numbers
    y: Numbers
    z: Numbers
    length: Numbers


def induced_velocity(points_m: Numbers, panels: Panels) -> tuple[Numbers, Numbers]:
    """Return the velocity to the right and up at each point for a unit of circulation of each panel.

    Parameters
    ----------
    points_m : array, shape (points, 3)
        Where, in lattice axes. [m]
    panels : Panels
        With the vortices.

    Returns
    -------
    tuple of array, shape (points, panels) each
        v and w for circulation from left to right, which lifts. [1/m]

    Notes
    -----
    Law of Biot and Savart for a bound segment and two half-infinite legs. Each vortex turns as a solid within its
    core (Rankine), so that a wake that passes straight through another plane leaves the answer finite.

    References
    ----------
    Katz & Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, sections 2.11 and 12.1 (from memory).
    """
    width = np.hypot(*(panels.right_m - panels.left_m)[:, 1:].T)
    core_m2 = (TRAILING_CORE * width) ** 2
    left, right = _from(points_m, panels.left_m), _from(points_m, panels.right_m)
    left_leg, right_leg = _leg(left, core_m2), _leg(right, core_m2)
    bound_v, bound_w = _bound(left, right, panels)
    v = (left_leg * left.z - right_leg * right.z + bound_v) / (4.0 * math.pi)
    w = (right_leg * right.y - left_leg * left.y + bound_w) / (4.0 * math.pi)
    return v, w


def _from(points_m: Numbers, ends_m: Numbers) -> Way:
    x, y, z = (points_m[:, axis, None] - ends_m[:, axis] for axis in range(3))
    return Way(x, y, z, np.sqrt(np.maximum(x * x + y * y + z * z, LEAST_SQUARE)))


def _leg(way: Way, core_m2: Numbers) -> Numbers:
    """Return (1 + cos) over the square of the distance from a leg that runs aft."""
    return (1.0 + way.x / way.length) / np.maximum(way.y * way.y + way.z * way.z, core_m2)


def _bound(left: Way, right: Way, panels: Panels) -> tuple[Numbers, Numbers]:
    """Return v and w of the bound segments times 4π."""
    lx, ly, lz = (panels.right_m - panels.left_m).T
    x, y, z = left.x, left.y, left.z
    across_x, across_y, across_z = y * lz - z * ly, z * lx - x * lz, x * ly - y * lx
    square = across_x * across_x + across_y * across_y + across_z * across_z
    least = (lx * lx + ly * ly + lz * lz) * (BOUND_CORE * panels.row_chord_m) ** 2
    towards_left = (lx * x + ly * y + lz * z) / left.length
    towards_right = (lx * right.x + ly * right.y + lz * right.z) / right.length
    strength = (towards_right - towards_left) / np.maximum(square, least)
    return strength * across_y, strength * across_z
