"""What turns and what stands: the noses of both airplanes, cowls off, seen from ahead, and their angular momentum."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage import readings
from viz.stage.controls import MIDDLE
from viz.stage.palette import HOLLOW
from viz.stage.scenes.arrows import ABOUT_CYLINDERS, bent, spin_arcs
from viz.stage.scenes.camera import studio
from viz.stage.scenes.schematic import fixed, rotary
from viz.stage.scenes.whirl import whirl
from viz.stage.shapes import Block, Clip, Facets, Layer, Polygon, Rect, Shape, Text, Veil
from viz.stage.solid.engine import middle_m
from viz.stage.solid.nose import nose, turned
from viz.stage.solid.solid import about
from viz.stage.solid.view import seen
from viz.words.say import say

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.live.engine import EnginePicture, EngineSetup
    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.shapes import Point
    from viz.stage.snapshot import EngineView, Snapshot
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

STANDS_M: Final = {"rotary": (0.0, -1.32, 0.0), "fixed": (0.0, 1.05, 0.0)}
"""Where the hubs of both noses are, north, east, down of the middle: clear of the drawings in the corners. [m]"""
WIDE_M: Final = 5.2
"""What the picture is wide at the noses, at least. [m]"""
TALL_M: Final = 2.45
"""What it is high there, at least: a low, wide window shows more at the sides. [m]"""
ASIDE_RAD, ABOVE_RAD = 0.35, 0.13
"""From where each nose is seen: to the airplane's right, and from above. [rad]"""
TURN: Final = about((0.0, 0.0, 1.0), math.pi + ASIDE_RAD)
"""From body axes to north, east, down: the airplanes look south into the sun, a little past the camera."""
WALL, FLOOR = 18, 12
"""Bands in which light falls off on the wall and on the floor of the shed."""
SKIRTING: Final = 0.72
"""Height at which the wall meets the floor, over that of the picture from above."""
BLURRED: Final = ((0.06, 0.3, 0.2), (0.3, 0.93, 0.16), (0.93, 1.0, 0.34))
"""Rings in which what is too quick for the eye is drawn: from and to over the radius, opacity."""
AHEAD_M: Final = (0.12, 0.0, 0.0)
"""Where the arrow of the fixed engine, and what is blurred, stand, from the hub. [m]"""
SHAFT_ARROW_M: Final = 0.24
"""Radius of the arrow about the shaft of the fixed engine. [m]"""
FLAT: Final = 0.5
"""Height of the drawing of a flat engine over its width."""
INSIDE: Final = 0.44, 0.42
"""Height of the drawing of what is inside, at most: over that of the picture, and over the width of half of it."""
LETTERS, LEGEND = 17.0, 15.0
ROWS: Final = ((0.0, 0.36), (0.36, 0.36), (0.78, 0.22))
"""Rows of what is told of an engine: from where and how high, over the height of all: weight, spin, its bar."""


class _Side(NamedTuple):
    """One of both: the engine, and how blurred it is."""

    kind: str
    engine: EnginePicture
    blur: float

    @property
    def hub_m(self) -> Numbers:
        """Where its hub is [m]."""
        return np.array(STANDS_M[self.kind])


