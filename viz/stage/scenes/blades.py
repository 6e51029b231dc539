"""Between the blades: over the cowl, the guns behind the propeller, their cams, and where the blade will be."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.gun_states import blurred, cam_state, raised
from viz.stage.scenes.chain import ROLES, chain
from viz.stage.scenes.ghost import ghost
from viz.stage.scenes.gun_labels import labels
from viz.stage.scenes.line_of_fire import beyond, up_to_disc
from viz.stage.scenes.muzzle import flash
from viz.stage.scenes.over_cowl import seen_guns, told
from viz.stage.scenes.rounds import places, round_at, strike
from viz.stage.scenes.tally import tally
from viz.stage.scenes.whirl import whirl
from viz.stage.shapes import Block, Clip, Layer, Line, Rect, Shape, Veil
from viz.stage.solid.cam import CAM, LIFT_M, cam, follower
from viz.stage.solid.gun_nose import gun as gun_solid
from viz.stage.solid.gun_nose import nose, stern
from viz.stage.solid.parts import circle
from viz.stage.solid.propeller import PROPELLER, propeller
from viz.stage.solid.view import seen

if TYPE_CHECKING:
    from sim.live.figure_parts import Figure
    from viz.stage.layout import Layout
    from viz.stage.scenes.over_cowl import OverCowl, SeenGun
    from viz.stage.snapshot import BladesView, Snapshot
    from viz.stage.solid.solid import Solid

STILL = np.eye(3)
HERE = np.zeros(3)
SECTORS = 48
DISC_SHARE = 0.3


def draw(snapshot: Snapshot, view: BladesView, layout: Layout, figure: Figure) -> list[Shape]:
    """Return the nose, what flies past it, the labels, and the visitor's own rounds on the timing disc."""
    room, side = parts(layout)
    guns = seen_guns(view, snapshot.gear, figure, picture_rect(room, side, layout.unit))
    shapes = [
        _backdrop(guns[0].over, layout.stage, layout.unit),
        *_disc(guns, told(guns, view, snapshot.gear), layout.unit),
        *_nose(guns, snapshot.gear, room, layout.unit),
        *(shape for gun in guns for shape in _near(gun, layout.unit)),
        *(shape for gun in guns for shape in strike(gun.view, gun.over, layout.unit, still=snapshot.looks.steady)),
        *labels(snapshot, guns, told(guns, view, snapshot.gear), room=room, layout=layout),
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
    top = 64 * unit
    return Rect(room.x + 10 * unit, room.y + top, right - room.x - 20 * unit, room.h - top - 8 * unit)


@lru_cache(maxsize=2)
def _backdrop(over: OverCowl, rect: Rect, unit: float) -> Layer:
    """Return what stands behind all that moves: the way of the tips, and the fuselage behind the cut."""
    fuselage = seen(stern(over.cowl_m), over.figure, over.camera, turn=STILL)
    tips = Line(over.flat(over.disc_m * circle(72)), "groove", 2 * unit)
    return Layer(rect, (Block(rect, "back"), tips, fuselage))


def _disc(guns: tuple[SeenGun, ...], told: SeenGun, unit: float) -> list[Shape]:
    """Return what is beyond the nose: lines of fire and rounds past the disc, the ghost of one gun, and the blades."""
    shapes = [shape for gun in guns for shape in beyond(gun.over, gun.meets, unit)]
    shapes += [shape for gun in guns for x in places(gun.view) if x > 0.0 for shape in round_at(gun.over, x, unit)]
    view, over = guns[0].view, guns[0].over
    if blurred(view):
        return [*shapes, _veil(over)]
    solid = propeller(view.blade, view.gun.line.blades, over.disc_m, over.sense)
    angles = {PROPELLER: over.turn_rad(view.angle_rad)}
    return [
        *shapes,
        *ghost(told.view, told.over, told.meets, unit),
        seen(solid, over.figure, over.camera, turn=STILL, angles=angles),
    ]


@lru_cache(maxsize=2)
def _veil(over: OverCowl) -> Veil:
    rings, hub_m = ((0.12 / over.disc_m, 1.0, DISC_SHARE),), (0.0, 0.0, 0.0)
    return whirl(over.camera, rings, over.disc_m, hub_m, turn=STILL, place_m=HERE, role="wood", sectors=SECTORS)


def _nose(guns: tuple[SeenGun, ...], gear: str, room: Rect, unit: float) -> list[Shape]:
    """Return cowl and fuselage, cams and followers in the cut, the guns over them, and what joins both."""
    shapes: list[Shape] = [_still(nose(guns[0].over.cowl_m), guns[0].over, room)]
    geared = gear != "none" and not blurred(guns[0].view)
    far_first = sorted(guns, key=lambda gun: -gun.over.line_yz_m[0])
    for view, over, _ in far_first if geared else ():
        gun = view.gun
        solid = cam(gun.windows_rad, gun.line.action, gun.cam.period_turns, over.sense)
        angles = {CAM: over.sense * view.angle_rad / gun.cam.period_turns}
        place = np.array([over.cam_m, 0.0, 0.0])
        shapes.append(seen(solid, over.figure, over.camera, turn=STILL, place_m=place, angles=angles))
        place = np.array([over.cam_m, 0.0, -LIFT_M * raised(view)])
        solid = follower(ROLES[cam_state(view, gear)])
        shapes.append(seen(solid, over.figure, over.camera, turn=STILL, place_m=place))
    for view, over, _ in far_first:
        y, z = over.line_yz_m
        shapes.append(_still(gun_solid(y, z, over.cowl_m), over, room))
        shapes += chain(view, over, gear, unit) if geared else []
    return shapes


@lru_cache(maxsize=6)
def _still(solid: Solid, over: OverCowl, room: Rect) -> Layer:
    """Return what never moves, as one picture no larger than it."""
    facets = seen(solid, over.figure, over.camera, turn=STILL)
    low, high = facets.corners.min(axis=(0, 1)) - 3.0, facets.corners.max(axis=(0, 1)) + 3.0
    left, top = max(math.floor(low[0]), math.floor(room.x)), max(math.floor(low[1]), math.floor(room.y))
    right, bottom = min(math.ceil(high[0]), math.ceil(room.right)), min(math.ceil(high[1]), math.ceil(room.bottom))
    return Layer(Rect(left, top, right - left, bottom - top), (facets,), clear=True)


def _near(gun: SeenGun, unit: float) -> list[Shape]:
    """Return the line of fire up to the disc, the flash at the muzzle, and rounds on the line."""
    view, over, meets = gun
    rounds = [shape for x in places(view) if x <= 0.0 for shape in round_at(over, x, unit)]
    return [*up_to_disc(over, meets, unit), *flash(view, over, unit), *rounds]
