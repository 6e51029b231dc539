"""Benchmarks of lifting-surface theory in steady flow: Garner's rectangular wing, Jordan's circular one.

Mark M: H. C. Garner, about 1968, rectangular wing of aspect ratio 2; P. F. Jordan, 1971, circular planform. Both slopes
from memory, a second lattice gave 2.4733 and 1.7907.
"""

import math

import numpy as np

from sim.aerodynamics.lattice import circulation
from sim.aerodynamics.lattice_forces import forces
from sim.aerodynamics.lattice_panels import LiftingPlane, Strips, panels, strips

WHY = "lattice of {} panels"


def test_rectangular_wing(printed):
    grid = panels([strips(LiftingPlane(2.0, 1.0), 40)], 10)
    found, why = forces(grid, circulation(grid)), WHY.format(400)
    printed(found.lift_slope_per_rad, "2.474", row="lift slope, rectangular, aspect ratio 2", within=0.002, why=why)
    printed(found.aerodynamic_centre_m, ".210", row="centre of pressure in chords", within=0.001, why=why, mark="E")


def test_circular_wing(printed):
    angle = np.pi * np.arange(41) / 40
    edges, middles = -np.cos(angle), -np.cos(angle[:-1] + 0.5 * np.pi / 40)
    half = np.sqrt(np.maximum(0.0, 1.0 - edges**2))
    between = np.interp(middles, edges, half)  # panels have straight edges
    edge, middle = (
        np.column_stack((-chord, place, 0.0 * place)) for chord, place in ((half, edges), (between, middles))
    )
    grid = panels([Strips(edge, 2.0 * half, middle, 2.0 * between, np.zeros(40), 2.0, math.pi)], 12)
    ours = forces(grid, circulation(grid)).lift_slope_per_rad
    printed(ours, "1.7900", row="lift slope, circular", within=0.004, why=WHY.format(480))
