"""The labels between the blades: of cam and gun, and of how round and blade meet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.gun_states import gun_state, lift, told_cam
from viz.stage.scenes.ghost import ROLES as GHOSTS
from viz.stage.scenes.ghost import TIP, nearest_rad
from viz.stage.scenes.line_of_fire import ROLES, hoop_at
from viz.stage.scenes.tags import tag, wide
from viz.stage.shapes import Rect, Shape
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.gun_states import CamState, Crossing
    from viz.stage.layout import Layout
    from viz.stage.scenes.over_cowl import OverCowl
    from viz.stage.snapshot import BladesView, Snapshot

UPRIGHT = 1.4
ONE_LINE = 420.0
"""Longest label over the disc on one line, in units."""
LINES = {1: 1.0, 2: 0.56, 3: 0.42}
"""Width of a label of so many lines, over that on one."""
FREE = 0.6
"""How much of the disc, from hoop to rim, the label of the gun leaves free where it can."""
CAM_ROLES = {"now": "now", "not_now": "wait", "none": "strike", "fast": "steel"}


def labels(
    snapshot: Snapshot, view: BladesView, over: OverCowl, meets: Crossing, *, room: Rect, layout: Layout
) -> list[Shape]:
    """Return the labels: of cam and gun, and of how round and blade meet."""
    language, unit, font = snapshot.looks.language, lettering_unit(layout), layout.font
    told = told_cam(view, snapshot.gear)
    shapes = _cam_tag(view, over, told, say(language, f"blades.cam_{told}"), room=room, unit=unit, font=font)
    if told == "fast":
        return shapes
    above = Rect(over.camera.view.x, room.y, over.camera.view.w, 0.0)
    if meets != "none":
        words = say(language, f"blades.{meets}")
        above = _above(words, over, layout)
        shapes += tag(above, words, unit, ground=ROLES[meets], to=_met_at(view, over, meets))
    place = _gun_rect(doing := say(language, f"blades.gun_{gun_state(view)}"), over, unit * font)
    if place.overlaps(above):
        place = place._replace(y=above.bottom + 4 * unit)
    gun_x, gun_y = over.on_line(-1.9)
    return [*shapes, *tag(place, doing, unit, to=(gun_x, gun_y - 8 * unit))]


def _gun_rect(words: str, over: OverCowl, unit: float) -> Rect:
    """Return where the label of the gun stands: over it, on more lines where one would reach over the ghost."""
    (gun_x, gun_y), right = over.on_line(-1.9), over.camera.view.right
    hoop, rim = hoop_at(over)[6][0], over.on_disc(over.disc_m, 0.5 * math.pi)[0]
    long = max(wide(words, unit), 170 * unit)
    lines = next((each for each in (1, 2) if right - LINES[each] * long >= hoop + FREE * (rim - hoop)), 3)
    long, tall = LINES[lines] * long, (8 + 26 * lines) * unit
    return Rect(min(gun_x - 0.22 * long, right - long), gun_y - 71 * unit - tall, long, tall)


def _cam_tag(
    view: BladesView, over: OverCowl, told: CamState, words: str, *, room: Rect, unit: float, font: float
) -> list[Shape]:
    """Return the label of the cam, which points at its follower: behind the cut, or below where there is no room."""
    windows, line = view.gun.windows_rad, view.gun.line
    x, y = over.roller(lift(windows, view.angle_rad, line.action, view.gun.cam.period_turns))
    tall, long, gap = 34 * unit * font, max(wide(words, unit * font), 256 * unit), 8 * unit
    behind = over.bulkhead[0] + gap
    place = Rect(behind, min(y + tall, room.bottom - tall - gap), long, tall)
    if behind + long > over.camera.view.right:
        left = min(max(room.x + gap, x - 0.5 * long), room.right - long - gap)
        place = place._replace(x=left, y=room.bottom - tall - gap)
    return tag(place, words, unit, ground=CAM_ROLES[told], to=(x, y))


def _met_at(view: BladesView, over: OverCowl, meets: Crossing) -> tuple[float, float]:
    """Return what is said to be met, or not: the ghost nearest to the line of fire, or the hoop."""
    if meets in GHOSTS and view.arrival_rad is not None:
        return over.on_disc(TIP * over.disc_m, over.turn_rad(nearest_rad(view, view.arrival_rad)))
    return hoop_at(over)[0]


def _above(words: str, over: OverCowl, layout: Layout) -> Rect:
    """Return where the label of how round and blade meet stands: over the disc."""
    unit, font, gap = lettering_unit(layout), layout.font, 8 * lettering_unit(layout)
    left, right = layout.stage.x + gap, over.camera.view.right
    long, room = wide(words, unit * font), right - left
    lines = 1 if long <= min(room, ONE_LINE * unit * font) else 2 if LINES[2] * long <= room else 3
    most = min(LINES[lines] * long, room)
    middle = min(max(over.on_line(0.0)[0], left + 0.5 * most), right - 0.5 * most)
    return Rect(middle - 0.5 * most, layout.stage.y + 4 * unit, most, (8 + 26 * lines) * unit * font)


def lettering_unit(layout: Layout) -> float:
    """Return the unit of labels, larger in an upright window, which has the room."""
    return layout.unit * (UPRIGHT if layout.stage.h > layout.stage.w else 1.0)
