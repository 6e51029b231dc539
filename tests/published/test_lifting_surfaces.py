"""Benchmarks of lifting-surface theory in steady flow: Garner's rectangular wing, Jordan's circular one.

Mark M R: H. C. Garner, about 1968, rectangular wing of aspect ratio 2; P. F. Jordan, 1971, circular planform. Both
slopes from memory, a second lattice gave 2.4733 and 1.7907 (R). Jones's slender wing is a limit, π A / 2.
"""

import math

import numpy as np
import pytest

from sim.aerodynamics.lattice import circulation
from sim.aerodynamics.lattice_forces import forces
from sim.aerodynamics.lattice_panels import LiftingPlane, Strips, panels, strips

WHY = "lattice of {} panels"


def solved(aspect):
    grid = panels([strips(LiftingPlane(aspect, 1.0), 40)], 10)
    return forces(grid, circulation(grid))


@pytest.mark.parametrize(
    ("aspect", "slope", "mark", "centre"),
    [(2.0, "2.474", "M R", ".210"), (5.0, "3.952", "X", ""), (6.0, "4.213", "X", ".239")],
)
def test_rectangular_wing(aspect, slope, mark, centre, printed):
    found, why = solved(aspect), WHY.format(400)
    row = f"lift slope, rectangular, aspect ratio {aspect:g}"
    how = {"within": 0.002, "why": why, "kind": "lift slope of a wing"}
    printed(found.lift_slope_per_rad, slope, row=row, mark=mark, **how)
    if centre:
        row = f"centre of pressure in chords, aspect ratio {aspect:g}"
        printed(found.aerodynamic_centre_m, centre, row=row, within=0.001, why=why, mark="X")


def test_slender_wing(printed):
    """A lifting surface is 7 % below the slender wing at aspect ratio 1, and joins it for none."""
    ours = 100.0 * (solved(1.0).lift_slope_per_rad / (0.5 * math.pi) - 1.0)
    printed(ours, "-7", "%", row="lift slope over π A / 2, aspect ratio 1", within=1.0, why="rounded", mark="X")
    assert solved(0.1).lift_slope_per_rad == pytest.approx(0.05 * math.pi, rel=0.01)


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
    printed(ours, "1.7900", row="lift slope, circular", within=0.004, why=WHY.format(480), kind="lift slope of a wing")
