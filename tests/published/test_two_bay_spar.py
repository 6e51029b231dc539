"""The spar of a two-bay wing on three supports, by exact functions.

Hinged at the root, 12 lb/in throughout, an overhang of 30 in beyond the outer strut; outer bay 80 in under a thrust of
2500 lb, inner bay 70 in under 5000 lb, E I 1.28e7 lb in². By Berry's functions and by 400 elements. Mark: X.
"""

import numpy as np
import pytest

from sim.structures.beam_column import Patch, span

INNER, OUTER, LOAD, BENDING, OVERHANG = 70.0, 80.0, 12.0, 1.28e7, 5400.0


def at_the_inner_strut(inner_thrust, outer_thrust):
    """Return the moment there, of the sense of that of the overhang, in pounds and inches."""
    inner = span(INNER, BENDING, inner_thrust, [Patch(0.0, INNER, LOAD)])
    outer = span(OUTER, BENDING, outer_thrust, [Patch(0.0, OUTER, LOAD)])
    stiffness, fixed = np.zeros((3, 3)), np.zeros(3)
    for place, bay in ((slice(0, 2), inner), (slice(1, 3), outer)):
        stiffness[place, place] += bay.stiffness[1::2, 1::2]
        fixed[place] += bay.fixed[1::2]
    slopes = np.linalg.solve(stiffness, np.array([0.0, 0.0, OVERHANG]) - fixed)
    return inner.stiffness[3, 1::2] @ slopes[:2] + inner.fixed[3]


@pytest.mark.parametrize(
    ("thrusts", "moment", "row"),
    [((5000.0, 2500.0), "7490", "with the thrust of both bays"), ((0.0, 0.0), "7110", "without thrust")],
)
def test_moment_at_the_inner_strut(printed, thrusts, moment, row):
    why = "a whole number"
    printed(at_the_inner_strut(*thrusts), moment, "lb in", row=f"inner strut, {row}", within=0.5, why=why)
