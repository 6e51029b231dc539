"""P. Kuhn, NACA Report 445, 1932: how two planes share the lift of a biplane.

Mark P: the abstract was read; the number is from memory. The share depends on stagger, gap, decalage, ratio of chords
and overhang; unequal dihedral and unequal sweep enter through the mean gap and the mean stagger. Decalage shifts lift
from one plane to the other, not how they share what incidence adds. The charts themselves were not seen; the section,
which they take into account too, a lattice knows by its slope alone.
"""

from dataclasses import replace

import pytest

from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import forces
from sim.aerodynamics.lattice_panels import LiftingPlane

UPPER = LiftingPlane(9.0, 1.3, height_m=1.5, stagger_m=0.4)
LOWER = LiftingPlane(9.0, 1.3)


def solved(upper, lower):
    grid = lattice([upper, lower])
    return forces(grid, circulation(grid))


def share(upper, lower=LOWER):
    """Return the share of the upper plane in the lift at 4°, a lift slope apart from decalage."""
    found = solved(upper, lower).planes
    lifts = [
        (plane.lift_at_zero + plane.lift_slope_per_rad * 0.07) * each.area_m2
        for plane, each in zip(found, (upper, lower), strict=True)
    ]
    return lifts[0] / sum(lifts)


@pytest.mark.parametrize(
    ("what", "other"),
    [
        ("stagger", (replace(UPPER, stagger_m=0.9), LOWER)),
        ("gap", (replace(UPPER, height_m=2.5), LOWER)),
        ("decalage", (replace(UPPER, incidence_rad=0.02), LOWER)),
        ("ratio of chords", (UPPER, replace(LOWER, chord_m=0.9))),
        ("overhang", (UPPER, replace(LOWER, span_m=7.0))),
    ],
)
def test_what_the_share_depends_on(what, other, printed):
    apart = abs(share(*other) - share(UPPER))
    printed("depends" if apart > 0.005 else f"{apart:.4f} apart", "depends", row=f"share of the upper plane on {what}")


@pytest.mark.parametrize("what", ["dihedral", "sweep"])
def test_what_enters_through_its_mean(what, printed):
    """A plane that rises or sweeps towards the tips, beside one that is straight at its mean place over the span."""
    angle, half = 0.05, 0.25 * UPPER.span_m
    tilted, straight = {
        "dihedral": (replace(UPPER, dihedral_rad=angle), replace(UPPER, height_m=UPPER.height_m + half * angle)),
        "sweep": (
            replace(UPPER, sweep_rad=2.0 * angle),
            replace(UPPER, stagger_m=UPPER.stagger_m - 2.0 * half * angle),
        ),
    }[what]
    rest, whole = abs(share(tilted) - share(straight)), abs(share(straight) - share(UPPER))
    assert whole > 1e-3
    words = "through its mean" if rest < 0.3 * whole else f"{rest:.4f} of {whole:.4f} left"
    printed(words, "through its mean", row=f"unequal {what}")
