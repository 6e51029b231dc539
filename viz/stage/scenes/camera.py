"""The chase point: where earth and airplane fall on a view, seen from behind and a little above."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.shapes import Point, Rect

TILT_RAD = math.radians(9.0)
"""The picture looks down by this much [rad]."""
HALF_WIDTH_RAD = math.radians(27.0)
STUDIO_HALF_RAD = math.radians(17.0)
"""Half of what a picture of something near is wide [rad]."""
NEAR_M = 1.0
LEAST_AHEAD = 0.2
"""Directions with less of them along the sight are out of it."""


@dataclass(frozen=True, slots=True)
class Camera:
    """A view from behind onto a rectangle: `basis` holds ahead, right and down as rows, in north, east, down."""

    basis: NDArray[np.float64]
    eye_m: NDArray[np.float64]
    focal_px: float
    centre: Point
    view: Rect

    def seen(self, points_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return depth, right and down from the eye, for points from the airplane; shape (N, 3) [m]."""
        return np.asarray((points_m - self.eye_m) @ self.basis.T)

    def project(self, seen_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return where seen points fall on the window, shape (N, 2); the depth must be above nothing [px]."""
        return np.asarray(seen_m[:, 1:] * (self.focal_px / seen_m[:, :1]) + self.centre)

    def far(self, direction: NDArray[np.float64]) -> Point | None:
        """Return where a direction, north, east, down, falls on the sky, None where it is out of sight."""
        seen = self.basis @ direction
        if seen[0] < LEAST_AHEAD:
            return None
        ((x, y),) = self.project(seen[None, :]).tolist()
        return x, y

    @property
    def horizon_y(self) -> float:
        """Height of the horizon on the window [px]."""
        return self.centre[1] - self.focal_px * math.tan(TILT_RAD)


def chase(view: Rect, heading_rad: float, span_m: float) -> Camera:
    """Return the camera behind an airplane of a span, looking along a heading [px, rad, m]."""
    sine, cosine = math.sin(heading_rad), math.cos(heading_rad)
    ahead = np.array([cosine, sine, 0.0])
    right = np.array([-sine, cosine, 0.0])
    down = np.array([0.0, 0.0, 1.0])
    sight = math.cos(TILT_RAD) * ahead + math.sin(TILT_RAD) * down
    lower = math.cos(TILT_RAD) * down - math.sin(TILT_RAD) * ahead
    focal = 0.5 * min(view.w, 1.35 * view.h) / math.tan(HALF_WIDTH_RAD)
    eye = -1.6 * span_m * ahead - 0.42 * span_m * down
    return Camera(np.stack([sight, right, lower]), eye, focal, (view.center[0], view.y + 0.46 * view.h), view)


def studio(view: Rect, *, above_rad: float, wide_m: float) -> Camera:
    """Return the camera that looks north at the place that things are told from.

    Parameters
    ----------
    view : Rect
        What it fills. [px]
    above_rad : float
        By how much it stands above. [rad]
    wide_m : float
        What the picture is wide there. [m]
    """
    focal = 0.5 * view.w / math.tan(STUDIO_HALF_RAD)
    away = 0.5 * wide_m / math.tan(STUDIO_HALF_RAD)
    sine, cosine = math.sin(above_rad), math.cos(above_rad)
    sight, right, lower = np.array([[cosine, 0.0, sine], [0.0, 1.0, 0.0], [-sine, 0.0, cosine]])
    return Camera(np.stack([sight, right, lower]), -away * sight, focal, view.center, view)
