"""Lift along the span of every plane and of the tailplane, and the downwash there, from a solved lattice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_airplane import TAIL
from sim.aerodynamics.lattice_motion import ELEVATOR, MOTION, U, W, wing_downwash

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_motion import LatticeFlow

    Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class SurfaceSpan:
    """One plane or the tailplane, strip by strip from the left tip, per unit of each motion of `MOTION` over speed.

    Attributes
    ----------
    spanwise_m : array, shape (strips,)
        Distance from the plane of symmetry, right positive. [m]
    width_m : array, shape (strips,)
        [m]
    lift_m : array, shape (strips, 9)
        Lift over width and dynamic pressure of flight: lift coefficient of the strip times its chord. [m]
    downwash : array, shape (strips, 9)
        Angle by which the planes of the wing turn the stream down there; that of the tailplane alone means anything.
    """

    spanwise_m: Numbers
    width_m: Numbers
    lift_m: Numbers
    downwash: Numbers

    def lift_m2(self, motion: Numbers) -> float:
        """Return the lift over dynamic pressure [m²], with the motion over speed, shape (9,)."""
        return float(self.width_m @ self.lift_m @ motion)

    def mean_downwash(self, motion: Numbers) -> float:
        """Return the mean downwash over the width, with the motion over speed, shape (9,)."""
        return float(self.width_m @ self.downwash @ motion / self.width_m.sum())


def surface_spans(flow: LatticeFlow) -> tuple[SurfaceSpan, ...]:
    """Return the planes of the wing in their order, then the tailplane.

    Parameters
    ----------
    flow : LatticeFlow
        Of `sim.aerodynamics.lattice_motion.lattice_flow`.

    Notes
    -----
    To first order in the angles. The fin bears nothing in straight flight.
    """
    grid, airplane = flow.airplane.grid, flow.airplane
    tail = int(grid.plane[airplane.surface == TAIL][0])
    return tuple(_span(flow, grid.plane == number, downwash=number == tail) for number in range(tail + 1))


def _span(flow: LatticeFlow, own: NDArray[np.bool_], *, downwash: bool) -> SurfaceSpan:
    grid = flow.airplane.grid
    _, first, of_strip = np.unique(grid.strip[own], return_index=True, return_inverse=True)
    lift = np.zeros((len(first), len(MOTION)))
    np.add.at(lift, of_strip, 2.0 * flow.airplane.pressure[own, None] * flow.strength[own])
    down = np.zeros_like(lift)
    if downwash:
        share = grid.row_chord_m[own] / np.bincount(of_strip, weights=grid.row_chord_m[own])[of_strip]
        np.add.at(down, of_strip, share[:, None] * wing_downwash(flow, grid.control_m[own]))
    return SurfaceSpan(
        spanwise_m=grid.bound_m[own, 1][first],
        width_m=(grid.right_m - grid.left_m)[own, 1][first],
        lift_m=lift,
        downwash=down,
    )


def balanced(
    spans: tuple[SurfaceSpan, ...], *, lift_m2: float, pitch_0: float, pitch_alpha: float, pitch_elevator: float
) -> Numbers:
    """Return the motion over speed in straight flight with a given lift and no pitching moment, shape (9,).

    Parameters
    ----------
    spans : tuple of SurfaceSpan
        Of `surface_spans`, which bear all lift.
    lift_m2 : float
        Lift over dynamic pressure. [m²]
    pitch_0, pitch_alpha, pitch_elevator : float
        Coefficients of the pitching moment about the centre of gravity; where the elevator has none it stays neutral.
    """
    start, alpha, elevator = np.sum([span.width_m @ span.lift_m[:, (U, W, ELEVATOR)] for span in spans], axis=0)
    motion = np.zeros(len(MOTION))
    motion[U] = 1.0
    if not pitch_elevator:
        motion[W] = (lift_m2 - start) / alpha
        return motion
    motion[[W, ELEVATOR]] = np.linalg.solve(
        [[alpha, elevator], [pitch_alpha, pitch_elevator]], [lift_m2 - start, -pitch_0]
    )
    return motion
