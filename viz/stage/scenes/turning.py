"""One stick, two engines: the airplane with the rotary, and as a ghost the same one with the fixed engine."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.attitude import axes
from viz.stage.controls import MIDDLE
from viz.stage.palette import HOLLOW
from viz.stage.scenes.camera import TILT_RAD, chase
from viz.stage.scenes.instruments import band, instruments
from viz.stage.scenes.shadow import shadow
from viz.stage.scenes.whirl import whirl
from viz.stage.shapes import Block, Clip, Country, Disc, Line, Polygon, Shape, Text, Veil
from viz.stage.solid.airplane import airplane, ghost
from viz.stage.solid.pilot import HEAD
from viz.stage.solid.tail import ELEVATOR, RUDDER
from viz.stage.solid.view import outline, seen
from viz.words.say import say

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.shapes import Point
    from viz.stage.snapshot import AirplaneView, Snapshot, TurningView

    Numbers = NDArray[np.float64]

ARROW_LONG: Final = 1.2
"""No arrow is drawn longer than this many times the full one."""
TRAIL_EVERY: Final = 3
"""Of the marks of a trail, every so many are drawn."""
LEAST_SHARE: Final = 0.04
"""A couple below this share of the full arrow is not drawn."""
GHOST_SHARE: Final = 0.9
"""However far apart they fly, the ghost is drawn within this many spans, so that both noses stay in the picture."""
STILL_PLACE_M: Final = (0.0, 0.0, 310.0)
"""Where the eye is over a country that stands still: north, east, height."""
TRAVEL_RAD: Final = {ELEVATOR: 0.45, RUDDER: 0.5, "aileron": 0.35, HEAD: 0.9}
"""How far a surface is drawn at its full travel, and the head at full rudder [rad]."""
RINGS: Final = ((0.1, 0.45, 0.42), (0.45, 0.93, 0.26), (0.93, 1.0, 0.5))
"""Rings of the propeller's disc: from and to over its radius, opacity."""


