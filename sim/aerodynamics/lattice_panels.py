"""Planes of a wing cut into panels, each with a horseshoe vortex and a control point.

Lattice axes: x aft along the stream, y right, z up, from the datum that `stagger_m` and `height_m` count from; body
axes turned half round about y.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Order = NDArray[np.intp]

Spacing = Literal["cosine", "uniform"]
VORTEX, CONTROL = 0.25, 0.75
"""Place of the bound vortex and of the control point along the chord of a panel (Pistolesi's theorem)."""
TIP_INSET = 0.25
"""Distance of the outermost trailing vortex from the tip in widths of a uniform strip."""
THIN_AEROFOIL = 2.0 * math.pi
"""Lift slope of a thin section in plane flow. [1/rad]"""


@dataclass(frozen=True, slots=True)
class LiftingPlane:
    """One plane: straight edges, mirrored in the plane of symmetry.

    Attributes
    ----------
    span_m : float
        From tip to tip, seen from above. [m]
    chord_m : float
        Mean chord, area over span. [m]
    taper : float
        Tip chord over root chord.
    sweep_rad : float
        Of the quarter-chord line, tips aft positive. [rad]
    dihedral_rad : float
        Tips up positive. [rad]
    incidence_rad : float
        In planes parallel to that of symmetry, leading edge up positive. [rad]
    height_m, stagger_m : float
        Root leading edge above and ahead of the datum. [m]
    section_slope : float
        Lift slope of the section in plane flow. [1/rad]
    """

    span_m: float
    chord_m: float
    taper: float = 1.0
    sweep_rad: float = 0.0
    dihedral_rad: float = 0.0
    incidence_rad: float = 0.0
    height_m: float = 0.0
    stagger_m: float = 0.0
    section_slope: float = THIN_AEROFOIL

    @property
    def area_m2(self) -> float:
        """Area seen from above. [m²]."""
        return self.span_m * self.chord_m

    def chord_at_m(self, share: float) -> float:
        """Return the chord at a share of the semi-span, 0 at the root. [m]."""
        return 2.0 * self.chord_m * (1.0 - share * (1.0 - self.taper)) / (1.0 + self.taper)

    def leading_edge_at_m(self, share: float) -> float:
        """Return the leading edge at a share of the semi-span, aft of the datum. [m]."""
        quarter = 0.5 * self.span_m * share * math.tan(self.sweep_rad)
        return -self.stagger_m + quarter + VORTEX * (self.chord_at_m(0.0) - self.chord_at_m(share))

    def height_at_m(self, share: float) -> float:
        """Return the height at a share of the semi-span. [m]."""
        return self.height_m + 0.5 * self.span_m * share * math.tan(self.dihedral_rad)


@dataclass(frozen=True, slots=True)
class Strips:
    """Strips of one plane along the stream, from the left tip to the right.

    Attributes
    ----------
    edge_m : array, shape (strips + 1, 3)
        Leading edge at the edges of the strips. [m]
    edge_chord_m : array, shape (strips + 1,)
        Chord there. [m]
    middle_m : array, shape (strips, 3)
        Leading edge at the place of the control points. [m]
    middle_chord_m : array, shape (strips,)
        Chord there. [m]
    loss_rad : array, shape (strips,)
        Loss of incidence for a unit of the strip's lift coefficient. [rad]
    span_m, area_m2 : float
        Of the plane, tips included. [m, m²]
    incidence_rad : float
        As in `LiftingPlane`. [rad]
    """

    edge_m: Numbers
    edge_chord_m: Numbers
    middle_m: Numbers
    middle_chord_m: Numbers
    loss_rad: Numbers
    span_m: float
    area_m2: float
    incidence_rad: float = 0.0


@dataclass(frozen=True, slots=True)
class Panels:
    """Every panel of every plane: plane by plane, strip by strip from the left, row by row from the leading edge.

    Attributes
    ----------
    left_m, right_m : array, shape (panels, 3)
        Ends of the bound vortex, from which the trailing vortices run aft. [m]
    left_leg_m, right_leg_m : array, shape (panels,)
        Length of the trailing vortices on the surface, up to its trailing edge. [m]
    left_core_m, right_core_m : array, shape (panels,)
        Radius of the core of the trailing vortices: as far as the nearest control point of its own plane. [m]
    bound_m, control_m : array, shape (panels, 3)
        Bound vortex at the place of the control point, and the control point. [m]
    normal : array, shape (panels, 3)
        Unit normal, up, across the stream.
    row_chord_m : array, shape (panels,)
        Chord of the panel. [m]
    incidence_rad : array, shape (panels,)
        Of its plane. [rad]
    plane : array of int, shape (panels,)
        Number of its plane, from 0.
    strip : array of int, shape (panels,)
        Number of its strip, from 0, through all planes.
    strip_chord_m, strip_loss_rad : array, shape (strips,)
        Chord, and loss of incidence for a unit of the lift coefficient. [m, rad]
    area_m2 : array, shape (planes,)
        Of each plane. [m²]
    span_m : float
        The largest. [m]
    """

    left_m: Numbers
    right_m: Numbers
    left_leg_m: Numbers
    right_leg_m: Numbers
    left_core_m: Numbers
    right_core_m: Numbers
    bound_m: Numbers
    control_m: Numbers
    normal: Numbers
    row_chord_m: Numbers
    incidence_rad: Numbers
    plane: Order
    strip: Order
    strip_chord_m: Numbers
    strip_loss_rad: Numbers
    area_m2: Numbers
    span_m: float


def strips(plane: LiftingPlane, count: int, spacing: Spacing = "cosine") -> Strips:
    """Return the strips of a plane.

    Parameters
    ----------
    plane : LiftingPlane
        Span and chord above 0, taper 0 to 1, sweep and dihedral below 60°.
    count : int
        Number of strips over the whole span, even.
    spacing : {"cosine", "uniform"}
        Narrow towards the tips, or of equal width with the outermost trailing vortex a quarter of it inside the tip.

    Notes
    -----
    A section slope a0 below 2π is a loss of incidence (1/a0 − 1/2π) cl, over the cosine of the sweep, since a section
    works in the stream across the quarter-chord line. In a single row this is the control point at
    c/4 + a0 c/4π; in several rows it keeps the aerodynamic centre of the section at the quarter chord, where control
    points moved in every row would put it (1 − a0/2π)/4 chords aft.
    """
    edges, middles = stations(count, spacing)
    loss = (1.0 / plane.section_slope - 1.0 / THIN_AEROFOIL) / math.cos(plane.sweep_rad)
    return Strips(
        edge_m=_leading_edge(plane, edges),
        edge_chord_m=np.array([plane.chord_at_m(abs(share)) for share in edges]),
        middle_m=_leading_edge(plane, middles),
        middle_chord_m=np.array([plane.chord_at_m(abs(share)) for share in middles]),
        loss_rad=np.full(count, loss),
        span_m=plane.span_m,
        area_m2=plane.area_m2,
        incidence_rad=plane.incidence_rad,
    )


def stations(count: int, spacing: Spacing) -> tuple[Numbers, Numbers]:
    """Return edges and middles of the strips in semi-spans, left tip −1; antisymmetric to the last bit."""
    if spacing == "uniform":
        edges = np.linspace(-1.0, 1.0, count + 1) * count / (count + 2.0 * TIP_INSET)
        middles = 0.5 * (edges[1:] + edges[:-1])
    else:
        edges = -np.cos(np.pi * np.arange(count + 1) / count)
        middles = -np.cos(np.pi * (np.arange(count) + 0.5) / count)
    return 0.5 * (edges - edges[::-1]), 0.5 * (middles - middles[::-1])


def _leading_edge(plane: LiftingPlane, shares: Numbers) -> Numbers:
    points = [
        (plane.leading_edge_at_m(abs(share)), 0.5 * plane.span_m * share, plane.height_at_m(abs(share)))
        for share in shares.tolist()
    ]
    return np.array(points)


def panels(planes: Sequence[Strips], rows: int) -> Panels:
    """Return the panels of several planes with `rows` along the chord of each."""
    counts = [len(one.middle_chord_m) for one in planes]
    row_chord = np.concatenate([one.middle_chord_m for one in planes]) / rows
    incidence = [one.incidence_rad for one in planes]
    ends = [_points(one.edge_m, one.edge_chord_m, rows, VORTEX) for one in planes]
    legs = [one.edge_chord_m[:, None] * (1.0 - (np.arange(rows) + VORTEX) / rows) for one in planes]
    cores = [_cores(one) for one in planes]
    return Panels(
        left_m=_flat([points[:-1] for points in ends]),
        right_m=_flat([points[1:] for points in ends]),
        left_leg_m=np.concatenate([leg[:-1].ravel() for leg in legs]),
        right_leg_m=np.concatenate([leg[1:].ravel() for leg in legs]),
        left_core_m=np.repeat(np.concatenate([core[:-1] for core in cores]), rows),
        right_core_m=np.repeat(np.concatenate([core[1:] for core in cores]), rows),
        bound_m=_flat([_points(one.middle_m, one.middle_chord_m, rows, VORTEX) for one in planes]),
        control_m=_flat([_points(one.middle_m, one.middle_chord_m, rows, CONTROL) for one in planes]),
        normal=np.repeat(np.concatenate([_normals(one) for one in planes]), rows, axis=0),
        row_chord_m=np.repeat(row_chord, rows),
        incidence_rad=np.repeat(incidence, np.multiply(counts, rows)),
        plane=np.repeat(np.arange(len(planes)), np.multiply(counts, rows)),
        strip=np.repeat(np.arange(sum(counts)), rows),
        strip_chord_m=np.concatenate([one.middle_chord_m for one in planes]),
        strip_loss_rad=np.concatenate([one.loss_rad for one in planes]),
        area_m2=np.array([one.area_m2 for one in planes]),
        span_m=max(one.span_m for one in planes),
    )


def _cores(one: Strips) -> Numbers:
    """Return how far the nearer control point is from each edge of the strips, across the stream."""
    edge, middle = one.edge_m[:, 1:], one.middle_m[:, 1:]
    before, behind = (np.hypot(*(ends - middle).T) for ends in (edge[1:], edge[:-1]))
    cores: Numbers = np.minimum(np.append(np.inf, before), np.append(behind, np.inf))
    return cores


def _normals(one: Strips) -> Numbers:
    """Return the unit normal of each strip across the stream, up."""
    across = np.diff(one.edge_m, axis=0)[:, 1:]
    across /= np.linalg.norm(across, axis=1, keepdims=True)
    return np.column_stack((np.zeros(len(across)), -across[:, 1], across[:, 0]))


def _points(leading_m: Numbers, chord_m: Numbers, rows: int, share: float) -> Numbers:
    """Return the points at a share of the chord of each row, shape (stations, rows, 3)."""
    points = np.repeat(leading_m[:, None, :], rows, axis=1)
    points[:, :, 0] += chord_m[:, None] * (np.arange(rows) + share) / rows
    return points


def _flat(parts: list[Numbers]) -> Numbers:
    return np.concatenate([points.reshape(-1, 3) for points in parts])
