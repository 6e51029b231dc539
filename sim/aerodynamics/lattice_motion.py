"""Air loads of a lattice as quadratic forms of the airplane's motion: velocities, rates and controls at once.

With the wake straight along the body, what lets no air through the panels is linear in velocity, angular velocity and
control angle times speed; loads are its products with the same velocities. So a whole airplane's forces and moments
are six quadratic forms, and every derivative at any lift is a row of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics.lattice import section_loss
from sim.aerodynamics.lattice_airplane import FIN, TAIL, WING
from sim.aerodynamics.lattice_forces import far_wake_through
from sim.aerodynamics.lattice_kernel import induced_velocity, turned_wake

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_airplane import AirplaneLattice
    from sim.aerodynamics.lattice_panels import Panels

    Numbers = NDArray[np.float64]
    Rows = tuple[Numbers, Numbers, Numbers]

MOTION: Final = ("u", "v", "w", "p", "q", "r", "elevator", "aileron", "rudder")
"""Velocity [m/s] and angular velocity [rad/s] in body axes; the rest are angles times u."""
U, V, W, P, Q, R, ELEVATOR, AILERON, RUDDER = range(len(MOTION))
X, Y, Z, ROLL, PITCH, YAW = range(6)
BODY_SENSE: Final = np.array([-1.0, 1.0, -1.0, -1.0, 1.0, -1.0])
"""Of lattice axes, x aft and z up, to body axes."""


@dataclass(frozen=True, slots=True, eq=False)
class LatticeFlow:
    """Circulation of every panel of an airplane.

    Attributes
    ----------
    airplane : AirplaneLattice
        With its panels.
    strength : array, shape (panels, 9)
        For a unit of each of `MOTION`. [m² to m³ by the unit]
    turned : array, shape (panels, 9)
        What sideslip adds to it by turning the wake of the wing, for a unit of v times one of each of `MOTION` over u.
    """

    airplane: AirplaneLattice
    strength: Numbers
    turned: Numbers


class LatticeSystem(NamedTuple):
    """An airplane's lattice and what turns flow through its panels into their circulation.

    Attributes
    ----------
    airplane : AirplaneLattice
        With its panels.
    inverse : array, shape (panels, panels)
        Circulation of each panel for a unit of flow through each. [m]
    """

    airplane: AirplaneLattice
    inverse: Numbers


def lattice_system(airplane: AirplaneLattice) -> LatticeSystem:
    """Return the solved lattice of `sim.aerodynamics.lattice_airplane.airplane_lattice`."""
    grid = airplane.grid
    v, w = induced_velocity(grid.control_m, grid)
    flow = _normal(grid, v, w) - section_loss(grid)
    return LatticeSystem(airplane, np.asarray(np.linalg.inv(flow), dtype=np.float64))


def lift_without_alpha(system: LatticeSystem) -> tuple[float, float]:
    """Return the lift coefficient without angle of attack as the planes stand, and its change as the wing turns.

    On the area of the wing; the change is for a radian, all planes alike, and both have the tailplane's lift in them.
    """
    airplane, grid = system.airplane, system.airplane.grid
    wing, above = airplane.surface == WING, grid.normal[:, 2]
    strength = system.inverse @ -np.column_stack((grid.incidence_rad * above, np.where(wing, above, 0.0)))
    area_m2 = grid.area_m2[np.unique(grid.plane[wing])].sum()
    present, each = 2.0 * (airplane.pressure * (grid.right_m - grid.left_m)[:, 1]) @ strength / area_m2
    return float(present), float(each)


def lattice_flow(system: LatticeSystem, turn_rad: float = 0.0) -> LatticeFlow:
    """Return the circulation that lets no air through the panels.

    Parameters
    ----------
    system : LatticeSystem
        Of `lattice_system`.
    turn_rad : float
        By which the wing is turned as a whole. [rad]

    Notes
    -----
    Wakes straight along the body, but in sideslip that of the wing, which leaves along the stream; rotation does not
    bend them. Without it dihedral by lift is half as much again, for a rectangular wing of aspect ratio 6.

    References
    ----------
    Katz & Plotkin, Low-Speed Aerodynamics, 2nd ed. 2001, sections 12.1 to 12.3 (from memory).
    """
    airplane, grid = system.airplane, system.airplane.grid
    wing = airplane.surface == WING
    strength: Numbers = system.inverse @ -_stream_through(airplane, grid.incidence_rad + turn_rad * wing)
    through = np.zeros_like(strength)
    through[wing] = _normal(grid, *turned_wake(grid.control_m[wing], grid, wing), wing) @ strength[wing]
    return LatticeFlow(airplane, strength, system.inverse @ -through)


def wing_downwash(flow: LatticeFlow, points_m: Numbers) -> Numbers:
    """Return the velocity down that the wing induces at points, for a unit of each of `MOTION`, shape (points, 9).

    Parameters
    ----------
    flow : LatticeFlow
        Of `lattice_flow`.
    points_m : array, shape (points, 3)
        In lattice axes. [m]
    """
    wing = np.where(flow.airplane.surface[:, None] == WING, flow.strength, 0.0)
    down: Numbers = -induced_velocity(points_m, flow.airplane.grid)[1] @ wing
    return down


def surface_loads(flow: LatticeFlow) -> Numbers:
    """Return forces and moments of wing, tailplane and fin as quadratic forms of the motion.

    Parameters
    ----------
    flow : LatticeFlow
        Of `lattice_flow`.

    Returns
    -------
    array, shape (3, 6, 10, 9)
        Symmetric: the load over density is ξᵀ loads ξ, with ξ of `MOTION`; x, y, z, roll, pitch, yaw in body axes.

    Notes
    -----
    Kutta and Joukowski on bound vortices, and on trailing vortices as far as they lie on a surface: their force along z
    alone, for the side force on the tips, CL/A in a roll, is not there in measured derivatives. Along x a strip of
    the wing has the suction of its circulation in the upwash there, less half the downwash of its wake far behind
    (Munk), which needs no fine lattice; tail and fin have none. Pitch is that of forces along z alone: forces along x
    at their height change Cmα by −2 CL z/c, which is left out here as in the equations of motion.

    References
    ----------
    Munk, NACA TR 121, 1921 (from memory).
    """
    airplane, grid = flow.airplane, flow.airplane.grid
    loads = _gathered(airplane, flow.turned, _moments(_middle(grid), _in_sideslip(airplane)))
    for rows in (*_on_vortices(grid), _suction(airplane, flow.strength)):
        loads += _gathered(airplane, flow.strength, rows)
    symmetric: Numbers = 0.5 * (loads + loads.swapaxes(2, 3)) * BODY_SENSE[:, None, None]
    return symmetric


def about_cg_aft(loads: Numbers, aft_m: float) -> Numbers:
    """Return the forms of `surface_loads` about a centre of gravity that lies farther aft, exactly.

    Parameters
    ----------
    loads : array, shape (..., 6, 10, 9)
        About the present centre of gravity.
    aft_m : float
        Displacement, aft positive. [m]
    """
    turn = np.eye(len(MOTION))
    turn[V, R], turn[W, Q] = aft_m, -aft_m
    moved = loads.copy()
    moved[..., PITCH, :, :] -= aft_m * loads[..., Z, :, :]
    moved[..., YAW, :, :] += aft_m * loads[..., Y, :, :]
    return np.asarray(turn.T @ moved @ turn)


def _middle(grid: Panels) -> Numbers:
    return 0.5 * (grid.left_m + grid.right_m)


def _normal(grid: Panels, v: Numbers, w: Numbers, own: NDArray[np.bool_] | slice = slice(None)) -> Numbers:
    """Return the flow through panels, from its components to the right and up at their control points."""
    return v * grid.normal[own, 1, None] + w * grid.normal[own, 2, None]


def _air_velocity(points_m: Numbers) -> Rows:
    """Return the velocity of the air past points, aft, right and up, per unit of each motion; shape (points, 9)."""
    x, y, z = points_m.T
    aft, right, up = np.zeros((3, len(x), len(MOTION)))
    aft[:, U], aft[:, Q], aft[:, R] = 1.0, -z, -y
    right[:, V], right[:, P], right[:, R] = -1.0, -z, x
    up[:, W], up[:, P], up[:, Q] = 1.0, y, x
    return aft, right, up


def _stream_through(airplane: AirplaneLattice, incidence_rad: Numbers) -> Numbers:
    """Return the stream through each panel per unit of each motion, shape (panels, 9)."""
    grid = airplane.grid
    aft, right, up = _air_velocity(grid.control_m)
    above = grid.normal[:, 2, None]
    through = aft * incidence_rad[:, None] * above + right * grid.normal[:, 1, None] + up * above
    through[:, ELEVATOR:] += airplane.turn
    return through


def _on_vortices(grid: Panels) -> Iterator[Numbers]:
    """Yield the loads on bound vortices, and on trailing vortices along the surface, of a unit of circulation."""
    middle = _middle(grid)
    aft, right, up = _air_velocity(middle)
    along, across, high = (grid.right_m - grid.left_m).T[:, :, None]
    yield _moments(middle, (np.zeros_like(aft), up * along - aft * high, aft * across - right * along))
    for end, leg, sense in ((grid.left_m, grid.left_leg_m, -1.0), (grid.right_m, grid.right_leg_m, 1.0)):
        point = end + np.outer(0.5 * leg, (1.0, 0.0, 0.0))
        _, right, up = _air_velocity(point)
        length = sense * leg[:, None]
        yield _moments(point, (np.zeros_like(up), 0 * up * length, -right * length))


def _suction(airplane: AirplaneLattice, strength: Numbers) -> Numbers:
    """Return the loads of the force along x on the wing, of a unit of circulation."""
    grid, wing = airplane.grid, airplane.surface == WING
    middle = _middle(grid)
    _, right, up = _air_velocity(middle)
    _, across, high = (grid.right_m - grid.left_m).T[:, :, None]
    wake = far_wake_through(grid, np.where(wing[:, None], strength, 0.0))[grid.strip]
    forward = np.where(wing[:, None], up * across - right * high + 0.5 * wake, 0.0)
    return _moments(middle, (-forward, np.zeros_like(forward), np.zeros_like(forward)))


def _in_sideslip(airplane: AirplaneLattice) -> Rows:
    """Return the force on a unit of circulation that is itself for a unit of sideslip, there where the wing is."""
    grid, wing = airplane.grid, airplane.surface == WING
    centre = np.average(
        _middle(grid)[wing], axis=0, weights=(grid.right_m - grid.left_m)[wing, 1] * grid.row_chord_m[wing]
    )
    sideslip = -_air_velocity(centre[None])[1]
    _, across, high = (grid.right_m - grid.left_m).T[:, :, None]
    return np.zeros_like(across * sideslip), -high * sideslip, across * sideslip


def _moments(point_m: Numbers, force: Rows) -> Numbers:
    """Return forces and moments about the origin, shape (6, panels, 9); pitch by the force along z alone."""
    x, y, z = point_m.T[:, :, None]
    aft, right, up = force
    return np.stack((aft, right, up, y * up - z * right, -x * up, x * right - y * aft))


def _gathered(airplane: AirplaneLattice, strength: Numbers, rows: Numbers) -> Numbers:
    """Return the forms of each surface, circulation times the force on a unit of it, shape (3, 6, 9, 9)."""
    pressed = strength * airplane.pressure[:, None]
    masks = (airplane.surface == each for each in (WING, TAIL, FIN))
    return np.stack([np.einsum("pm,kpn->kmn", pressed[own], rows[:, own], optimize=True) for own in masks])
