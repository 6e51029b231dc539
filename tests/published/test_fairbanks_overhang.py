"""P. Fairbanks, NACA Report 271, 1927, on the distribution of pressure over the wings of the PW-9: the overhang.

Mark P: the abstract was read; the number is from memory. Interference acts almost only between the planes, so that the
part of the upper wing that stands beyond the lower one is little affected. A lattice has no thickness: which of the two
surfaces of a wing the interference acts on it cannot say.
"""

import numpy as np

from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import span_loading
from sim.aerodynamics.lattice_panels import LiftingPlane

UPPER = LiftingPlane(10.0, 1.5, height_m=1.4, stagger_m=0.5)
LOWER = LiftingPlane(6.0, 1.2)


def load(*planes):
    grid = lattice(planes)
    return span_loading(grid, circulation(grid).alpha_m_rad)[0]


def test_the_overhang_is_little_affected(printed):
    places, both = load(UPPER, LOWER)
    loss = 1.0 - both / np.interp(places, *load(UPPER))
    overhang, inner = (
        loss[np.abs(places) > 0.36 * UPPER.span_m].mean(),
        loss[np.abs(places) < 0.24 * UPPER.span_m].mean(),
    )
    assert inner > 0.02
    words = "little" if abs(overhang) < 0.25 * inner else f"{overhang:.3f} beside {inner:.3f}"
    printed(words, "little", row="loss of load of the overhang beside that between the planes")
