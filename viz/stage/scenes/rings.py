"""The challenge: the airplane among its rings, and at the end what both flights took, side by side."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.units.text import fixed
from viz.stage import readings
from viz.stage.attitude import axes
from viz.stage.controls import MIDDLE
from viz.stage.palette import HOLLOW
from viz.stage.scenes.arrows import edged
from viz.stage.scenes.camera import NEAR_M, chase
from viz.stage.scenes.noses import nose, push, sight
from viz.stage.scenes.turning import angles, country, dressed, propeller_disc, still_country
from viz.stage.shapes import Block, Clip, Rect, Shape, Text
from viz.stage.solid.view import seen
from viz.words.say import numeral, say

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.course import Ring
    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.camera import Camera
    from viz.stage.snapshot import AirplaneView, Looks, RingsView, Run, Snapshot
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

PIECES: Final = 40
"""Straight pieces of a ring: each sorts among the faces of the airplane."""
NEXT, LATER, EDGE = "caution", "ink", "keyline"
"""Role of the ring that is next, of those after it, and of the dark edge of each."""
THICK_M: Final = 0.6
LEAST_PX, MOST_PX, EDGE_PX = 5.0, 26.0, 5.0
"""A ring is drawn no thinner and no thicker than this, and its edge so much wider, in units."""
BEHIND: Final = 1.004
"""The edge lies behind its piece: so many times as far from the eye."""
ROWS: Final = 2
"""Of the band below the picture: whose flight it is, and the rings."""
LETTERS: Final = 22.0
SMALL: Final = 18.0
BARS: Final = ("feet_left", "feet_right", "hand", "nose")
"""What both flights are compared by."""


def draw(snapshot: Snapshot, view: RingsView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the airplane among the rings with whose flight it is below it, or both flights compared."""
    looks = snapshot.looks
    if len(view.runs) > 1:
        return [compared(snapshot, view.runs, layout)]
    whole, column = layout.beside(MIDDLE)
    unit = layout.unit
    tall = ROWS * 26 * unit * layout.font
    free, below = whole._replace(h=whole.h - tall), whole._replace(y=whole.bottom - tall, h=tall)
    camera = chase(free, view.camera_heading_rad, figure.span_m)
    upper, lower = (row.inset(2 * unit) for row in layout.column(below, (-1.0, -1.0)))
    through = say(looks.language, "rings.count", through=sum(view.passed), rings=len(view.rings))
    words = (
        Block(below, "tag"),
        Text(upper, say(looks.language, f"turning.{view.who}"), view.who, 19 * unit, "center", bold=True),
        Text(lower, through, "ink", 17 * unit, "center"),
    )
    shapes: list[Shape] = [
        Clip(free, tuple(_picture(view, camera, figure, layout, steady=looks.steady))),
        Clip(below, words, still=True),
    ]
    if column.w > 0.0:
        heading = column._replace(h=38 * layout.font * unit)
        said = Text(heading, say(looks.language, "rings.pilot"), size=16 * unit, align="center", bold=True)
        shapes.append(Clip(heading, (Block(heading, "panel"), said), still=True))
    return shapes


def _picture(view: RingsView, camera: Camera, figure: Figure, layout: Layout, *, steady: bool) -> list[Shape]:
    plane, unit = view.plane, layout.unit
    turn = np.array(axes(plane.attitude)).T
    left = view.rings[len(view.passed) :]
    shown = left[:1] if steady else left
    among = with_rings(dressed(figure, view.who), shown, plane, camera, turn=turn, unit=unit)
    body = seen(among, figure, camera, turn=turn, angles=angles(plane))
    whirl = propeller_disc(camera, turn, figure)
    ahead = float((camera.eye_m @ turn)[0]) < figure.hub[0]
    pointed = nose(view.who, plane, camera, figure, scale_n_m=view.couple_scale_n_m)
    return [
        still_country(camera) if steady else country(camera, plane, turn, figure),
        *sight(pointed, pointed.hub, unit),
        *((whirl, body) if ahead else (body, whirl)),
        *push(pointed, unit),
        *(_pointer(left[0], plane, camera, unit) if left else ()),
    ]


def middle_m(ring: Ring, plane: AirplaneView) -> Numbers:
    """Return the middle of a ring from the airplane: north, east, down [m]."""
    return np.array([ring.north_m - plane.north_m, ring.east_m - plane.east_m, plane.height_m - ring.altitude_m])


def pieces_m(ring: Ring, plane: AirplaneView) -> Numbers:
    """Return the pieces of a ring from the airplane: north, east, down of both ends, shape (PIECES, 2, 3) [m]."""
    angle = np.linspace(0.0, math.tau, PIECES + 1)
    right = np.array([-math.sin(ring.heading_rad), math.cos(ring.heading_rad), 0.0])
    around = np.sin(angle)[:, None] * right - np.cos(angle)[:, None] * np.array([0.0, 0.0, 1.0])
    corners = middle_m(ring, plane) + ring.radius_m * around
    return np.stack([corners[:-1], corners[1:]], axis=1)


