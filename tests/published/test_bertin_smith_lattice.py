"""Bertin & Smith, Aerodynamics for Engineers, vortex-lattice example: aspect ratio 5, 45° of sweep, eight panels.

Mark P R: the slope 3.444 a radian was read in a reproduction, the loads with it. One row of four equal strips a half
wing, the outermost trailing vortex at the tip: the book's grid, for the converged value is 7 % lower.
"""

import math

import numpy as np
import pytest

from sim.aerodynamics.lattice import circulation
from sim.aerodynamics.lattice_forces import forces, span_loading
from sim.aerodynamics.lattice_panels import LiftingPlane, Strips, panels, strips

WING = LiftingPlane(5.0, 1.0, sweep_rad=math.radians(45.0))


def book():
    """Return the book's grid and its circulation."""
    edges = np.linspace(-1.0, 1.0, 9)
    edge, middle = (
        np.array([(WING.leading_edge_at_m(abs(share)), 2.5 * share, 0.0) for share in shares])
        for shares in (edges, 0.5 * (edges[1:] + edges[:-1]))
    )
    grid = panels([Strips(edge, np.ones(9), middle, np.ones(8), np.zeros(8), 5.0, 5.0)], 1)
    return grid, circulation(grid)


def test_lift_slope(printed):
    printed(forces(*book()).lift_slope_per_rad, "3.444", row="lift slope a radian")


@pytest.mark.parametrize(("strip", "load"), [(1, ".0273"), (2, ".0287"), (3, ".0286"), (4, ".0250")])
def test_loads(strip, load, printed):
    grid, flow = book()
    ours = span_loading(grid, flow.alpha_m_rad)[0][1][3 + strip] / (4.0 * math.pi)
    printed(ours, load, row=f"Γ/4πbUα, strip {strip} from the root")


def test_the_book_is_not_converged():
    grid = panels([strips(WING, 60)], 6)
    assert forces(grid, circulation(grid)).lift_slope_per_rad == pytest.approx(3.444 * 0.925, rel=0.01)
