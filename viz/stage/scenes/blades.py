"""Between the blades: over the cowl, the gun behind the propeller, its cam, and where the blade will be."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.gun_states import cam_state, gun_state, lift
from viz.stage.scenes.over_cowl import ZONE, over_cowl
from viz.stage.scenes.rounds import places, round_at, strike
from viz.stage.scenes.tags import tag, wide
from viz.stage.scenes.tally import tally
from viz.stage.scenes.whirl import whirl
from viz.stage.scenes.zones import open_arcs, zones
from viz.stage.shapes import Block, Clip, Disc, Layer, Line, Rect, Shape, Veil
from viz.stage.solid.cam import CAM, LIFT_M, cam, follower
from viz.stage.solid.gun_nose import gun, nose, stern
from viz.stage.solid.propeller import PROPELLER, propeller
from viz.stage.solid.view import outline, seen
from viz.words.say import say

if TYPE_CHECKING:
    from sim.live.figure_parts import Figure
    from viz.stage.gun_states import CamState
    from viz.stage.layout import Layout
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.snapshot import BladesView, Snapshot
    from viz.stage.solid.solid import Solid

    Arc = tuple[float, float]

STILL = np.eye(3)
HERE = np.zeros(3)
BLURRED = 0.3
"""From this blur on the propeller is drawn as a disc."""
SECTORS = 48
DISC_SHARE = 0.3
UPRIGHT = 1.4
TAGS = {"now": "now", "not_now": "wait", "none": "strike", "fast": "steel"}


def draw(snapshot: Snapshot, view: BladesView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the nose, what flies past it, the labels, and the visitor's own rounds on the timing disc."""
    room, side = parts(layout)
    over = over_cowl(view, figure, picture_rect(room, side, layout.unit))
    arcs = open_arcs(view, over.sense)
    shapes = [
        _backdrop(over, layout.stage, arcs, closed_rad=round(view.gun.line.closed_rad, 4), unit=layout.unit),
        *_disc(view, over, layout.unit),
        *_nose(view, over, snapshot.gear, room),
        *_near(view, over, layout.unit, steady=snapshot.looks.steady),
        *_tags(snapshot, view, over, room=room, layout=layout),
        *(tally(snapshot, view, side, layout) if side.w > 0.0 else ()),
    ]
    return [Clip(layout.stage, tuple(shapes))]


def parts(layout: Layout) -> tuple[Rect, Rect]:
    """Return the room of the picture and that of the timing disc: on its right, or below it in an upright window.

    In the attract loop there is no visitor whose rounds it could show.
    """
    if layout.front == "attract":
        return layout.stage, Rect(layout.stage.right, layout.stage.bottom, 0.0, 0.0)
    stage, gap = layout.stage, 6 * layout.unit
    if stage.h > stage.w:
        side = min(0.3 * stage.h, 0.42 * stage.w)
        return stage._replace(h=stage.h - side - gap), stage._replace(y=stage.bottom - side, h=side)
    wide = min(0.25 * stage.w * (0.7 + 0.3 * layout.font), 0.34 * stage.w)
    return stage, Rect(stage.right - wide, stage.y, wide, min(1.0, 0.1 + 0.6 * layout.font) * stage.h)


def picture_rect(room: Rect, side: Rect, unit: float) -> Rect:
    """Return what disc and gun fill of the room of the picture: labels stand about them."""
    right = side.x if side.y < room.bottom and side.x > room.x else room.right
    top = 40 * unit
    return Rect(room.x + 10 * unit, room.y + top, right - room.x - 20 * unit, room.h - top - 8 * unit)


@lru_cache(maxsize=2)
def _backdrop(over: OverCowl, rect: Rect, arcs: tuple[Arc, ...], *, closed_rad: float, unit: float) -> Layer:
    """Return what stands behind everything that moves: the zones, and the fuselage, which no blade is seen before."""
    fuselage = seen(stern(over.cowl_m), over.figure, over.camera, turn=STILL)
    return Layer(rect, (Block(rect, "back"), *zones(over, arcs, closed_rad, unit), fuselage))


