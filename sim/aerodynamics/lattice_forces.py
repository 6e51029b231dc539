"""Lift, moments and induced drag of a vortex lattice from its circulation."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice import roll_axis_m
from sim.aerodynamics.lattice_kernel import induced_velocity
from sim.aerodynamics.lattice_lift import PlanesLift, planes_lift

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.lattice import Circulation
    from sim.aerodynamics.lattice_panels import Panels

    Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LatticeForces(PlanesLift):
    """Lift, and moments on the area of all planes and the largest span.

    Attributes
    ----------
    roll_damping_per_rad : float
        Rolling moment for a unit of p b/2V, right wing down positive. [1/rad]
    dihedral_effect_per_rad2 : float
        Rolling moment for a unit of sideslip from the right and a unit of dihedral of every plane. [1/rad²]
    """

    roll_damping_per_rad: float
    dihedral_effect_per_rad2: float


def forces(grid: Panels, flow: Circulation) -> LatticeForces:
    """Return lift and moments by Kutta and Joukowski, to first order in the angles.

    Parameters
    ----------
    grid : Panels
        Of `sim.aerodynamics.lattice.lattice`.
    flow : Circulation
        Of `sim.aerodynamics.lattice.circulation`.
    """
    across, area = grid.right_m - grid.left_m, float(grid.area_m2.sum())
    lever = grid.bound_m[:, 1] * across[:, 1] + (grid.bound_m[:, 2] - roll_axis_m(grid)) * across[:, 2]
    lift, at_zero = (2.0 * across[:, 1] * each for each in (flow.alpha_m_rad, flow.incidence_m))
    roll = -2.0 * lever / (area * grid.span_m)
    found = planes_lift(grid.plane, grid.bound_m[:, 0], lift, at_zero, sizes=grid.area_m2)
    return LatticeForces(
        lift_slope_per_rad=found.lift_slope_per_rad,
        lift_at_zero=found.lift_at_zero,
        aerodynamic_centre_m=found.aerodynamic_centre_m,
        planes=found.planes,
        roll_damping_per_rad=float(roll @ flow.roll_m2_rad * 2.0 / grid.span_m),
        dihedral_effect_per_rad2=float(roll @ flow.dihedral_m_rad2),
    )


def span_loading(grid: Panels, of_panels: Numbers) -> list[tuple[Numbers, Numbers]]:
    """Return for each plane the stations of its strips and the circulation there, over the largest span and speed.

    Parameters
    ----------
    grid : Panels
        With the vortices.
    of_panels : array, shape (panels,)
        A column of `Circulation`.
    """
    first = _first_panels(grid)
    load = np.bincount(grid.strip, weights=of_panels) / grid.span_m
    owner, y = grid.plane[first], grid.bound_m[first, 1]
    return [(y[owner == plane], load[owner == plane]) for plane in range(len(grid.area_m2))]


def _first_panels(grid: Panels) -> NDArray[np.intp]:
    """Return the number of the first panel of each strip."""
    return np.unique(grid.strip, return_index=True)[1]


def downwash(grid: Panels, of_panels: Numbers, point_m: tuple[float, float, float]) -> float:
    """Return the angle that the flow turns down at a point, for the circulation over speed of each panel.

    Parameters
    ----------
    grid, of_panels
        As in `span_loading`.
    point_m : tuple of float
        In lattice axes. [m]
    """
    return float(-induced_velocity(np.array([point_m]), grid)[1][0] @ of_panels)


def induced_drag(grid: Panels, of_panels: Numbers) -> float:
    """Return the induced drag over dynamic pressure from the wake far behind (Trefftz plane). [m²].

    Parameters
    ----------
    grid, of_panels
        As in `span_loading`.

    References
    ----------
    Katz & Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, section 8.2.3 (from memory).
    """
    strength = np.bincount(grid.strip, weights=of_panels)
    return float(-strength @ far_wake_through(grid, of_panels[:, None])[:, 0])


def far_wake_through(grid: Panels, of_panels: Numbers) -> Numbers:
    """Return the flow far behind up through each strip, times its width, that the wake of all of them induces.

    Parameters
    ----------
    grid : Panels
        With the vortices.
    of_panels : array, shape (panels, n)
        Circulation.

    Returns
    -------
    array, shape (strips, n)
        Normal velocity times width; half of it acts at the strip itself.
    """
    first = _first_panels(grid)
    left, right, middle = (points[first, 1:] for points in (grid.left_m, grid.right_m, grid.bound_m))
    across = right - left
    flow = _wake_flow(middle, right) - _wake_flow(middle, left)
    through: Numbers = np.einsum("ijk,ik->ij", flow, np.column_stack((-across[:, 1], across[:, 0])))
    strength = np.zeros((len(first), of_panels.shape[1]))
    np.add.at(strength, grid.strip, of_panels)
    return through @ strength


def _wake_flow(points_m: Numbers, vortices_m: Numbers) -> Numbers:
    """Return v and w at each point of a vortex along x through each place, shape (points, vortices, 2). [1/m]."""
    y, z = (points_m[:, axis, None] - vortices_m[:, axis] for axis in range(2))
    return np.stack((-z, y), axis=2) / (2.0 * math.pi * (y * y + z * z))[:, :, None]


def induced_factor(grid: Panels, of_panels: Numbers, drag_m2: float) -> float:
    """Return the induced drag over that of an elliptic load of the same lift on the largest span.

    Parameters
    ----------
    grid, of_panels
        As in `span_loading`.
    drag_m2 : float
        Over dynamic pressure. [m²]

    Notes
    -----
    Munk's span factor is the inverse of its root.
    """
    lift_m2 = 2.0 * float((grid.right_m - grid.left_m)[:, 1] @ of_panels)
    return drag_m2 * math.pi * grid.span_m**2 / lift_m2**2