def with_rings(
    solid: Solid, rings: tuple[Ring, ...], plane: AirplaneView, camera: Camera, *, turn: Numbers, unit: float
) -> Solid:
    """Return a solid with rings about it, each piece a rod in front of a wider dark one, as far as they are ahead."""
    rods, widths, roles = [solid.rods], [solid.rod_width], [solid.rod_role]
    first = len(solid.roles)
    for place, ring in enumerate(rings):
        pieces = pieces_m(ring, plane)
        depth = camera.seen(pieces.reshape(-1, 3)).reshape(-1, 2, 3)[:, :, 0].min(axis=1)
        pieces, depth = pieces[depth > NEAR_M], depth[depth > NEAR_M]
        px = np.clip(THICK_M * camera.focal_px / depth, LEAST_PX * unit, MOST_PX * unit)
        for role, more, away in ((2, EDGE_PX * unit, BEHIND), (min(place, 1), 0.0, 1.0)):
            rods.append((camera.eye_m + away * (pieces - camera.eye_m)) @ turn)
            widths.append((px + more) * depth * away / camera.focal_px)
            roles.append(np.full(len(pieces), first + role))
    return replace(
        solid,
        roles=(*solid.roles, NEXT, LATER, EDGE),
        rods=np.concatenate(rods),
        rod_width=np.concatenate(widths),
        rod_role=np.concatenate(roles),
    )


def _pointer(ring: Ring, plane: AirplaneView, camera: Camera, unit: float) -> list[Shape]:
    """Return an arrow at the edge of the picture to the side where the next ring is, where it is out of sight."""
    ahead, right, _ = camera.seen(middle_m(ring, plane)[None, :])[0].tolist()
    view = camera.view
    x = camera.centre[0] + camera.focal_px * right / ahead if ahead > NEAR_M else math.copysign(math.inf, right)
    if view.x <= x <= view.right:
        return []
    way = math.copysign(1.0, right)
    edge = view.right if way > 0.0 else view.x
    y = view.y + 0.3 * view.h
    start, end = (edge - way * 90 * unit, y), (edge - way * 16 * unit, y)
    return edged(start, end, NEXT, unit)


def compared(snapshot: Snapshot, runs: tuple[Run, ...], layout: Layout) -> Clip:
    """Return both flights in one picture: work of feet and hand and the wander of the nose, a bar for each engine."""
    room, unit, looks = layout.stage, layout.unit, snapshot.looks
    pace = readings.pace(snapshot.pace, looks.language)
    inner = room.inset(14 * unit)
    tall = (104.0 if layout.upright else 64.0) * layout.font
    head, *rows = layout.column(inner, (tall, *(-1.0 for _ in BARS)))
    shapes: list[Shape] = [Block(room, "tag")]
    for place, run in zip(layout.row(head, (1.0, 1.0)), runs, strict=True):
        name, count = layout.column(place, (-2.0 if layout.upright else -1.0, -1.0))
        rings = say(looks.language, "rings.flown", through=run.through, rings=run.rings, pace=pace)
        shapes += [
            Text(name, say(looks.language, f"turning.{run.who}"), run.who, LETTERS * unit, "left", bold=True),
            Text(count, rings, "ink_quiet", SMALL * unit),
        ]
    for what, row in zip(BARS, rows, strict=True):
        shapes += _row(looks, what, runs, row, layout=layout)
    return Clip(room, tuple(shapes), still=True)


def _row(looks: Looks, what: str, runs: tuple[Run, ...], row: Rect, *, layout: Layout) -> list[Shape]:
    """Return what is compared in words, and a bar for each engine with its value."""
    unit = layout.unit
    words, room = layout.column(row, (34 * layout.font, -1.0)) if layout.upright else layout.row(row, (1.0, 1.7))
    found: list[Shape] = [Text(words, say(looks.language, f"rings.{what}"), "ink", LETTERS * unit, bold=True)]
    alike = [each for each in BARS if each.startswith("feet")] if what.startswith("feet") else [what]
    most = max(measure(each, run) for each in alike for run in runs)
    for place, run in zip(layout.column(room, (-1.0, -1.0)), runs, strict=True):
        bar, value = layout.row(place, (3.0, layout.font))
        share = measure(what, run) / most if most > 0.0 else 0.0
        filled = bar._replace(w=max(share * bar.w, 6 * unit)).inset(2 * unit)
        rim = 5 * unit if run.who == HOLLOW else 0.0
        found += [
            Block(bar.inset(2 * unit), "track"),
            Block(filled, run.who, rim=rim),
            Text(value, told(looks, what, run), "ink", SMALL * unit, bold=True),
        ]
    return found


def measure(what: str, run: Run) -> float:
    """Return what a flight took: mean work of feet or hand over full travel, or the wander of the nose [-, rad]."""
    effort = run.effort
    return {
        "feet_left": effort.feet_left_share,
        "feet_right": effort.feet_right_share,
        "hand": effort.hand_share,
        "nose": effort.wander_rad,
    }[what]


def told(looks: Looks, what: str, run: Run) -> str:
    """Return that as words."""
    value = measure(what, run)
    if what == "nose":
        return fixed("wander_rad", value, looks.units, 0)
    return numeral(f"{100.0 * value:.1f} %", looks.language)
