"""One stick, two engines: the same movement, seen from the same chase point behind each airplane."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.attitude import axes
from viz.stage.controls import MIDDLE
from viz.stage.scenes.airplane import airplane, disc_rim, nose_m
from viz.stage.scenes.camera import chase
from viz.stage.scenes.instruments import instruments, sky
from viz.stage.scenes.land import land
from viz.stage.scenes.mesh import seen
from viz.stage.shapes import Clip, Disc, Line, Polygon, Shape, Text
from viz.stage.words import say

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.scene_data import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.shapes import Point, Rect
    from viz.stage.snapshot import AirplaneView, Snapshot, TurningView

ARROW_LONG = 1.2
"""No arrow is drawn longer than this many times the full one."""
LEAST_SHARE = 0.04
"""A couple below this share of the full arrow is not drawn."""


def draw(snapshot: Snapshot, view: TurningView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the shapes of both views and the heading of the column between them."""
    left, centre, right = layout.sides(MIDDLE)
    heading = centre._replace(h=30 * layout.font * layout.unit)
    language = snapshot.looks.language
    words = say(language, f"maneuver.{view.script}" if view.script else "turning.stick")
    return [
        *_half(snapshot, view, left, layout, who="rotary", figure=figure),
        *_half(snapshot, view, right, layout, who="fixed", figure=figure),
        Text(heading, words, size=16 * layout.unit, align="center", bold=True),
    ]


def _half(
    snapshot: Snapshot, view: TurningView, rect: Rect, layout: Layout, *, who: str, figure: Figure
) -> list[Shape]:
    plane: AirplaneView = getattr(view, who)
    free = sky(rect, layout)
    camera = chase(free, view.camera_heading_rad, figure.span_m)
    turn = np.array(axes(plane.attitude)).T
    unit = layout.unit
    picture = (
        *land(camera, free, plane, unit),
        *_trail(plane, camera, unit),
        *seen(airplane(figure), camera, turn, max(1.0, 2 * unit)),
        *_disc(camera, turn, figure=figure, who=who, unit=unit),
        *_arrow(plane, camera, turn, scale_n_m=view.couple_scale_n_m, figure=figure, unit=unit),
    )
    return [Clip(free, picture), *instruments(snapshot.looks, plane, rect, layout, who=who)]


def _trail(plane: AirplaneView, camera: Camera, unit: float) -> list[Shape]:
    """Return where the nose has pointed, as a line on the sky, and a ring where it points now."""
    chains: list[list[Point]] = [[]]
    for direction in plane.trail:
        point = camera.far(direction)
        if point is None:
            chains.append([])
        else:
            chains[-1].append(point)
    lines: list[Shape] = [Line(tuple(chain), "trail", 3 * unit) for chain in chains if len(chain) > 1]
    now = camera.far(axes(plane.attitude)[0])
    return [*lines, Disc(*now, 7 * unit, "trail", rim=2 * unit)] if now else lines


def _disc(camera: Camera, turn: NDArray[np.float64], *, figure: Figure, who: str, unit: float) -> list[Shape]:
    """Return the rim of the propeller disc: steady, so that nothing flickers."""
    rim = camera.project(camera.seen(disc_rim(figure) @ turn.T))
    return [Line(tuple(map(tuple, rim.tolist())), who, 1.5 * unit, smooth=False)]


def _arrow(
    plane: AirplaneView, camera: Camera, turn: NDArray[np.float64], *, scale_n_m: float, figure: Figure, unit: float
) -> list[Shape]:
    """Return the push on the nose as an arrow that starts at the hub and points where the nose is pushed."""
    right, up = plane.yaw_n_m / scale_n_m, plane.pitch_n_m / scale_n_m
    share = math.hypot(right, up)
    if share < LEAST_SHARE:
        return []
    reach = 0.42 * figure.span_m * min(1.0, ARROW_LONG / share)
    tail = np.array(nose_m(figure))
    points = np.stack([tail, tail + np.array([0.0, right * reach, -up * reach])])
    (x0, y0), (x1, y1) = camera.project(camera.seen(points @ turn.T)).tolist()
    return arrow((x0, y0), (x1, y1), "couple", unit)


def arrow(start: Point, end: Point, role: str, unit: float) -> list[Shape]:
    """Return an arrow from one point to another with a head that a visitor sees from afar."""
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    length = math.hypot(along_x, along_y) or 1.0
    ux, uy = along_x / length, along_y / length
    head = min(22 * unit, 0.7 * length)
    neck = (end[0] - ux * head, end[1] - uy * head)
    wide = 0.55 * head
    corners = (end, (neck[0] - uy * wide, neck[1] + ux * wide), (neck[0] + uy * wide, neck[1] - ux * wide))
    return [Line((start, neck), role, 7 * unit), Polygon(corners, role)]
