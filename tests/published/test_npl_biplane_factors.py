"""National Physical Laboratory, about 1911 to 1912, as quoted by Klemin and by Loening: lift of a biplane for its gap.

Mark M: measured lift of an unstaggered biplane over that of the monoplane at one angle, from memory; confirm it before
it is quoted. A second lattice gave what is marked R. No flow without thickness and friction is so low as the .61 at a
gap of .4 chord.
"""

import pytest

from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import forces
from sim.aerodynamics.lattice_panels import LiftingPlane

WHY = "a wind tunnel of its time against flat plates of aspect ratio 6"


def slope(*planes):
    grid = lattice(planes)
    return forces(grid, circulation(grid)).lift_slope_per_rad


ROWS = [(0.4, ".61", ".668"), (0.8, ".76", ".770"), (1.0, ".81", ".805"), (1.2, ".86", ".833"), (1.6, ".89", ".872")]


@pytest.mark.parametrize(("gap", "factor", "second"), ROWS)
def test_lift_over_the_monoplane(gap, factor, second, printed):
    wing = LiftingPlane(6.0, 1.0)
    ours = slope(wing, LiftingPlane(6.0, 1.0, height_m=gap)) / slope(wing)
    near = 0.065 if gap < 0.8 else 0.03
    printed(ours, factor, row=f"gap {gap:g} chords", within=near, why=WHY, kind="lift of a biplane")
    why = "two lattices"
    printed(ours, second, row=f"gap {gap:g} chords, second lattice", share=0.005, why=why, mark="R")