def draw(snapshot: Snapshot, view: TurningView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the picture, the work of both pilots below it, and the heading of the column at its side."""
    whole, column = layout.beside(MIDDLE)
    told = layout.front != "attract"
    free = band(whole, layout)[0] if told else whole
    camera = chase(free, view.camera_heading_rad, figure.span_m)
    language = snapshot.looks.language
    words = say(language, f"maneuver.{view.script}" if view.script else f"turning.flies_{view.hand}")
    heading = column._replace(h=38 * layout.font * layout.unit)
    shapes: list[Shape] = [Clip(free, tuple(_picture(view, camera, figure, layout, steady=snapshot.looks.steady)))]
    if told:
        shapes += instruments(snapshot.looks, view, whole, layout)
    if column.w > 0.0:
        text = Text(heading, words, size=16 * layout.unit, align="center", bold=True)
        shapes.append(Clip(heading, (Block(heading, "panel"), text), still=True))
    return shapes


def _picture(view: TurningView, camera: Camera, figure: Figure, layout: Layout, *, steady: bool) -> list[Shape]:
    rotary, fixed = view.rotary, view.fixed
    turn, other = (np.array(axes(plane.attitude)).T for plane in (rotary, fixed))
    apart = _apart(view, figure)
    solid, unit = airplane(figure), layout.unit
    scale = view.couple_scale_n_m
    other_body = outline(ghost(figure), camera, "fixed", turn=other, place_m=apart, angles=angles(fixed))
    body = seen(solid, figure, camera, turn=turn, angles=angles(rotary))
    disc = propeller_disc(camera, turn, figure)
    ahead = float((camera.eye_m @ turn)[0]) < figure.hub[0]
    return [
        still_country(camera) if steady else country(camera, rotary, turn, figure),
        *trail(fixed, camera, unit, who="fixed"),
        *trail(rotary, camera, unit, who="rotary"),
        other_body,
        *((disc, body) if ahead else (body, disc)),
        *push(fixed, camera, other, who="fixed", scale_n_m=scale, figure=figure, unit=unit, place_m=apart),
        *push(rotary, camera, turn, who="rotary", scale_n_m=scale, figure=figure, unit=unit, place_m=np.zeros(3)),
    ]


def _apart(view: TurningView, figure: Figure) -> Numbers:
    """Return where the ghost is drawn: how far it has left the other while that is near, never beyond a bound [m]."""
    away = np.array(view.apart_m)
    most = GHOST_SHARE * figure.span_m
    return np.asarray(away * (most / (most + np.linalg.norm(away))))


def angles(plane: AirplaneView) -> dict[str, float]:
    """Return how far surfaces and head are turned: right-handed about axes to the right and down."""
    aileron = TRAVEL_RAD["aileron"] * plane.aileron_share
    sides = {f"aileron{number}{side}": way * aileron for number in range(4) for side, way in (("l", 1.0), ("r", -1.0))}
    return {
        ELEVATOR: -TRAVEL_RAD[ELEVATOR] * plane.elevator_share,
        RUDDER: -TRAVEL_RAD[RUDDER] * plane.rudder_share,
        HEAD: TRAVEL_RAD[HEAD] * plane.aileron_share,
        **sides,
    }


def country(camera: Camera, plane: AirplaneView, turn: Numbers, figure: Figure) -> Country:
    """Return the country under an airplane, with its shadow."""
    north, east, down = camera.eye_m.tolist()
    heading = math.atan2(camera.basis[0, 1], camera.basis[0, 0])
    return Country(
        camera.view,
        plane.north_m + north,
        plane.east_m + east,
        plane.height_m - down,
        heading,
        TILT_RAD,
        camera.focal_px,
        camera.horizon_y,
        camera.centre,
        shadow(figure, camera, turn, plane.height_m),
    )


def still_country(camera: Camera) -> Country:
    """Return a country that stands still, whatever is flown over it: for who is not at ease with motion."""
    return Country(camera.view, *STILL_PLACE_M, 0.0, TILT_RAD, camera.focal_px, camera.horizon_y, camera.centre)


def trail(plane: AirplaneView, camera: Camera, unit: float, *, who: str) -> list[Shape]:
    """Return where the nose has pointed, as a line on the sky, and a ring where it points now."""
    chains: list[list[Point]] = [[]]
    *trail, now = camera.far((*plane.trail[::-1][::TRAIL_EVERY], axes(plane.attitude)[0]))
    for point in trail:
        if point is None:
            chains.append([])
        else:
            chains[-1].append(point)
    lines: list[Shape] = []
    for chain in chains:
        if len(chain) > 1:
            strokes = ((8, "keyline"), (5, who), (2, "keyline" if who == HOLLOW else who))
            lines += [Line(tuple(chain), role, wide * unit) for wide, role in strokes]
    if now is None:
        return lines
    rim = (5 * unit, 3 * unit) if who == HOLLOW else (0.0, 0.0)
    return [*lines, Disc(*now, 9 * unit, "keyline", rim=rim[0]), Disc(*now, 8 * unit, who, rim=rim[1])]


def propeller_disc(camera: Camera, turn: Numbers, figure: Figure) -> Veil:
    """Return the propeller as a steady translucent disc, so that nothing flickers."""
    return whirl(camera, RINGS, figure.disc_radius_m, figure.hub, turn=turn, place_m=np.zeros(3))


def push(
    plane: AirplaneView,
    camera: Camera,
    turn: Numbers,
    *,
    who: str,
    scale_n_m: float,
    figure: Figure,
    unit: float,
    place_m: Numbers,
) -> list[Shape]:
    """Return the push on the nose as an arrow that starts at the hub and points where the nose is pushed."""
    right, up = plane.yaw_n_m / scale_n_m, plane.pitch_n_m / scale_n_m
    share = math.hypot(right, up)
    if share < LEAST_SHARE:
        return []
    reach = 0.42 * figure.span_m * min(1.0, ARROW_LONG / share)
    tail = np.array(figure.hub)
    points = np.stack([tail, tail + np.array([0.0, right * reach, -up * reach])])
    start, end = map(tuple, camera.project(camera.seen(points @ turn.T + place_m)).tolist())
    core = arrow(start, end, "keyline", unit, over=-2.4) if who == HOLLOW else []
    return [*arrow(start, end, "keyline", unit, over=4.0), *arrow(start, end, who, unit), *core]


def arrow(start: Point, end: Point, role: str, unit: float, *, over: float = 0.0) -> list[Shape]:
    """Return an arrow from one point to another with a head that a visitor sees from afar.

    Its edge is moved out by `over` units; one moved in is the core of a hollow arrow, none of which is left in a short
    one.
    """
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    length = math.hypot(along_x, along_y) or 1.0
    ux, uy = along_x / length, along_y / length
    over *= unit
    head = min(26 * unit, 0.7 * length)
    neck = (end[0] - ux * head, end[1] - uy * head)
    half = 0.62 * head + 1.5 * over
    if half <= 0.0:
        return []
    tip, base = (end[0] + 1.5 * over * ux, end[1] + 1.5 * over * uy), (neck[0] - over * ux, neck[1] - over * uy)
    corners = (tip, (base[0] - uy * half, base[1] + ux * half), (base[0] + uy * half, base[1] - ux * half))
    return [Line((start, neck), role, (9 * unit) + 1.6 * over), Polygon(corners, role)]
