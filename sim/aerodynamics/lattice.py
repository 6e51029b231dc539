"""Vortex lattice: the circulation of every panel for incidence, angle of attack, roll and sideslip at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_kernel import induced_velocity
from sim.aerodynamics.lattice_panels import panels, strips

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_panels import LiftingPlane, Panels, Spacing

    Numbers = NDArray[np.float64]

PANELS = 336
"""About as many as a lattice has: the lift slope of rectangular wings is within .3 % of many more."""
ROWS = 4
"""Along the chord of a plane."""
LEAST_HALF = 10
"""Strips on each half of a plane, however many planes there are."""


@dataclass(frozen=True, slots=True)
class Circulation:
    """Circulation over the speed of flight, of each panel, from left to right.

    Attributes
    ----------
    incidence_m : array, shape (panels,)
        Along the stream, by the incidence of the planes. [m]
    alpha_m_rad : array, shape (panels,)
        For a unit of angle of attack. [m/rad]
    roll_m2_rad : array, shape (panels,)
        For a unit of roll rate over speed, right wing down. [m²/rad]
    dihedral_m_rad2 : array, shape (panels,)
        For a unit of sideslip from the right times a unit of dihedral of every plane. [m/rad²]
    """

    incidence_m: Numbers
    alpha_m_rad: Numbers
    roll_m2_rad: Numbers
    dihedral_m_rad2: Numbers


def lattice(planes: Sequence[LiftingPlane], *, count: int = PANELS, spacing: Spacing = "cosine") -> Panels:
    """Return the panels of any number of planes, as many on each, `count` or a little less in all.

    Parameters
    ----------
    planes : sequence of LiftingPlane
        Not touching one another.
    count : int
        At most so many panels, but never less than twenty strips a plane.
    spacing : {"cosine", "uniform"}
        As in `sim.aerodynamics.lattice_panels.strips`.
    """
    half = max(LEAST_HALF, count // (2 * ROWS * len(planes)))
    return panels([strips(plane, 2 * half, spacing) for plane in planes], ROWS)


def roll_axis_m(grid: Panels) -> float:
    """Return the height of the axis that roll rates and rolling moments are about: the mean of the control points. [m].

    Weighted by area seen from above.
    """
    weights = grid.row_chord_m * (grid.right_m - grid.left_m)[:, 1]
    return float(weights @ grid.control_m[:, 2] / weights.sum())


def circulation(grid: Panels) -> Circulation:
    """Return the circulation that lets no air through the control points, all four at once.

    Parameters
    ----------
    grid : Panels
        Of `lattice`.

    Notes
    -----
    Linear: small angles, wakes straight along x, incidence and dihedral times sideslip put in as flow through panels
    that stay in place. No thickness, no body, no stall.
    Known error with the panels of `lattice`, against many more: lift slope .5 %, span factor .2 %, roll damping and
    dihedral effect 1 %, where the gap is .3 chord or more; lift slope 1.1 % and shares .01 at a gap of .2 chord. Planes
    that are nearer the panels mix up.

    References
    ----------
    Katz & Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, section 12.3 (from memory).
    """
    v, w = induced_velocity(grid.control_m, grid)
    flow = v * grid.normal[:, 1, None] + w * grid.normal[:, 2, None]
    flow -= section_loss(grid)
    return Circulation(*np.linalg.solve(flow, -_through(grid)).T)


def section_loss(grid: Panels) -> Numbers:
    """Return the flow that the section's loss of lift slope puts through the panels of a strip. [1/m]."""
    share = 2.0 * grid.strip_loss_rad / grid.strip_chord_m
    return np.where(grid.strip[:, None] == grid.strip, share[grid.strip][:, None], 0.0)


def _through(grid: Panels) -> Numbers:
    """Return the stream through each panel over the speed of flight, a column for each of `Circulation`."""
    right, up = grid.normal[:, 1], grid.normal[:, 2]
    y, z = grid.control_m[:, 1], grid.control_m[:, 2] - roll_axis_m(grid)
    return np.column_stack((grid.incidence_rad * up, up, up * y - right * z, np.sign(y) * up))
