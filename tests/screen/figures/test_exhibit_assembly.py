"""The figure of the display shows the whole of it, true in proportion."""

import numpy as np
import pytest
from shared import answer as asked

from viz.figures.exhibit import draw


def test_the_figure_shows_the_whole_display_true_in_proportion():
    """Its width and height are those of all corners, found by another way than the views."""
    answer = asked("exhibit")
    panel = draw(answer, "si").axes[0]
    points = np.concatenate([path.vertices for each in panel.collections for path in each.get_paths()])
    corners = np.concatenate(
        [
            slab.outline_m + np.array((part.x_m, part.y_m))
            for part in answer.assembly.parts
            if not part.placed_rad
            for slab in part.slabs
        ]
    )
    (left, low), (right, high) = 1e3 * corners.min(axis=0), 1e3 * corners.max(axis=0)
    assert (points[:, 1].min(), points[:, 1].max()) == pytest.approx((low, high), abs=0.3)
    assert points[:, 0].min() == pytest.approx(left, abs=0.3)
    assert panel.get_aspect() == 1.0
    deep = 1e3 * (max(part.z_to_m for part in answer.assembly.parts) - min(p.z_from_m for p in answer.assembly.parts))
    assert points[:, 0].max() == pytest.approx(right + 0.12 * (right - left) + deep, abs=0.6)
    assert f"{right - left:.1f} mm wide and {high - low:.1f} mm high" in panel.get_title(loc="left")
