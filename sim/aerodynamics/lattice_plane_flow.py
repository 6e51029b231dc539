"""Planes of infinite span: their sections in plane flow, by vortices along each chord."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_lift import planes_lift
from sim.aerodynamics.lattice_panels import CONTROL, THIN_AEROFOIL, VORTEX

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_lift import PlanesLift
    from sim.aerodynamics.lattice_panels import LiftingPlane

    Numbers = NDArray[np.float64]

ROWS = 100
"""Along each chord: the slopes of a biplane are within .0002 of many more."""


def plane_flow(planes: Sequence[LiftingPlane], rows: int = ROWS) -> PlanesLift:
    """Return the lift of planes of infinite span, on their chords.

    Parameters
    ----------
    planes : sequence of LiftingPlane
        Of which mean chord, incidence, height, distance ahead and section slope count.
    rows : int
        Vortices along each chord.

    Notes
    -----
    Flat plates, small angles. A single plate is exact with any number of rows. Section slopes as in
    `sim.aerodynamics.lattice_panels.strips`.

    References
    ----------
    Munk, NACA TR 151, 1922, for the case of two plates.
    """
    chord = np.repeat([plane.chord_m for plane in planes], rows)
    own = np.repeat(np.arange(len(planes)), rows)
    vortex, control = _points(planes, rows, VORTEX), _points(planes, rows, CONTROL)
    x, z = (control[:, axis, None] - vortex[:, axis] for axis in range(2))
    loss = np.repeat([1.0 / plane.section_slope - 1.0 / THIN_AEROFOIL for plane in planes], rows)
    flow = x / (2.0 * math.pi * (x * x + z * z)) + np.where(own[:, None] == own, (2.0 * loss / chord)[:, None], 0.0)
    incidence = np.repeat([plane.incidence_rad for plane in planes], rows)
    circulation = np.linalg.solve(flow, np.column_stack((np.ones_like(chord), incidence)))
    alpha, at_zero = 2.0 * circulation.T
    return planes_lift(own, vortex[:, 0], alpha, at_zero, sizes=chord[::rows])


def _points(planes: Sequence[LiftingPlane], rows: int, share: float) -> Numbers:
    """Return x and z of the points at a share of every panel, plane by plane."""
    along = (np.arange(rows) + share) / rows
    return np.vstack(
        [np.column_stack((plane.chord_m * along - plane.stagger_m, np.full(rows, plane.height_m))) for plane in planes]
    )