def _disc(view: BladesView, over: OverCowl, unit: float) -> list[Shape]:
    """Return what is beyond the nose: rounds past the disc, the ghost, and the blades."""
    shapes = [shape for x in places(view) if x > 0.0 for shape in round_at(over, x, unit)]
    solid = propeller(view.blade, view.gun.line.blades, over.disc_m, over.sense)
    if view.blur > BLURRED:
        return [*shapes, _veil(over)]
    if view.arrival_rad is not None:
        angles = {PROPELLER: over.turn_rad(view.arrival_rad)}
        shapes.append(outline(solid, over.camera, "ghost", turn=STILL, place_m=HERE, angles=angles))
    angles = {PROPELLER: over.turn_rad(view.angle_rad)}
    return [*shapes, seen(solid, over.figure, over.camera, turn=STILL, angles=angles)]


@lru_cache(maxsize=2)
def _veil(over: OverCowl) -> Veil:
    rings, hub_m = ((0.12 / over.disc_m, 1.0, DISC_SHARE),), (0.0, 0.0, 0.0)
    return whirl(over.camera, rings, over.disc_m, hub_m, turn=STILL, place_m=HERE, role="wood", sectors=SECTORS)


def _nose(view: BladesView, over: OverCowl, gear: str, room: Rect) -> list[Shape]:
    """Return cowl and fuselage, the cam and its follower in the cut, and the gun over them."""
    shapes: list[Shape] = [_still(nose(over.cowl_m), over, room)]
    windows, action, turns = view.gun.windows_rad, view.gun.line.action, view.gun.cam.period_turns
    if gear != "none" and view.blur <= BLURRED:
        angles = {CAM: over.sense * view.angle_rad / turns}
        shapes.append(
            seen(cam(windows, action, turns, over.sense), over.figure, over.camera, turn=STILL, angles=angles)
        )
        raised = np.array([0.0, 0.0, -LIFT_M * lift(windows, view.angle_rad, action, turns)])
        shapes.append(seen(follower(over.cowl_m), over.figure, over.camera, turn=STILL, place_m=raised))
    y, z = over.line_yz_m
    return [*shapes, _still(gun(y, z, over.cowl_m), over, room)]


@lru_cache(maxsize=4)
def _still(solid: Solid, over: OverCowl, room: Rect) -> Layer:
    """Return what never moves, as one picture no larger than it."""
    facets = seen(solid, over.figure, over.camera, turn=STILL)
    low, high = facets.corners.min(axis=(0, 1)) - 3.0, facets.corners.max(axis=(0, 1)) + 3.0
    left, top = max(math.floor(low[0]), math.floor(room.x)), max(math.floor(low[1]), math.floor(room.y))
    right, bottom = min(math.ceil(high[0]), math.ceil(room.right)), min(math.ceil(high[1]), math.ceil(room.bottom))
    return Layer(Rect(left, top, right - left, bottom - top), (facets,), clear=True)


def _near(view: BladesView, over: OverCowl, unit: float, *, steady: bool) -> list[Shape]:
    """Return the line of fire up to the disc, the round on it, and splinters."""
    ends = (over.muzzle, over.on_line(0.0))
    shapes: list[Shape] = [
        Line(ends, "keyline", 5 * unit),
        Line(ends, "round", 2 * unit),
        Disc(*ends[1], 14 * unit, "round", rim=2 * unit),
    ]
    for x in places(view):
        if x <= 0.0:
            shapes += round_at(over, x, unit)
    return [*shapes, *strike(view, over, unit, still=steady)]


def told_cam(snapshot: Snapshot, view: BladesView) -> CamState:
    """Return what is told of the cam: its state, or that it is too fast to be seen."""
    return "fast" if view.blur > BLURRED else cam_state(view, snapshot.gear)


