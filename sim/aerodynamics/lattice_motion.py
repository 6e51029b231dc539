"""Air loads of a lattice as quadratic forms of the airplane's motion: velocities, rates and controls at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from sim.aerodynamics.lattice import section_loss
from sim.aerodynamics.lattice_kernel import induced_velocity

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_airplane import AirplaneLattice

    Numbers = NDArray[np.float64]

MOTION: Final = ("u", "v", "w", "p", "q", "r", "elevator", "aileron", "rudder")


def motion_circulation(airplane: AirplaneLattice) -> tuple[Numbers, Numbers, Numbers]:
    """Return circulation of each panel per unit of each motion, shape (panels, 9), and v, w induced at bound vortices."""
    grid = airplane.grid
    v, w = induced_velocity(grid.control_m, grid)
    flow = v * grid.normal[:, 1, None] + w * grid.normal[:, 2, None] - section_loss(grid)
    ax, ay, az = air_velocity(grid.control_m)
    up = grid.normal[:, 2]
    through = ax * (grid.incidence_rad * up)[:, None] + ay * grid.normal[:, 1, None] + az * up[:, None]
    through[:, 6:] += airplane.turn
    strength = np.linalg.solve(flow, -through)
    v, w = induced_velocity(grid.bound_m, grid)
    return strength, v @ strength, w @ strength


def air_velocity(points_m: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """Return the velocity of the air past points, aft, right and up, per unit of each motion; shape (points, 9) each."""
    x, y, z = points_m.T
    o, one = np.zeros_like(x), np.ones_like(x)
    aft = (one, o, o, o, -z, -y)
    right = (o, -one, o, -z, o, x)
    up = (o, o, one, y, x, o)
    return tuple(np.column_stack((*rows, o, o, o)) for rows in (aft, right, up))


def quadratic_loads(airplane: AirplaneLattice, *, surfaces=None) -> Numbers:
    """Return the forces and moments over density as quadratic forms, shape (6, 9, 9), body axes about the CG.

    Load k is ρ ξᵀ Q[k] ξ with ξ = (u, v, w, p, q, r, u δe, u δa, u δr).
    """
    grid = airplane.grid
    strength, iv, iw = motion_circulation(airplane)
    if surfaces is not None:
        strength = strength * np.isin(grid.plane, surfaces)[:, None]
    weighted = strength * airplane.pressure[:, None]
    across = grid.right_m - grid.left_m
    mid = 0.5 * (grid.right_m + grid.left_m)
    total = np.zeros((6, 9, 9))
    ax, ay, az = air_velocity(mid)
    total += _form(mid, across, (ax, ay + iv, az + iw), weighted)
    for ends, legs, sense in ((grid.left_m, grid.left_leg_m, -1.0), (grid.right_m, grid.right_leg_m, 1.0)):
        point = ends.copy()
        point[:, 0] += 0.5 * legs
        vector = np.zeros_like(ends)
        vector[:, 0] = sense * legs
        total += _form(point, vector, air_velocity(point), weighted)
    body = np.array([-1.0, 1.0, -1.0, -1.0, 1.0, -1.0])
    total = 0.5 * (total + total.transpose(0, 2, 1))
    return total * body[:, None, None]


def _form(point, vector, velocity, strength):
    lx, ly, lz = vector.T[:, :, None]
    ax, ay, az = velocity
    fx, fy, fz = ay * lz - az * ly, az * lx - ax * lz, ax * ly - ay * lx
    x, y, z = point.T[:, :, None]
    rows = (fx, fy, fz, y * fz - z * fy, z * fx - x * fz, x * fy - y * fx)
    return np.array([strength.T @ row for row in rows])
