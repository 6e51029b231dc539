"""Sky, ground, horizon and a grid of fields that shows height, speed and turn."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from viz.stage.scenes.camera import NEAR_M, Camera
from viz.stage.shapes import Block, Line, Rect, Shape

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.snapshot import AirplaneView

LINES = 15
"""Grid lines each way."""
SPACINGS_M = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0)


def land(camera: Camera, view: Rect, plane: AirplaneView, unit: float) -> list[Shape]:
    """Return everything behind the airplane; the horizon is level as the camera does not bank."""
    horizon = min(max(camera.horizon_y, view.y), view.bottom)
    return [
        Block(Rect(view.x, view.y, view.w, horizon - view.y), "sky"),
        Block(Rect(view.x, horizon, view.w, view.bottom - horizon), "ground"),
        *_grid(camera, plane, unit),
        Line(((view.x, horizon), (view.right, horizon)), "horizon", max(1.0, unit), smooth=False),
    ]


def _grid(camera: Camera, plane: AirplaneView, unit: float) -> list[Shape]:
    spacing = next((step for step in SPACINGS_M if step >= 0.4 * plane.height_m), SPACINGS_M[-1])
    ends = _ends(plane, spacing)
    seen = camera.seen(ends.reshape(-1, 3)).reshape(-1, 2, 3)
    seen = _before_eye(seen)
    flat = camera.project(seen.reshape(-1, 3)).reshape(-1, 2, 2).tolist()
    return [Line(line, "grid", max(1.0, unit), smooth=False) for line in flat]


def _ends(plane: AirplaneView, spacing: float) -> NDArray[np.float64]:
    """Return both ends of every grid line, from the airplane, shape (lines, 2, 3) [m]."""
    reach = spacing * LINES
    steps = spacing * np.arange(-LINES, LINES + 1)
    lines = np.empty((2, steps.size, 2, 3))
    lines[..., 2] = plane.height_m
    for way, place in enumerate((plane.north_m, plane.east_m)):
        lines[way, :, :, way] = (steps - place % spacing)[:, None]
        lines[way, :, 0, 1 - way], lines[way, :, 1, 1 - way] = -reach, reach
    return lines.reshape(-1, 2, 3)


def _before_eye(seen_m: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the lines with the part behind the eye cut off, and without those wholly behind it."""
    near, far = seen_m[:, 0], seen_m[:, 1]
    visible = (near[:, 0] > NEAR_M) | (far[:, 0] > NEAR_M)
    near, far = near[visible], far[visible]
    run = far[:, 0] - near[:, 0]
    run = np.where(np.abs(run) < 1e-9, 1e-9, run)
    share = np.clip((NEAR_M - near[:, 0]) / run, 0.0, 1.0)[:, None]
    cut = near + share * (far - near)
    first = np.where(near[:, :1] < NEAR_M, cut, near)
    second = np.where(far[:, :1] < NEAR_M, cut, far)
    return np.stack([first, second], axis=1)
