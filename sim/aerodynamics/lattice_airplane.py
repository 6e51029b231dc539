"""The lattice of a whole airplane: planes of the wing, tailplane and fin at their places, with their controls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.lattice_panels import THIN_AEROFOIL, LiftingPlane, Strips, panels, strips, upright_strips
from sim.aerodynamics.lifting_surface import flap_effectiveness

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.lattice_panels import Panels

    Numbers = NDArray[np.float64]

ROWS = 4
WING_STRIPS, TAIL_STRIPS, FIN_STRIPS = 24, 12, 6


@dataclass(frozen=True, slots=True)
class AirplaneLattice:
    """Panels of all surfaces about the centre of gravity, wing planes first, then tailplane and fin.

    Attributes
    ----------
    grid : Panels
        In lattice axes, from the centre of gravity.
    turn : array, shape (panels, 3)
        Turn of a panel's surface for a unit of elevator, aileron and rudder, times its effectiveness.
    pressure : array, shape (panels,)
        Dynamic pressure there over that of flight.
    wing_planes : int
        How many of the surfaces are planes of the wing.
    """

    grid: Panels
    turn: Numbers
    pressure: Numbers
    wing_planes: int


def airplane_lattice(airframe: Airframe, *, tail_pressure: float, fin_pressure: float, fin_root_down: float = 0.0) -> AirplaneLattice:
    wing, tail, fin = airframe.wing, airframe.tailplane, airframe.fin
    planes = [
        LiftingPlane(
            span_m=one.span_m, chord_m=one.chord_m, taper=one.taper, sweep_rad=one.sweep_rad,
            dihedral_rad=one.dihedral_rad, incidence_rad=one.incidence_rad,
            height_m=one.height_m - _dihedral_drop(one),
            stagger_m=-(one.arm_m - _sweep_back(one)) + 0.25 * 2.0 * one.chord_m / (1.0 + one.taper),
            section_slope=one.section_slope,
        )
        for one in wing.planes
    ]
    tailplane = LiftingPlane(
        span_m=tail.span_m, chord_m=tail.chord_m, incidence_rad=tail.incidence_rad,
        height_m=tail.height_m, stagger_m=-tail.arm_m + 0.25 * tail.chord_m, section_slope=tail.section_slope,
    )
    root = fin.height_m - 0.5 * fin.span_m
    parts: list[Strips] = [strips(one, WING_STRIPS) for one in planes]
    parts.append(strips(tailplane, TAIL_STRIPS))
    parts.append(upright_strips(root_m=root - fin_root_down, top_m=root + fin.span_m, chord_m=fin.chord_m,
                                aft_m=fin.arm_m - 0.25 * fin.chord_m, section_slope=fin.section_slope, count=FIN_STRIPS))
    grid = panels(parts, ROWS)
    first = len(planes)
    turn = np.zeros((len(grid.plane), 3))
    turn[grid.plane == first, 0] = flap_effectiveness(tail.flap_share)
    middle = grid.bound_m[:, 1]
    for number, one in enumerate(wing.planes[: airframe.aileron_planes]):
        place = np.abs(middle) / (0.5 * one.span_m)
        covered = (grid.plane == number) & (place > airframe.aileron_from) & (place < airframe.aileron_to)
        turn[covered, 1] = flap_effectiveness(airframe.aileron_chord_share) * np.sign(middle[covered])
    turn[grid.plane == first + 1, 2] = -flap_effectiveness(fin.flap_share)
    pressure = np.where(grid.plane < first, 1.0, np.where(grid.plane == first, tail_pressure, fin_pressure))
    return AirplaneLattice(grid, turn, pressure, first)


def _dihedral_drop(plane) -> float:
    return 0.0


def _sweep_back(plane) -> float:
    """Distance of the quarter chord of the mean chord behind that of the root."""
    share = (1.0 + 2.0 * plane.taper) / (3.0 * (1.0 + plane.taper))
    return 0.5 * plane.span_m * share * math.tan(plane.sweep_rad)
