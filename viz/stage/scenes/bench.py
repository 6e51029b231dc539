"""First an engine on a bench: pushed to a side, the one that spins answers at right angles, the other one follows."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.controls import MIDDLE
from viz.stage.palette import HOLLOW
from viz.stage.scenes.arrows import bent, edged, spin_arcs
from viz.stage.scenes.camera import studio
from viz.stage.scenes.engine import TALL_M, WIDE_M, seen_from, seen_room, shed, without_shadows
from viz.stage.scenes.noses import LEAST_SHARE
from viz.stage.scenes.tags import tag, wide
from viz.stage.shapes import Block, Clip, Disc, Layer, Rect, Shape, Text
from viz.stage.solid.bench import bench
from viz.stage.solid.nose import turned
from viz.stage.solid.solid import about
from viz.stage.solid.view import seen
from viz.words.say import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.live.engine import EngineSetup
    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.shapes import Point
    from viz.stage.snapshot import BenchEngineView, BenchView, Snapshot

    Numbers = NDArray[np.float64]

STANDS_M: Final = {"rotary": (0.0, -1.32, 0.3), "fixed": (0.0, 1.32, 0.3)}
"""Where the pivots of both are, north, east, down of the middle: low, for their own swings up. [m]"""
ABOVE_RAD: Final = 0.32
"""From so far above both are seen, from behind, as the pilot would. [rad]"""
REACH: Final = 104.0
"""Length of the arrow of a full push, and of a full answer, in units; that of the least is half as long."""
SPIN_ARROW: Final = 1.36
"""Radius of the arrow about what spins over the reach of the cylinders: outside the ring of the gimbal."""
SPIN_AT_RAD: Final = -2.0
"""Where its middle is, clockwise from straight up: low, clear of the nose and of its arrows. [rad]"""
MOST_SHARE: Final = 1.2
"""No arrow is drawn longer than that of so many times the full answer."""
TOLD_SHARE: Final = 0.3
"""Above this share of a full one an arrow has its name."""


def draw(snapshot: Snapshot, view: BenchView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return both engines, over each its name, and the arrows of push and answer."""
    free, column = layout.beside(MIDDLE)
    high = 58 * layout.unit * (0.4 + 0.6 * layout.font) + 6 * layout.unit
    seen_in = free.inset(6 * layout.unit)
    words = say(snapshot.looks.language, "bench.seen")
    room = free._replace(y=free.y + high, h=seen_room(words, seen_in, layout).y - free.y - high)
    sides = (view.rotary, view.fixed)
    shapes: list[Shape] = [_standing(free, room, figure, tuple(side.setup for side in sides))]
    shapes += [_swinging(side, room, figure) for side in sides]
    shapes += _spin(view.rotary, room, figure, layout.unit)
    for side, half in zip(sides, layout.row(room, (1.0, 1.0)), strict=True):
        at = _nose(side, room, figure)
        shapes += _moves(side, view, at, half, language=snapshot.looks.language, layout=layout)
    shapes += _titles(snapshot.looks.language, sides, free, layout)
    shapes += seen_from(words, seen_in, layout)
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
        place = STANDS_M[setup.kind] - parts.pivot
        benches.append(seen(parts.still, without_shadows(figure), _camera(room), turn=np.eye(3), place_m=place))
    return Layer(free, (*shed(free), *benches))


def turn(side: BenchEngineView) -> Numbers:
    """Return the matrix from the axes of a swung engine to north, east, down."""
    return about((0.0, 0.0, 1.0), side.right_rad) @ about((0.0, 1.0, 0.0), side.up_rad)


def _swinging(side: BenchEngineView, room: Rect, figure: Figure) -> Shape:
    parts, swung = bench(figure, side.setup), turn(side)
    place = STANDS_M[side.setup.kind] - swung @ parts.pivot
    angles = turned(side.shaft_rad)
    return seen(parts.swinging, without_shadows(figure), _camera(room), turn=swung, place_m=place, angles=angles)