def _tags(snapshot: Snapshot, view: BladesView, over: OverCowl, *, room: Rect, layout: Layout) -> list[Shape]:
    """Return the labels: of both zones, of cam and gun, and of the ghost."""
    language, unit = snapshot.looks.language, lettering_unit(layout)
    told, tall = told_cam(snapshot, view), 34 * unit * layout.font
    doing, cam = (say(language, f"blades.{key}") for key in (f"gun_{gun_state(view)}", f"cam_{told}"))
    shapes: list[Shape] = []
    if told != "fast" and view.arrival_rad is not None:
        shapes += _ghost_tag(language, view, over, layout, arrival_rad=view.arrival_rad)
    shapes += _zone_tags(language, over, open_arcs(view, over.sense), room=layout.stage, unit=unit, font=layout.font)
    cam_x, cam_y = over.cam_at
    low = min(over.on_disc(1.2 * over.disc_m, math.pi)[1], room.bottom - tall - 8 * unit)
    long = max(wide(cam, unit * layout.font), 256 * unit)
    left = min(max(room.x + 8 * unit, cam_x - 0.5 * long), room.right - long - 8 * unit)
    place = Rect(left, min(max(low, cam_y + 2 * tall), room.bottom - tall - 8 * unit), long, tall)
    shapes += tag(place, cam, unit, ground=TAGS[told], to=over.cam_at)
    if told == "fast":
        return shapes
    gun_x, gun_y = over.on_line(-1.9)
    long = max(wide(doing, unit * layout.font), 256 * unit)
    left = min(gun_x - 0.22 * long, over.camera.view.right - long)
    place, ghost = Rect(left, gun_y - 3.1 * tall, long, tall), _ghost_rect(language, over, layout)
    if place.overlaps(ghost):
        place = place._replace(y=ghost.bottom + 4 * unit)
    return [*shapes, *tag(place, doing, unit, to=(gun_x, gun_y - 8 * unit))]


def lettering_unit(layout: Layout) -> float:
    """Return the unit of labels, larger in an upright window, which has the room."""
    return layout.unit * (UPRIGHT if layout.stage.h > layout.stage.w else 1.0)


def _zone_tags(
    language: str, over: OverCowl, arcs: tuple[Arc, ...], *, room: Rect, unit: float, font: float
) -> list[Shape]:
    """Return what a blade's place on arrival means: at the line of fire, and in the open arc that is farthest left."""
    tall, grown = 30 * unit * font, unit * font
    shapes = tag(
        _wait_rect(language, over, room=room, unit=unit, font=font), say(language, "blades.wait"), unit, ground="wait"
    )
    if arcs and arcs[0][1] - arcs[0][0] < 6.0:
        spots = [over.on_disc(0.75 * over.disc_m, over.bore_rad + 0.5 * (start + end)) for start, end in arcs]
        (x, y), words = min(spots), say(language, "blades.go")
        half = 0.5 * wide(words, grown)
        rect = Rect(max(x - half, room.x + 4 * unit), y - 0.5 * tall, 2 * half, tall)
        shapes += tag(rect, words, unit, ground="now")
    return shapes


def _wait_rect(language: str, over: OverCowl, *, room: Rect, unit: float, font: float) -> Rect:
    x, y = over.on_disc(ZONE * over.disc_m, over.bore_rad)
    tall, half = 30 * unit * font, 0.5 * wide(say(language, "blades.wait"), unit * font)
    return Rect(x - half, max(y - tall - 4 * unit, room.y + 4 * unit), 2 * half, tall)


def _ghost_rect(language: str, over: OverCowl, layout: Layout) -> Rect:
    """Return where the label of the ghost stands: left of that of the zone, or right of it where there is more room."""
    unit, font, stage = lettering_unit(layout), layout.font, layout.stage
    beside, gap = _wait_rect(language, over, room=stage, unit=unit, font=font), 8 * unit
    most = wide(say(language, "blades.ghost"), unit * font)
    left, right = stage.x + gap, beside.right + gap
    room = beside.x - gap - left
    if most > room < over.camera.view.right - right:
        left, room = right, over.camera.view.right - right
    lines = 1 if most < room else 2 if 0.6 * most < room else 3
    return Rect(left, stage.y + 4 * unit, min(most, room), (8 + 26 * lines) * unit * font)


def _ghost_tag(language: str, view: BladesView, over: OverCowl, layout: Layout, *, arrival_rad: float) -> list[Shape]:
    """Return the label of the ghost, with a line to that of its blades which is nearest to the line of fire."""
    near = math.remainder(arrival_rad, math.tau / view.gun.line.blades)
    tip = over.on_disc(0.97 * over.disc_m, over.turn_rad(near))
    rect, words = _ghost_rect(language, over, layout), say(language, "blades.ghost")
    return tag(rect, words, lettering_unit(layout), ground="ghost", to=tip)
