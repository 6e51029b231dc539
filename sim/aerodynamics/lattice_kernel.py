"""Velocity that horseshoe vortices with straight wakes along x induce across the stream."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_panels import Panels

    Numbers = NDArray[np.float64]

BOUND_CORE = 0.25
"""Radius of the core of a bound vortex in chords of its panel across it: its own control point is twice as far."""

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
    left, right = _from(points_m, panels.left_m), _from(points_m, panels.right_m)
    left_leg, right_leg = _leg(left, panels.left_core_m), _leg(right, panels.right_core_m)
    bound_v, bound_w = _bound(left, right, panels)
    v = (left_leg * left.z - right_leg * right.z + bound_v) / (4.0 * math.pi)
    w = (right_leg * right.y - left_leg * left.y + bound_w) / (4.0 * math.pi)
    return v, w


def _from(points_m: Numbers, ends_m: Numbers) -> Way:
    x, y, z = (points_m[:, axis, None] - ends_m[:, axis] for axis in range(3))
    return Way(x, y, z, np.sqrt(np.maximum(x * x + y * y + z * z, LEAST_SQUARE)))


def _leg(way: Way, core_m: Numbers) -> Numbers:
    """Return (1 + cos) over the square of the distance from a leg that runs aft."""
    return (1.0 + way.x / way.length) / np.maximum(way.y * way.y + way.z * way.z, core_m * core_m)


def _bound(left: Way, right: Way, panels: Panels) -> tuple[Numbers, Numbers]:
    """Return v and w of the bound segments times 4π; within the core the denominator is that at its surface."""
    x, y, z, a = left
    across = panels.right_m - panels.left_m
    b, core_area = right.length, BOUND_CORE * panels.row_chord_m * np.hypot(across[:, 1], across[:, 2])
    product = a * b
    scalar = x * right.x + y * right.y + z * right.z
    strength = (a + b) / np.maximum(product * (product + scalar), 0.5 * core_area * core_area)
    lx, ly, lz = across.T
    return strength * (x * lz - z * lx), strength * (y * lx - x * ly)


def turned_wake(points_m: Numbers, panels: Panels, own: NDArray[np.bool_]) -> tuple[Numbers, Numbers]:
    """Return how the velocity to the right and up changes as the wake behind the trailing edge turns to the left.

    Parameters
    ----------
    points_m : array, shape (points, 3)
        Where, in lattice axes. [m]
    panels : Panels
        With the vortices.
    own : array of bool, shape (panels,)
        Which of them leave the wake.

    Returns
    -------
    tuple of array, shape (points, panels of own) each
        v and w for a unit of circulation and a radian of turn. [1/m]

    Notes
    -----
    The derivative of the half-infinite legs of `induced_velocity` that begin at the trailing edge. Within the core of a
    leg it is that at its surface.
    """
    parts = []
    for end, leg, core in (
        (panels.left_m, panels.left_leg_m, panels.left_core_m),
        (panels.right_m, panels.right_leg_m, panels.right_core_m),
    ):
        way = _from(points_m, end[own] + np.outer(leg[own], (1.0, 0.0, 0.0)))
        near = 1.0 / np.maximum(way.y * way.y + way.z * way.z, core[own] * core[own])
        reach = 1.0 + way.x / way.length
        both = way.y * near * (1.0 / way.length + 2.0 * way.x * reach * near)
        parts.append((way.z * both, way.x * reach * near - way.y * both))
    (left_v, left_w), (right_v, right_w) = parts
    return (right_v - left_v) / (4.0 * math.pi), (right_w - left_w) / (4.0 * math.pi)
