"""National Physical Laboratory, about 1911 to 1912, as quoted by Klemin and by Loening: lift of a biplane for its gap.

Mark M: measured lift of an unstaggered biplane over that of the monoplane at one angle, from memory; confirm it before
it is quoted. The .61 measured at a gap of .4 chord is left out: no flow without thickness and friction is so low.
"""

import pytest

from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import forces
from sim.aerodynamics.lattice_panels import LiftingPlane

WHY = "a wind tunnel of its time against flat plates of aspect ratio 6"


def slope(*planes):
    grid = lattice(planes)
    return forces(grid, circulation(grid)).lift_slope_per_rad


@pytest.mark.parametrize(("gap", "factor"), [(0.8, ".76"), (1.0, ".81"), (1.2, ".86"), (1.6, ".89")])
def test_lift_over_the_monoplane(gap, factor, printed):
    wing = LiftingPlane(6.0, 1.0)
    ours = slope(wing, LiftingPlane(6.0, 1.0, height_m=gap)) / slope(wing)
    printed(ours, factor, row=f"gap {gap:g} chords", within=0.03, why=WHY)