def _nose(side: BenchEngineView, room: Rect, figure: Figure) -> Point:
    """Return where the end of a nose is seen [px]."""
    parts, camera = bench(figure, side.setup), _camera(room)
    place = turn(side) @ (parts.nose - parts.pivot) + STANDS_M[side.setup.kind]
    ((x, y),) = camera.project(camera.seen(place[None, :])).tolist()
    return x, y


def _spin(side: BenchEngineView, room: Rect, figure: Figure, unit: float) -> list[Shape]:
    """Return an arrow about what spins, in its sense as the pilot sees it."""
    radius_m, camera = SPIN_ARROW * figure.cylinders.outer_radius_m, _camera(room)
    (arc,) = spin_arcs(radius_m, side.setup.spin_rad_s, (SPIN_AT_RAD,))
    places = arc @ turn(side).T + STANDS_M[side.setup.kind]
    return bent(camera.project(camera.seen(places)).tolist(), unit)


def _moves(
    side: BenchEngineView, view: BenchView, at: Point, half: Rect, *, language: str, layout: Layout
) -> list[Shape]:
    """Return the mark of a nose with its name, or the push against it and how it moves, two arrows with theirs."""
    unit, who = layout.unit, side.setup.kind
    push, answer = complex(view.push_right, view.push_up), complex(side.right_rate, side.up_rate)
    level = abs(push.real) > abs(push.imag)
    aside = math.copysign(1.0, push.real if level else at[0] - half.center[0])
    arrows: list[Shape] = []
    names: list[Shape] = []
    moves = "it_answers" if push else "goes_back"
    for key, role, move, way in (("you_push", "ink", push, -1.0), (moves, who, answer, 1.0)):
        share = abs(move)
        if share < LEAST_SHARE:
            continue
        reach = way * REACH * unit * (0.5 + 0.5 * layout.font) * (0.5 + 0.5 * min(share, MOST_SHARE)) / share
        end = (at[0] + reach * move.real, at[1] - reach * move.imag)
        arrows += edged(at, end, role, unit) if way > 0.0 else edged(end, at, role, unit)
        if share >= TOLD_SHARE:
            words, others = say(language, f"bench.{key}"), [one.rect for one in names if isinstance(one, Block)]
            place = _clear(_beside(words, at, end, aside=aside, half=half, layout=layout), others, half.y, unit)
            names += tag(place, words, unit, ground=role)
    if not arrows:
        above = (at[0], at[1] - 10 * unit)
        words = say(language, "bench.nose")
        place = _beside(words, (at[0] - unit, above[1]), above, aside=aside, half=half, layout=layout)
        names = tag(place, words, unit, ground=who)
    mark = [Disc(*at, 12 * unit, "keyline"), Disc(*at, 9 * unit, who)]
    return [*arrows, *mark, *([Disc(*at, 5 * unit, "keyline")] if who == HOLLOW else []), *names]


def _beside(words: str, at: Point, end: Point, *, aside: float, half: Rect, layout: Layout) -> Rect:
    """Return where an arrow has its name: above the far end of one that lies, or beside it, to the side of a sign."""
    unit = layout.unit
    long, tall = wide(words, unit * layout.font), 30 * unit * layout.font
    level = abs(end[0] - at[0]) > abs(end[1] - at[1])
    x = end[0] if level else end[0] + aside * (22 * unit + 0.5 * long)
    y = end[1] - (20 * unit + 0.5 * tall) if level else end[1]
    left = min(max(x - 0.5 * long, half.x), half.right - long)
    top = min(max(y - 0.5 * tall, half.y), half.bottom - tall)
    return Rect(left, top, long, tall)


def _clear(place: Rect, others: Sequence[Rect], top: float, unit: float) -> Rect:
    """Return the place of a name moved over the others that it would meet, or below them where the top is near."""
    met = [other for other in others if place.overlaps(other)]
    if not met:
        return place
    above = min(other.y for other in met) - place.h - 4 * unit
    return place._replace(y=above if above >= top else max(other.bottom for other in met) + 4 * unit)


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
