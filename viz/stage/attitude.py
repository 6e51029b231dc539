"""Attitudes for the picture: between two states, as axes, and as where the nose points."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.stage.snapshot import Quaternion

Vector = tuple[float, float, float]


def between(one: Quaternion, other: Quaternion, blend: float) -> Quaternion:
    """Return the attitude at a share `blend` of the short way from one to the other."""
    if blend >= 1.0:
        return other
    sign = 1.0 if sum(a * b for a, b in zip(one, other, strict=True)) >= 0.0 else -1.0
    mixed = [a + (sign * b - a) * blend for a, b in zip(one, other, strict=True)]
    norm = math.sqrt(sum(part * part for part in mixed))
    e0, e1, e2, e3 = (part / norm for part in mixed)
    return e0, e1, e2, e3


def axes(attitude: Quaternion) -> tuple[Vector, Vector, Vector]:
    """Return the body's forward, right and down axes in north, east, down."""
    e0, e1, e2, e3 = attitude
    forward = (1 - 2 * (e2 * e2 + e3 * e3), 2 * (e1 * e2 + e0 * e3), 2 * (e1 * e3 - e0 * e2))
    right = (2 * (e1 * e2 - e0 * e3), 1 - 2 * (e1 * e1 + e3 * e3), 2 * (e2 * e3 + e0 * e1))
    down = (2 * (e1 * e3 + e0 * e2), 2 * (e2 * e3 - e0 * e1), 1 - 2 * (e1 * e1 + e2 * e2))
    return forward, right, down


def heading(forward: Vector) -> float:
    """Return the heading of a forward axis, from north, right positive, −π..π [rad]."""
    return math.atan2(forward[1], forward[0])


def bank(attitude: Quaternion) -> float:
    """Return the bank, right wing down positive, −π..π [rad]."""
    _, right, down = axes(attitude)
    return math.atan2(right[2], down[2])


def angle_towards(angle_rad: float, target_rad: float, share: float) -> float:
    """Return an angle moved by a share of the short way to a target [rad]."""
    return angle_rad + share * math.remainder(target_rad - angle_rad, math.tau)


def on_picture(attitude: Quaternion, heading_rad: float, *, up: float, right: float) -> tuple[float, float]:
    """Return how far up and right on a level picture a move of the nose goes that is so far up and right in the body.

    Parameters
    ----------
    attitude : tuple of float
        Body to earth.
    heading_rad : float
        Along which the picture looks. [rad]
    up, right : float
        In the airplane's own axes, whatever their unit.
    """
    _, aside, below = axes(attitude)
    north, east, down = (right * a - up * b for a, b in zip(aside, below, strict=True))
    return -down, math.cos(heading_rad) * east - math.sin(heading_rad) * north