def draw(snapshot: Snapshot, view: EngineView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the picture of both noses, and below it each engine's name and angular momentum."""
    whole, _ = layout.beside(MIDDLE)
    step = 26 * layout.unit * layout.font
    foot = whole._replace(y=whole.bottom - 3 * step, h=3 * step)
    free = whole._replace(h=foot.y - whole.y)
    sides = _Side("rotary", view.rotary, view.rotary_blur), _Side("fixed", view.fixed, view.fixed_blur)
    most = max(_most_momentum(each.engine) for each in sides)
    halves = layout.row(foot, (1.0, 1.0))
    high = _title_high(layout) + 6 * layout.unit
    room = free._replace(y=free.y + high, h=free.h - high)
    shed = _shed(free, room, figure, tuple(side.engine.setup for side in sides))
    noses = _noses(sides, room, figure, layout.unit)
    return [
        Clip(free, (shed, *noses, *_words(snapshot, sides, free, layout))),
        *(_momentum(snapshot, side, half, layout, most=most) for side, half in zip(sides, halves, strict=True)),
    ]


def _most_momentum(engine: EnginePicture) -> float:
    return engine.setup.polar_inertia_kg_m2 * engine.setup.full_speed_rad_s


@lru_cache(maxsize=4)
def _shed(free: Rect, room: Rect, figure: Figure, setups: tuple[EngineSetup, ...]) -> Layer:
    """Return the shed, a wall that gets lighter downward and a floor, with what stands of both noses in its room."""
    shapes = shed(free)
    shapes += [_seen(nose(figure, setup).still, setup.kind, room, figure) for setup in setups]
    return Layer(free, tuple(shapes))


def shed(free: Rect) -> list[Shape]:
    """Return the wall and the floor of the shed."""
    edge = free.y + SKIRTING * free.h
    shapes: list[Shape] = []
    for role, top, bottom, count, least in (
        ("wall", free.y, edge, WALL, 0.55),
        ("floor", edge, free.bottom, FLOOR, 0.7),
    ):
        tall = (bottom - top) / count
        for number in range(count):
            band = Rect(free.x, top + number * tall, free.w + 1.0, tall + 1.0)
            shapes.append(Polygon(_corners(band), role, least + (1.0 - least) * number / count, smooth=False))
    return shapes


def _corners(rect: Rect) -> tuple[Point, ...]:
    return (rect.x, rect.y), (rect.right, rect.y), (rect.right, rect.bottom), (rect.x, rect.bottom)


def _noses(sides: tuple[_Side, ...], room: Rect, figure: Figure, unit: float) -> list[Shape]:
    camera = _camera(room)
    shapes: list[Shape] = []
    for side in sides:
        if side.kind == "rotary":
            shapes += _arrows(camera, side, figure, unit)
        if side.blur > 0.0:
            shapes.append(_blurred(camera, side))
        else:
            turning = nose(figure, side.engine.setup).turning
            shapes.append(_seen(turning, side.kind, room, figure, angles=turned(side.engine.shaft_rad)))
        if side.kind == "fixed":
            shapes += _arrows(camera, side, figure, unit)
    return shapes


@lru_cache(maxsize=4)
def _camera(room: Rect) -> Camera:
    return studio(room, above_rad=ABOVE_RAD, wide_m=max(WIDE_M, TALL_M * room.w / room.h))


def _seen(solid: Solid, kind: str, room: Rect, figure: Figure, *, angles: Mapping[str, float] | None = None) -> Facets:
    """Return a part of the nose of an engine of a kind as it is seen in the shed."""
    place = STANDS_M[kind] - TURN @ np.array(figure.hub)
    return seen(solid, without_shadows(figure), _camera(room), turn=TURN, place_m=place, angles=angles)


def _title_high(layout: Layout) -> float:
    """Return the height of what is told over a nose [px]."""
    return 58 * layout.unit * (0.4 + 0.6 * layout.font)


@lru_cache(maxsize=4)
def without_shadows(figure: Figure) -> Figure:
    """Return the figure without what would throw a shadow: neither wings nor fuselage stand in the shed."""
    return replace(figure, wings=(), body=replace(figure.body, nose_m=-1e3, stern_m=-1e3 - 1.0))


def _blurred(camera: Camera, side: _Side) -> Veil:
    """Return what is too quick for the eye, as a steady translucent disc."""
    radius_m = side.engine.setup.disc_radius_m
    return whirl(camera, BLURRED, radius_m, AHEAD_M, turn=TURN, place_m=side.hub_m)


def _arrows(camera: Camera, side: _Side, figure: Figure, unit: float) -> list[Shape]:
    """Return arrows round what turns: behind the propeller about the cylinders, or before it about the shaft."""
    spin = side.engine.spin_rad_s
    if spin == 0.0:
        return []
    if side.kind == "rotary":
        radius_m, place_m = (
            ABOUT_CYLINDERS * figure.cylinders.outer_radius_m,
            (middle_m(figure) - figure.hub[0], 0.0, 0.0),
        )
    else:
        radius_m, place_m = SHAFT_ARROW_M, AHEAD_M
    places = np.add(spin_arcs(radius_m, spin, (0.0, math.pi)), place_m) @ TURN.T + side.hub_m
    return [shape for arc in places for shape in bent(camera.project(camera.seen(arc)).tolist(), unit)]


def _words(snapshot: Snapshot, sides: tuple[_Side, ...], free: Rect, layout: Layout) -> list[Shape]:
    """Return over each nose what turns in it, and in the corner what is inside."""
    language, unit = snapshot.looks.language, layout.unit
    size = min(INSIDE[0] * free.h, INSIDE[1] * 0.5 * free.w)
    tall = _title_high(layout)
    between = free.inset(8 * unit)
    between = between._replace(x=between.x + size + 8 * unit, w=between.w - 2 * (size + 8 * unit))
    shapes = seen_from(say(language, "engine.seen"), between, layout)
    for side, half in zip(sides, layout.row(free, (1.0, 1.0)), strict=True):
        title = Rect(half.x + 6 * unit, half.y + 6 * unit, half.w - 12 * unit, tall)
        left = half.x + 8 * unit if side.kind == "rotary" else half.right - 8 * unit - size
        high = size if side.kind == "rotary" else FLAT * size
        inside = Rect(left, free.bottom - high - 8 * unit, size, high)
        legend = 2.6 * LEGEND * unit * layout.font
        plate = inside._replace(y=inside.y - legend, h=high + legend)
        words = say(language, f"engine.legend_{side.kind}")
        parts = (rotary if side.kind == "rotary" else fixed)(side.engine, inside, side.blur, size / 400.0)
        shapes += [
            Block(title, "tag"),
            Text(title, say(language, f"engine.{side.kind}"), side.kind, 20 * unit, "center", bold=True),
            Block(plate, "tag"),
            Block(plate, "panel_edge", rim=unit),
            Text(plate._replace(h=legend).inset(2 * unit), words, "ink", LEGEND * unit, "center"),
            Clip(inside, tuple(parts)),
        ]
    return shapes


def seen_from(words: str, room: Rect, layout: Layout) -> list[Shape]:
    """Return along the lower edge of a room from where it is seen."""
    plate = seen_room(words, room, layout)
    return [Block(plate, "tag"), Text(plate.inset(2 * layout.unit), words, "ink", LEGEND * layout.unit, "center")]


def seen_room(words: str, room: Rect, layout: Layout) -> Rect:
    """Return the place of these words, in as many lines as they take."""
    grown = layout.unit * layout.font
    long = 0.62 * LEGEND * grown * len(words) + 12 * grown
    tall = (1.3 * LEGEND * math.ceil(long / room.w) + 6.0) * grown
    return Rect(room.center[0] - 0.5 * min(long, room.w), room.bottom - tall, min(long, room.w), tall)


def _momentum(snapshot: Snapshot, side: _Side, foot: Rect, layout: Layout, *, most: float) -> Clip:
    """Return how heavy what turns is, and its angular momentum in words and as a bar, both engines to one scale."""
    unit, language = layout.unit, snapshot.looks.language
    inner = foot.inset(4 * unit)
    upper, lower, bar = (inner._replace(y=inner.y + inner.h * start, h=inner.h * tall) for start, tall in ROWS)
    size = side.engine.angular_momentum_kg_m2_s
    mass_kg = side.engine.setup.turning_mass_kg
    wheels = say(language, "engine.wheels", wheels=readings.wheels(size))
    weight = "" if math.isnan(mass_kg) else say(language, "engine.turns", mass=readings.mass(mass_kg, snapshot.looks))
    items = (
        Block(foot, "back"),
        Text(upper, weight, side.kind, LETTERS * unit, bold=True),
        Text(lower, wheels, side.kind, LETTERS * unit, bold=True),
        Block(bar, "track"),
        Block(bar, "panel_edge", rim=unit),
        Block(bar._replace(w=bar.w * abs(size) / most), side.kind, rim=4 * unit * (side.kind == HOLLOW)),
    )
    return Clip(foot, items, still=True)
