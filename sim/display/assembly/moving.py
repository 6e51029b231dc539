"""Parts in their place: the polygons of a part in the display, turned, swung and lifted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.solid import turned

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.display.assembly.data import Fastener, Part
    from sim.display.rise_laws import FloatArray

SWEEP_STEPS = 61


def corners(each: Part | Fastener) -> FloatArray:
    """Return the corners of every outline of a part in its place, rows of x and y. [m]."""
    angle = getattr(each, "placed_rad", 0.0)
    rows = np.concatenate([slab.outline_m for slab in each.slabs])
    placed: FloatArray = turned(rows, angle) + np.array([each.x_m, each.y_m])
    return placed


def swept_box(parts: Iterable[Part | Fastener], swing_rad: float) -> tuple[float, float, float, float]:
    """Return left, low, right and high edge of all that parts sweep, swinging clockwise about the origin. [m].

    Notes
    -----
    Sampled in sixty steps; between two of them a corner at radius r stays within r (step/2)²/2 of the box, 30 µm at
    200 mm for a swing of 120°.
    """
    rows = np.concatenate([corners(each) for each in parts])
    swung = np.concatenate([turned(rows, -swing_rad * step / (SWEEP_STEPS - 1)) for step in range(SWEEP_STEPS)])
    (left, low), (right, high) = swung.min(axis=0), swung.max(axis=0)
    return float(left), float(low), float(right), float(high)
