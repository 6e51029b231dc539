"""Cross sections against the sum of little squares."""

import numpy as np
import pytest

from sim.structures.cross_section import ellipse, flanged, rectangle, tube

GRID = 1200


def summed(inside, half_width, half_depth):
    """Return area, both second moments, and the shear area at mid depth, of a shape cut into squares."""
    y = (np.arange(GRID) + 0.5) / GRID * 2.0 * half_width - half_width
    z = (np.arange(GRID) + 0.5) / GRID * 2.0 * half_depth - half_depth
    filled = inside(y[:, None], z[None, :])
    cell = 4.0 * half_width * half_depth / GRID**2
    area = filled.sum() * cell
    up, side = (filled * z[None, :] ** 2).sum() * cell, (filled * y[:, None] ** 2).sum() * cell
    first = (filled * np.maximum(z[None, :], 0.0)).sum() * cell
    thick = filled[:, GRID // 2].sum() * 2.0 * half_width / GRID
    return area, up, side, up * thick / first


@pytest.mark.parametrize(
    ("section", "inside", "half_width", "half_depth"),
    [
        (rectangle(0.03, 0.1), lambda y, z: (abs(y) < 1) & (abs(z) < 1), 0.015, 0.05),
        (
            flanged(0.04, 0.12, flange_m=0.02, web_m=0.004, webs=2),
            lambda y, z: (abs(z) > 0.04) | (abs(y) > 0.016),
            0.02,
            0.06,
        ),
        (
            flanged(0.04, 0.12, flange_m=0.03, web_m=0.008, webs=1),
            lambda y, z: (abs(z) > 0.03) | (abs(y) < 0.004),
            0.02,
            0.06,
        ),
        (tube(0.05, 0.006), lambda y, z: (y**2 + z**2 < 0.025**2) & (y**2 + z**2 > 0.019**2), 0.025, 0.025),
        (ellipse(0.08, 0.03), lambda y, z: (y / 0.04) ** 2 + (z / 0.015) ** 2 < 1.0, 0.04, 0.015),
    ],
    ids=["rectangle", "box", "I", "tube", "ellipse"],
)
def test_area_and_moments(section, inside, half_width, half_depth):
    """An ellipse stands on its edge in `ellipse`: its thickness is in bending up and down."""
    area, up, side, shear = summed(inside, half_width, half_depth)
    assert section.area_m2 == pytest.approx(area, rel=3e-3)
    assert section.inertia_m4 == pytest.approx(up, rel=3e-3)
    assert section.side_inertia_m4 == pytest.approx(side, rel=3e-3)
    assert section.shear_area_m2 == pytest.approx(shear, rel=1e-2)
    assert (section.fibre_m, section.side_fibre_m) == pytest.approx((half_depth, half_width))


def test_flanges_that_meet_are_solid():
    solid, full = rectangle(0.03, 0.1), flanged(0.03, 0.1, flange_m=0.05, web_m=0.005, webs=2)
    assert (full.area_m2, full.inertia_m4) == pytest.approx((solid.area_m2, solid.inertia_m4), rel=1e-12)
