"""Tubes, boxes and rings that machines are built of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.solid import METAL

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from viz.stage.solid.solid import Builder

    Numbers = NDArray[np.float64]

ROUND: Final = 16
"""Sides of a body of revolution."""


def ring(x: float, radius: float, angle_rad: Numbers) -> Numbers:
    """Return points about the x axis at angles clockwise from straight up, seen from behind, shape (n, 3) [m]."""
    return np.stack([np.full_like(angle_rad, x), radius * np.sin(angle_rad), -radius * np.cos(angle_rad)], axis=-1)


def circle(steps: int) -> Numbers:
    """Return points of a closed circle of radius 1 about the x axis, clockwise from straight up [m]."""
    return ring(0.0, 1.0, np.linspace(0.0, 2.0 * np.pi, steps + 1))


def tube(
    builder: Builder,
    start: ArrayLike,
    end: ArrayLike,
    role: str,
    *,
    radius_m: float,
    sides: int = 10,
    nearer: float = 0.0,
    finish: int = METAL,
) -> None:
    """Add a round bar with both its ends."""
    start, end = np.asarray(start, dtype=float), np.asarray(end, dtype=float)
    along = (end - start) / np.linalg.norm(end - start)
    aside = np.cross(along, [0.0, 0.0, 1.0] if abs(along[2]) < 0.9 else [1.0, 0.0, 0.0])
    aside /= np.linalg.norm(aside)
    over = np.cross(along, aside)
    angle = np.linspace(0.0, 2.0 * np.pi, sides + 1)[:, None]
    around = radius_m * (np.cos(angle) * aside + np.sin(angle) * over)
    rows = np.array([start + 0.0 * around, start + around, end + around, end + 0.0 * around])
    builder.skin(rows, role, within=0.5 * (start + end), finish=finish, nearer=nearer)


def box(builder: Builder, low: ArrayLike, high: ArrayLike, role: str, *, nearer: float = 0.0) -> None:
    """Add a box along the axes from one corner to the one across."""
    (x0, y0, z0), (x1, y1, z1) = np.asarray(low, dtype=float), np.asarray(high, dtype=float)
    middle = 0.5 * (np.asarray(low, dtype=float) + np.asarray(high, dtype=float))
    loop = np.array([(y0, z0), (y1, z0), (y1, z1), (y0, z1), (y0, z0)])
    rows = np.array([[(x, y, z) for y, z in loop] for x in (x0, x1)])
    builder.skin(rows, role, within=middle, finish=METAL, nearer=nearer)
    for x in (x0, x1):
        end = np.array([[(x, y0, z0), (x, y1, z0)], [(x, y0, z1), (x, y1, z1)]])
        builder.skin(end, role, within=middle, finish=METAL, nearer=nearer)


def body_of_revolution(
    builder: Builder, axis: Numbers, rings: Sequence[tuple[float, float]], role: str, *, hinge: str = ""
) -> None:
    """Add a body of revolution: x and radius of each ring, both ends closed."""
    whole = [(rings[0][0], 0.0), *rings, (rings[-1][0], 0.0)]
    around = circle(ROUND)
    rows = np.array([axis + [x, 0.0, 0.0] + radius * around for x, radius in whole])
    core = axis + np.array([0.5 * (rings[0][0] + rings[-1][0]), 0.0, 0.0])
    builder.skin(rows, role, within=core, finish=METAL, hinge=hinge)
