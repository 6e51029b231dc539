"""The flight: the airplane with the rotary, and beside it as a ghost the same one with the fixed engine."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.attitude import axes
from viz.stage.controls import MIDDLE
from viz.stage.palette import HOLLOW
from viz.stage.scenes.camera import TILT_RAD, chase
from viz.stage.scenes.feet import band, feet
from viz.stage.scenes.names import names, narrow, rooms
from viz.stage.scenes.noses import gap, nose, push, sight, told
from viz.stage.scenes.shadow import shadow
from viz.stage.scenes.whirl import whirl
from viz.stage.shapes import Block, Clip, Country, Shape, Text, Veil
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
    from viz.stage.scenes.noses import Nose
    from viz.stage.shapes import Point
    from viz.stage.snapshot import AirplaneView, Looks, Snapshot, TurningView
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

GHOST_SHARE: Final = 0.3
"""However far apart they fly, the ghost is drawn within this many spans of its place, so that both stay in sight."""
BESIDE: Final = ((0.5, -1.12, 0.0), (1.5, -0.82, 0.2))
"""That place beside the airplane in front, ahead, right and below, in spans: in a wide picture, in a narrow one."""
STRUTS: Final = 0.36
"""Where the outer struts are, over the span."""
STILL_PLACE_M: Final = (0.0, 0.0, 310.0)
"""Where the eye is over a country that stands still: north, east, height."""
TRAVEL_RAD: Final = {ELEVATOR: 0.45, RUDDER: 0.5, "aileron": 0.35, HEAD: 0.9}
"""How far a surface is drawn at its full travel, and the head at full rudder [rad]."""
RINGS: Final = ((0.1, 0.45, 0.42), (0.45, 0.93, 0.26), (0.93, 1.0, 0.5))
"""Rings of the propeller's disc: from and to over its radius, opacity."""


def draw(snapshot: Snapshot, view: TurningView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the picture, the work of both pilots below it, and the heading of the column at its side."""
    whole, column = layout.beside(MIDDLE)
    flown = layout.front != "attract"
    free = band(whole, layout)[0] if flown else whole
    camera = chase(free, view.camera_heading_rad, figure.span_m)
    language = snapshot.looks.language
    words = say(language, f"maneuver.{view.script}" if view.script else f"turning.flies_{view.hand}")
    heading = column._replace(h=38 * layout.font * layout.unit)
    shapes: list[Shape] = [Clip(free, tuple(_picture(snapshot.looks, view, camera, figure, layout=layout)))]
    if flown:
        shapes.append(feet(snapshot.looks, view, whole, layout))
    if column.w > 0.0:
        text = Text(heading, words, size=16 * layout.unit, align="center", bold=True)
        shapes.append(Clip(heading, (Block(heading, "panel"), text), still=True))
    return shapes


def _picture(looks: Looks, view: TurningView, camera: Camera, figure: Figure, *, layout: Layout) -> list[Shape]:
    rotary, fixed, unit, scale = view.rotary, view.fixed, layout.unit, view.couple_scale_n_m
    turn, other = (np.array(axes(plane.attitude)).T for plane in (rotary, fixed))
    apart = _apart(view, camera, figure)
    other_body = outline(ghost(figure), camera, HOLLOW, turn=other, place_m=apart, angles=angles(fixed))
    body = seen(dressed(figure, "rotary"), figure, camera, turn=turn, angles=angles(rotary))
    disc = propeller_disc(camera, turn, figure)
    ahead = float((camera.eye_m @ turn)[0]) < figure.hub[0]
    tips = {
        "rotary": _tip(camera, figure, 1.0, turn=turn),
        HOLLOW: _tip(camera, figure, -1.0, turn=other, place_m=apart),
    }
    noses = (
        nose(HOLLOW, fixed, camera, figure, scale_n_m=scale, place_m=apart),
        nose("rotary", rotary, camera, figure, scale_n_m=scale),
    )
    return [
        still_country(camera) if looks.steady else country(camera, rotary, turn, figure),
        *(gap(noses, unit) if view.parting else ()),
        *(shape for one in noses if view.parting for shape in sight(one, noses[-1].hub, unit)),
        other_body,
        *((disc, body) if ahead else (body, disc)),
        *(shape for one in noses for shape in push(one, unit)),
        *(_labels(looks.language, view, camera, noses, layout=layout, tips=tips) if layout.front != "attract" else ()),
    ]


def _tip(camera: Camera, figure: Figure, side: float, *, turn: Numbers, place_m: Numbers | float = 0.0) -> Point:
    """Return where the outer struts of an airplane are seen on a side, right positive [px]."""
    strut_m = np.array([[0.0, STRUTS * side * figure.span_m, 0.0]]) @ turn.T + place_m
    ((x, y),) = camera.project(camera.seen(strut_m)).tolist()
    return x, y


def _labels(
    language: str, view: TurningView, camera: Camera, noses: tuple[Nose, ...], *, layout: Layout, tips: dict[str, Point]
) -> list[Shape]:
    """Return whose airplanes they are, and what is told of their noses."""
    room = camera.view
    taken = tuple(rooms(room, layout, language).values())
    return [
        *names(tips, room, layout, language=language),
        *told(noses, view, room, layout, language=language, taken=taken),
    ]


def _apart(view: TurningView, camera: Camera, figure: Figure) -> Numbers:
    """Return where the ghost is drawn: beside the airplane, and by how far it has left it, up to a bound [m]."""
    away = np.array(view.apart_m)
    most = GHOST_SHARE * figure.span_m
    right = camera.basis[1]
    level = np.array([[right[1], -right[0], 0.0], right, [0.0, 0.0, 1.0]])
    beside_m = figure.span_m * np.array(BESIDE[narrow(camera.view)]) @ level
    return np.asarray(away * (most / (most + np.linalg.norm(away))) + beside_m)


@lru_cache(maxsize=4)
def dressed(figure: Figure, who: str) -> Solid:
    """Return the airplane with its metal nose in the colour of its engine."""
    plain = airplane(figure)
    return replace(plain, roles=tuple(who if role == "metal" else role for role in plain.roles))


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


def propeller_disc(camera: Camera, turn: Numbers, figure: Figure) -> Veil:
    """Return the propeller as a steady translucent disc, so that nothing flickers."""
    return whirl(camera, RINGS, figure.disc_radius_m, figure.hub, turn=turn, place_m=np.zeros(3))
