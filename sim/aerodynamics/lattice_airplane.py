"""The lattice of a whole airplane: planes of the wing, tailplane and fin at their places, with their controls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.aerodynamics.lattice_panels import THIN_AEROFOIL, VORTEX, LiftingPlane, Strips, panels, stations, strips
from sim.aerodynamics.lifting_surface import flap_effectiveness

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.lattice_panels import Panels
    from sim.airframe.wing import Plane

    Numbers = NDArray[np.float64]

WING, TAIL, FIN = range(3)
"""Numbers of the surfaces; all planes of the wing are one."""
TAIL_PRESSURE: Final = 0.9
"""Dynamic pressure at the tailplane, in the wake of wing and body, over that of flight (common practice)."""
ROWS: Final = 4
"""Along the chord of every surface."""
TAIL_STRIPS, FIN_STRIPS = 12, 8
WING_STRIPS: Final = 48
"""Of all planes together, but never less than `LEAST_STRIPS` on one."""
LEAST_STRIPS: Final = 20
CARRY_THROUGH: Final = 0.25
"""How far the fin goes on into the body, over its greatest depth: to the axis of a body half as deep there."""
FIN_GAP: Final = 0.02
"""Between the root of the fin and a tailplane on it, in fin heights: vortices of one must not lie on the other."""


@dataclass(frozen=True, slots=True)
class AirplaneLattice:
    """Panels of all surfaces, in lattice axes from the centre of gravity.

    Attributes
    ----------
    grid : Panels
        Planes of the wing, then tailplane and fin.
    surface : array of int, shape (panels,)
        ``WING``, ``TAIL`` or ``FIN``.
    turn : array, shape (panels, 3)
        Turn of a panel for a unit of elevator, aileron and rudder, with their effectiveness.
    pressure : array, shape (panels,)
        Dynamic pressure there over that of flight.
    """

    grid: Panels
    surface: NDArray[np.intp]
    turn: Numbers
    pressure: Numbers


def airplane_lattice(airframe: Airframe) -> AirplaneLattice:
    """Return the lattice of an airframe.

    Parameters
    ----------
    airframe : Airframe
        Geometry about its centre of gravity.

    Notes
    -----
    The planes of the wing go on through the body. Fin and rudder go on down to its axis.
    """
    wing, tail, fin = airframe.wing, airframe.tailplane, airframe.fin
    each = max(LEAST_STRIPS, 2 * (WING_STRIPS // (2 * len(wing.planes))))
    planes = [strips(lifting_plane(one, airframe.wing_height_m), each) for one in wing.planes]
    root_m = fin.height_m - 0.5 * fin.span_m
    tail_m = tail.height_m - (FIN_GAP * fin.span_m if abs(tail.height_m - root_m) < FIN_GAP * fin.span_m else 0.0)
    level = LiftingPlane(
        span_m=tail.span_m,
        chord_m=tail.chord_m,
        incidence_rad=tail.incidence_rad,
        height_m=tail_m,
        stagger_m=VORTEX * tail.chord_m - tail.arm_m,
        section_slope=tail.section_slope,
    )
    upright = _upright_strips(
        root_m=root_m - CARRY_THROUGH * airframe.body_depth_m,
        top_m=root_m + fin.span_m,
        chord_m=fin.chord_m,
        aft_m=fin.arm_m - VORTEX * fin.chord_m,
        section_slope=fin.section_slope,
        count=FIN_STRIPS,
    )
    grid = panels([*planes, strips(level, TAIL_STRIPS), upright], ROWS)
    surface = np.clip(grid.plane - len(planes) + 1, WING, FIN)
    pressure = np.where(surface == TAIL, TAIL_PRESSURE, 1.0)
    return AirplaneLattice(grid, surface, _turn(airframe, grid, surface), pressure)


def lifting_plane(plane: Plane, height_m: float = 0.0) -> LiftingPlane:
    """Return a plane about the centre of gravity; its arm is that of the quarter chord at the mean chord."""
    share = (1.0 + 2.0 * plane.taper) / (3.0 * (1.0 + plane.taper))
    sweep_m = 0.5 * plane.span_m * share * math.tan(plane.sweep_rad)
    root_chord_m = 2.0 * plane.chord_m / (1.0 + plane.taper)
    return LiftingPlane(
        span_m=plane.span_m,
        chord_m=plane.chord_m,
        taper=plane.taper,
        sweep_rad=plane.sweep_rad,
        dihedral_rad=plane.dihedral_rad,
        incidence_rad=plane.incidence_rad,
        height_m=plane.height_m + height_m,
        stagger_m=sweep_m + VORTEX * root_chord_m - plane.arm_m,
        section_slope=plane.section_slope,
    )


def _turn(airframe: Airframe, grid: Panels, surface: NDArray[np.intp]) -> Numbers:
    turn = np.zeros((len(surface), 3))
    turn[surface == TAIL, 0] = flap_effectiveness(airframe.tailplane.flap_share)
    turn[:, 1] = flap_effectiveness(airframe.aileron_chord_share) * _ailerons(airframe, grid)
    turn[surface == FIN, 2] = -flap_effectiveness(airframe.fin.flap_share)
    return turn


def _ailerons(airframe: Airframe, grid: Panels) -> Numbers:
    """Return the share of the width of each panel that an aileron covers, positive on the right."""
    covered = np.zeros(len(grid.plane))
    for number, plane in enumerate(airframe.wing.planes[: airframe.aileron_planes]):
        own, half = grid.plane == number, 0.5 * plane.span_m
        covered[own] = aileron_cover(airframe, grid.left_m[own, 1] / half, grid.right_m[own, 1] / half)
    return covered


def aileron_cover(airframe: Airframe, left: Numbers, right: Numbers) -> Numbers:
    """Return the share of the width of each strip that an aileron covers, positive on the right.

    Parameters
    ----------
    airframe : Airframe
        Says where the ailerons of a plane that has them end.
    left, right : array
        Edges of the strips as shares of the half span, right positive.
    """
    covered = np.zeros_like(left)
    for sense, ends in ((1.0, (left, right)), (-1.0, (-right, -left))):
        width = np.minimum(ends[1], airframe.aileron_to) - np.maximum(ends[0], airframe.aileron_from)
        covered += sense * np.maximum(width, 0.0) / (right - left)
    return covered


def _upright_strips(
    *, root_m: float, top_m: float, chord_m: float, aft_m: float, section_slope: float, count: int
) -> Strips:
    """Return the strips of a rectangular fin in the plane of symmetry, from the root up."""
    edges, middles = ((0.5 * (shares + 1.0)) * (top_m - root_m) + root_m for shares in stations(count, "cosine"))
    return Strips(
        edge_m=_upright(aft_m, edges),
        edge_chord_m=np.full(count + 1, chord_m),
        middle_m=_upright(aft_m, middles),
        middle_chord_m=np.full(count, chord_m),
        loss_rad=np.full(count, 1.0 / section_slope - 1.0 / THIN_AEROFOIL),
        span_m=top_m - root_m,
        area_m2=(top_m - root_m) * chord_m,
    )


def _upright(aft_m: float, heights_m: Numbers) -> Numbers:
    return np.column_stack((np.full(len(heights_m), aft_m), np.zeros(len(heights_m)), heights_m))
