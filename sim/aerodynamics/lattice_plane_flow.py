"""Planes of infinite span: their sections in plane flow, by vortices along each chord."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_forces import PlaneLift
from sim.aerodynamics.lattice_panels import CONTROL, THIN_AEROFOIL, VORTEX

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.aerodynamics.lattice_panels import LiftingPlane

    Numbers = NDArray[np.float64]

ROWS = 100
"""Along each chord: the slopes of a biplane are within .0002 of many more."""


@dataclass(frozen=True, slots=True)
class PlaneFlow:
    """Sections of several planes in one plane flow, coefficients on the sum of their chords.

    Attributes
    ----------
    lift_slope_per_rad : float
        [1/rad]
    lift_at_zero : float
        Lift coefficient with the datum along the stream.
    aerodynamic_centre_m : float
        Aft of the datum. [m]
    planes : tuple of PlaneLift
        In the order given, on their own chords.
    """

    lift_slope_per_rad: float
    lift_at_zero: float
    aerodynamic_centre_m: float
    planes: tuple[PlaneLift, ...]


def plane_flow(planes: Sequence[LiftingPlane], rows: int = ROWS) -> PlaneFlow:
    """Return the lift of planes of infinite span.

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
    lift, at_zero, moment = (
        np.bincount(own, weights=2.0 * each) for each in (*circulation.T, circulation[:, 0] * vortex[:, 0])
    )
    chords = chord[::rows]
    columns = (lift / chords, lift / lift.sum(), at_zero / chords, moment / lift)
    return PlaneFlow(
        lift_slope_per_rad=float(lift.sum() / chords.sum()),
        lift_at_zero=float(at_zero.sum() / chords.sum()),
        aerodynamic_centre_m=float(moment.sum() / lift.sum()),
        planes=tuple(PlaneLift(*row) for row in np.column_stack(columns).tolist()),
    )


def _points(planes: Sequence[LiftingPlane], rows: int, share: float) -> Numbers:
    """Return x and z of the points at a share of every panel, plane by plane."""
    along = (np.arange(rows) + share) / rows
    return np.vstack(
        [np.column_stack((plane.chord_m * along - plane.stagger_m, np.full(rows, plane.height_m))) for plane in planes]
    )
