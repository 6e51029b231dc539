"""A wing whose planes are put farther apart, or farther ahead of one another, keeps its mean place and all else."""

from dataclasses import replace

import pytest
from airplanes import SESQUIPLANE, TRIPLANE
from shared import built


@pytest.mark.parametrize("path", [SESQUIPLANE, TRIPLANE])
def test_planes_move_about_their_mean_place(path):
    wing = built(path).airframe.wing
    moved = wing.rearranged(gap_m=1.9, stagger_m=-0.3)
    assert (moved.gap_m, moved.stagger_m) == (pytest.approx(1.9), pytest.approx(-0.3))
    last = len(wing.planes) - 1
    assert moved.planes[last].height_m == pytest.approx(moved.planes[0].height_m - 1.9 * last)
    for name in ("height_m", "arm_m"):
        assert moved.mean(name) == pytest.approx(wing.mean(name), abs=1e-12)
    back = tuple(
        replace(one, height_m=was.height_m, arm_m=was.arm_m) for one, was in zip(moved.planes, wing.planes, strict=True)
    )
    assert back == wing.planes
