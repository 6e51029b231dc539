"""The labels between the blades: of the cam and of every gun, and of how round and blade meet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from viz.stage.gun_states import gun_state, raised, told_cam
from viz.stage.scenes.ghost import ROLES as GHOSTS
from viz.stage.scenes.ghost import TIP, leads_from, nearest_rad
from viz.stage.scenes.line_of_fire import ROLES, hoop_at
from viz.stage.scenes.tags import tag, wide
from viz.stage.shapes import Block, Line, Rect, Shape
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.gun_states import CamTold
    from viz.stage.layout import Layout
    from viz.stage.scenes.over_cowl import SeenGun
    from viz.stage.snapshot import Snapshot

UPRIGHT = 1.4
ONE_LINE = 420.0
"""Longest label over the disc on one line, in units."""
LINES = {1: 1.0, 2: 0.56, 3: 0.42, 4: 0.33}
"""Width of a label of so many lines, over that on one."""
FREE = 0.6
"""How much of the disc, from hoop to rim, the label of the gun leaves free where it can."""
CAM_ROLES = {"now": "now", "not_now": "wait", "turns": "ink", "none": "strike", "fast": "steel"}
LEAST_CAM, CAM_WIDE = 256.0, 360.0
"""Narrowest and widest label of the cam, in units."""
BESIDE_RAD = (0.0, 1.2, -1.2)
"""Ways from the tip of a blade to its label, from straight out of the disc."""
OVER_GUN = 71.0
"""From the line of fire up to the label of a gun, in units."""


def labels(snapshot: Snapshot, guns: tuple[SeenGun, ...], told: SeenGun, *, room: Rect, layout: Layout) -> list[Shape]:
    """Return the labels: of the cam, of every gun, and of how round and blade meet; of two guns for the one told."""
    language, unit = snapshot.looks.language, lettering_unit(layout)
    said = told_cam(told.view, snapshot.gear)
    words = say(language, f"blades.cam_{said}")
    shapes = _cam_tag(told, said, words, room=room, unit=unit, font=layout.font, behind=len(guns) == 1)
    if said == "fast":
        return shapes
    above = Rect(told.over.camera.view.x, room.y, told.over.camera.view.w, 0.0)
    if told.meets != "none":
        words = say(language, f"blades.{told.meets}")
        above = _above(words, told, layout)
        shapes += tag(above, words, unit, ground=ROLES[told.meets], to=_met_at(told))
    below = next(shape.rect for shape in shapes if isinstance(shape, Block))
    shapes += _gun_tags(guns, told, above, below, language=language, layout=layout)
    return [*_blade_tag(told, shapes, say(language, "blades.blade_now"), room=room, unit=unit * layout.font), *shapes]


def _gun_tags(
    guns: tuple[SeenGun, ...], told: SeenGun, above: Rect, below: Rect, *, language: str, layout: Layout
) -> list[Shape]:
    """Return the labels of the guns between two others; of two that of the one told alone where both have no room."""
    font, which, units = layout.font, "only", (lettering_unit(layout), layout.unit)
    if len(guns) > 1:
        left, right = sorted(guns, key=lambda gun: gun.over.line_yz_m[0])
        said = doing(left, language, "left"), doing(right, language, "right")
        for unit in units:
            places = _two_rects((left, right), said, unit * font, layout.unit)
            within = all(place.right <= told.over.camera.view.right and not place.overlaps(below) for place in places)
            if places[0].y >= above.bottom and within:
                both = zip((left, right), said, places, strict=True)
                return [shape for gun, text, place in both for shape in tag(place, text, unit, to=_breech(gun, unit))]
        which = "left" if told is left else "right"
    words = doing(told, language, which)
    for unit in units:
        place = _gun_rect(words, told, unit * font)
        if place.overlaps(above):
            place = place._replace(y=above.bottom + 4 * unit)
        if not place.overlaps(below):
            break
    return tag(place, words, unit, to=_breech(told, unit))


def doing(gun: SeenGun, language: str, which: str) -> str:
    """Return which gun does what, in words."""
    does = say(language, f"blades.gun_{gun_state(gun.view)}")
    return say(language, "blades.gun", gun=say(language, f"blades.which_{which}"), doing=does)


def _breech(gun: SeenGun, unit: float) -> tuple[float, float]:
    x, y = gun.over.on_line(-1.9)
    return x, y - 8 * unit


def _two_rects(guns: tuple[SeenGun, SeenGun], words: tuple[str, str], unit: float, bare: float) -> tuple[Rect, Rect]:
    """Return where the labels of both stand: the right gun's beside the line from the left one's down to its gun."""
    (left_x, left_y), (_, right_y), edge = *(gun.over.on_line(-1.9) for gun in guns), guns[0].over.camera.view.right
    rects, bottom = [], min(left_y, right_y) - 0.6 * OVER_GUN * bare
    for text, start in ((words[1], left_x + 12 * bare), (words[0], left_x - 60 * bare)):
        lines = next((each for each in (1, 2, 3) if LINES[each] * wide(text, unit) <= edge - start), 4)
        tall = (8 + 26 * lines) * unit
        rects.append(Rect(start, bottom - tall, LINES[lines] * wide(text, unit), tall))
        bottom = rects[-1].y - 4 * bare
    return rects[1], rects[0]


def _gun_rect(words: str, gun: SeenGun, unit: float) -> Rect:
    """Return where the label of a gun stands: over it, on more lines where one would reach over the ghost."""
    over = gun.over
    (gun_x, gun_y), right = over.on_line(-1.9), over.camera.view.right
    hoop, rim = hoop_at(over)[6][0], over.on_disc(over.disc_m, 0.5 * math.pi)[0]
    long = max(wide(words, unit), 170 * unit)
    lines = next((each for each in (1, 2) if right - LINES[each] * long >= hoop + FREE * (rim - hoop)), 3)
    long, tall = LINES[lines] * long, (8 + 26 * lines) * unit
    return Rect(min(gun_x - 0.22 * long, right - long), gun_y - OVER_GUN * unit - tall, long, tall)


def _cam_tag(
    gun: SeenGun, told: CamTold, words: str, *, room: Rect, unit: float, font: float, behind: bool
) -> list[Shape]:
    """Return the label of the cam, which points at its follower: behind the cut, or below where there is no room."""
    over, gap, long = gun.over, 8 * unit, wide(words, unit * font)
    x, y = over.bare_shaft if told == "none" else over.roller(raised(gun.view))
    left, right = over.bulkhead[0] + gap, over.camera.view.right
    most = right - left
    behind = behind and most >= max(LINES[4] * long, LEAST_CAM * unit)
    most = min(CAM_WIDE * unit * font, most) if behind else min(1.6 * CAM_WIDE * unit * font, right - room.x - gap)
    lines = next((each for each in (1, 2, 3) if LINES[each] * long <= most), 4)
    long, tall = max(min(LINES[lines] * long, most), LEAST_CAM * unit), (8 + 26 * lines) * unit * font
    lowest = room.bottom - tall - gap
    place = Rect(left, min(y + 34 * unit * font, lowest), long, tall)
    if not behind:
        place = place._replace(x=min(max(room.x + gap, x - 0.5 * long), right - long), y=lowest)
    return tag(place, words, unit, ground=CAM_ROLES[told], to=(x, y))


def _met_at(gun: SeenGun) -> tuple[float, float]:
    """Return what is said to be met, or not: the ghost nearest to the line of fire, or the hoop."""
    view, over = gun.view, gun.over
    if gun.meets in GHOSTS and view.arrival_rad is not None:
        return over.on_disc(TIP * over.disc_m, over.turn_rad(nearest_rad(view, view.arrival_rad)))
    return hoop_at(over)[0]


def _blade_tag(gun: SeenGun, shapes: list[Shape], words: str, *, room: Rect, unit: float) -> list[Shape]:
    """Return the label of the blade that is on its way to the ghost, beside its tip; none in the way of others."""
    at = leads_from(gun.view, gun.meets)
    if at is None:
        return []
    over, (long, tall) = gun.over, (wide(words, unit), 30 * unit)
    (x, y), (hub_x, hub_y) = over.on_disc(over.disc_m, over.turn_rad(at)), over.on_disc(0.0, 0.0)
    outward = math.atan2(y - hub_y, x - hub_x)
    for angle in (outward + turned for turned in BESIDE_RAD):
        aside, down = math.cos(angle), math.sin(angle)
        away = 0.5 * (abs(aside) * long + abs(down) * tall) + 4 * unit
        place = Rect(x + away * aside - 0.5 * long, y + away * down - 0.5 * tall, long, tall)
        if _free(place, shapes, room, 4 * unit):
            return tag(place, words, unit, ground="blade")
    return []


def _free(place: Rect, shapes: list[Shape], room: Rect, gap: float) -> bool:
    """Return whether a rectangle is within the room and off all labels and their lines."""
    wider = place.inset(-gap)
    if not (room.x <= wider.x and wider.right <= room.right and room.y <= wider.y and wider.bottom <= room.bottom):
        return False
    taken = [each.rect for each in shapes if isinstance(each, Block)]
    for line in (each.points for each in shapes if isinstance(each, Line)):
        (x, y), (to_x, to_y) = line
        taken.append(Rect(min(x, to_x), min(y, to_y), abs(to_x - x) + 1.0, abs(to_y - y) + 1.0))
    return not any(wider.overlaps(each) for each in taken)


def _above(words: str, gun: SeenGun, layout: Layout) -> Rect:
    """Return where the label of how round and blade meet stands: over the disc."""
    unit, font, gap = lettering_unit(layout), layout.font, 8 * lettering_unit(layout)
    left, right = layout.stage.x + gap, gun.over.camera.view.right
    long, room = wide(words, unit * font), right - left
    lines = 1 if long <= min(room, ONE_LINE * unit * font) else 2 if LINES[2] * long <= room else 3
    most = min(LINES[lines] * long, room)
    middle = min(max(gun.over.on_line(0.0)[0], left + 0.5 * most), right - 0.5 * most)
    return Rect(middle - 0.5 * most, layout.stage.y + 4 * unit, most, (8 + 26 * lines) * unit * font)


def lettering_unit(layout: Layout) -> float:
    """Return the unit of labels, larger in an upright window, which has the room."""
    return layout.unit * (UPRIGHT if layout.stage.h > layout.stage.w else 1.0)
