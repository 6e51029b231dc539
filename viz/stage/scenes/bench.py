"""First an engine on a bench: pushed to a side, the one that spins answers at right angles, the other one follows."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.controls import MIDDLE
from viz.stage.palette import HOLLOW
from viz.stage.scenes.camera import studio
from viz.stage.scenes.engine import STANDS_M, TALL_M, WIDE_M, shed, without_shadows
from viz.stage.scenes.turning import LEAST_SHARE, arrow
from viz.stage.shapes import Block, Clip, Layer, Rect, Shape, Text
from viz.stage.solid.bench import bench
from viz.stage.solid.nose import turned
from viz.stage.solid.solid import about
from viz.stage.solid.view import seen
from viz.words.say import say

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.engine import EngineSetup
    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.snapshot import BenchEngineView, BenchView, Snapshot

    Numbers = NDArray[np.float64]

ABOVE_RAD: Final = 0.1
"""From so far above both are seen, from behind, as the pilot would. [rad]"""
REACH_M: Final = 0.85
"""Length of the arrow of a full push, and of a full answer. [m]"""
MOST_SHARE: Final = 1.2
"""No arrow is drawn longer than that of so many times the full answer."""


def draw(snapshot: Snapshot, view: BenchView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return both engines, over each its name, and the arrows of push and answer."""
    free, column = layout.beside(MIDDLE)
    high = 58 * layout.unit * (0.4 + 0.6 * layout.font) + 6 * layout.unit
    room = free._replace(y=free.y + high, h=free.h - high)
    sides = (view.rotary, view.fixed)
    shapes: list[Shape] = [_standing(free, room, figure, tuple(side.setup for side in sides))]
    shapes += [_swinging(side, room, figure) for side in sides]
    for side in sides:
        shapes += _arrows(side, view, room, figure, unit=layout.unit)
    shapes += _titles(snapshot.looks.language, sides, free, layout)
    found: list[Shape] = [Clip(free, tuple(shapes))]
    if column.w > 0.0:
        heading = column._replace(h=38 * layout.font * layout.unit)
        words = say(snapshot.looks.language, "bench.pad")
        text = Text(heading, words, size=16 * layout.unit, align="center", bold=True)
        found.append(Clip(heading, (Block(heading, "panel"), text), still=True))
    return found


@lru_cache(maxsize=4)
def _camera(room: Rect) -> Camera:
    return studio(room, above_rad=ABOVE_RAD, wide_m=max(WIDE_M, TALL_M * room.w / room.h))


@lru_cache(maxsize=4)
def _standing(free: Rect, room: Rect, figure: Figure, setups: tuple[EngineSetup, ...]) -> Layer:
    """Return the shed with both benches."""
    benches = []
    for setup in setups:
        parts = bench(figure, setup)
        place = np.array(STANDS_M[setup.kind]) - parts.pivot
        benches.append(seen(parts.still, without_shadows(figure), _camera(room), turn=np.eye(3), place_m=place))
    return Layer(free, (*shed(free), *benches))


def turn(side: BenchEngineView) -> Numbers:
    """Return the matrix from the axes of a swung engine to north, east, down."""
    return about((0.0, 0.0, 1.0), side.right_rad) @ about((0.0, 1.0, 0.0), side.up_rad)


def _swinging(side: BenchEngineView, room: Rect, figure: Figure) -> Shape:
    parts, swung = bench(figure, side.setup), turn(side)
    place = np.array(STANDS_M[side.setup.kind]) - swung @ parts.pivot
    angles = turned(side.shaft_rad)
    return seen(parts.swinging, without_shadows(figure), _camera(room), turn=swung, place_m=place, angles=angles)


def _arrows(side: BenchEngineView, view: BenchView, room: Rect, figure: Figure, *, unit: float) -> list[Shape]:
    """Return the visitor's push, and how the nose moves, from where the nose is."""
    camera, parts = _camera(room), bench(figure, side.setup)
    nose = turn(side) @ (np.array(figure.hub) - parts.pivot) + STANDS_M[side.setup.kind]
    who = side.setup.kind
    shapes: list[Shape] = []
    for role, up, right in (("ink", view.push_up, view.push_right), (who, side.up_rate, side.right_rate)):
        share = math.hypot(up, right)
        if share < LEAST_SHARE:
            continue
        reach = REACH_M * min(1.0, MOST_SHARE / share)
        points = np.stack([nose, nose + np.array([0.0, right * reach, -up * reach])])
        start, end = map(tuple, camera.project(camera.seen(points)).tolist())
        shapes += [*arrow(start, end, "keyline", unit, over=4.0), *arrow(start, end, role, unit)]
        if role == HOLLOW:
            shapes += arrow(start, end, "keyline", unit, over=-2.4)
    return shapes


def _titles(language: str, sides: tuple[BenchEngineView, ...], free: Rect, layout: Layout) -> list[Shape]:
    """Return over each engine what it does."""
    unit = layout.unit
    shapes: list[Shape] = []
    for side, half in zip(sides, layout.row(free, (1.0, 1.0)), strict=True):
        tall = 58 * unit * (0.4 + 0.6 * layout.font)
        title = Rect(half.x + 6 * unit, half.y + 6 * unit, half.w - 12 * unit, tall)
        words = say(language, f"bench.{side.setup.kind}")
        shapes += [Block(title, "tag"), Text(title, words, side.setup.kind, 20 * unit, "center", bold=True)]
    return shapes
