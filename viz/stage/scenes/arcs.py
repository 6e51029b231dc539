"""Points and arcs on a circle, at angles clockwise from straight up; and the head of an arrow."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.stage.shapes import Point


def way(rotation: str) -> float:
    """Return by what propeller angles are multiplied, +1 or -1, to be drawn in the sense seen from the cockpit."""
    return -1.0 if rotation == "anticlockwise" else 1.0


def polar(centre: Point, radius: float, angle_rad: float) -> Point:
    """Return the point at an angle clockwise from straight up [px, rad]."""
    return centre[0] + radius * math.sin(angle_rad), centre[1] - radius * math.cos(angle_rad)


def sector(centre: Point, radii: tuple[float, float], from_rad: float, to_rad: float) -> tuple[Point, ...]:
    """Return the outline of a piece of a ring between two angles, clockwise from straight up."""
    steps = max(2, math.ceil(abs(to_rad - from_rad) / 0.12))
    angles = [from_rad + (to_rad - from_rad) * step / steps for step in range(steps + 1)]
    inner = [polar(centre, radii[0], angle) for angle in angles]
    return (*inner, *(polar(centre, radii[1], angle) for angle in reversed(angles)))


def head(before: Point, tip: Point, long: float) -> tuple[Point, Point, Point]:
    """Return the head of an arrow that comes from a point to its tip, so long and three quarters as wide [px]."""
    away = max(math.dist(before, tip), 1e-6)
    x, y = (long * (tip[axis] - before[axis]) / away for axis in (0, 1))
    back, half = (tip[0] - 0.5 * x, tip[1] - 0.5 * y), 0.375
    front = tip[0] + 0.5 * x, tip[1] + 0.5 * y
    return front, (back[0] - half * y, back[1] + half * x), (back[0] + half * y, back[1] - half * x)
