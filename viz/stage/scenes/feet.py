"""What stands below a view: both feet of both pilots, a row for each engine, and how far they push, to one scale."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

from viz.stage import readings
from viz.stage.palette import HOLLOW
from viz.stage.shapes import Block, Clip, Disc, Layer, Line, Polygon, Rect, Shape, Text
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.shapes import Point
    from viz.stage.snapshot import AirplaneView, Looks, TurningView

HEAD: Final = 22.0
"""Height of the line that names the bars, in units; grows with the letters."""
ROW: Final = 58.0
"""Height of a row in units; grows half as much as the letters."""
NARROW: Final = 840.0
"""Width of a view in units below which the words of a row stand over its bar, not beside it."""
OVER: Final = 30.0
"""Height of those words over a bar, in units; grows with the letters."""
LETTERS: Final = 17.0
SMALL: Final = 15.0
RESTS: Final = 0.02
"""Share of the rudder's travel below which the feet rest."""
AHEAD: Final = 0.14
"""How far the foot that pushes is drawn ahead of the middle at most, and the other one behind, over a row."""
DRAWN: Final = 4.0
"""They are drawn so many times as far ahead as they are; the bar is to scale."""
SCALE: Final = 2.0
"""A bar fills its half of the track at half of the travel: hardly any turn takes more."""


def _oval(across: float, along: float, wide: float, tall: float) -> tuple[Point, ...]:
    turns = (math.tau * n / 14 for n in range(15))
    return tuple((across + wide * math.sin(turn), along - tall * math.cos(turn)) for turn in turns)


SOLE: Final = (_oval(0.0, -0.1, 0.14, 0.24), _oval(-0.02, 0.3, 0.1, 0.12))
"""Ball and heel of the sole of a left shoe seen from above, toes up, about its middle, over the height of a row."""
BALL: Final = -0.06
"""Height of the bar on which the balls rest."""
STANCE: Final = 0.36
"""How far a shoe is beside the middle, over the height of a row."""
OUT: Final = 1.5
"""Half the length of the bar over that."""


class Row(NamedTuple):
    """Where a row has the name of its engine, what the feet do, both shoes, and the track of its bar between two words.

    The bar begins in the middle of the track: to the left the left foot pushes, to the right the right one.
    """

    name: Rect
    told: Rect
    feet: Rect
    words: tuple[Rect, Rect]
    track: Rect


def band(whole: Rect, layout: Layout) -> tuple[Rect, Rect]:
    """Return the picture of a view, and the band below it."""
    tall = (HEAD * layout.font + 2 * _row_units(whole, layout)) * layout.unit
    return whole._replace(h=whole.h - tall), whole._replace(y=whole.bottom - tall, h=tall)


def _row_units(whole: Rect, layout: Layout) -> float:
    low = ROW * (0.5 + 0.5 * layout.font)
    return low + OVER * layout.font if _narrow(whole, layout) else low


def _narrow(whole: Rect, layout: Layout) -> bool:
    return whole.w < NARROW * layout.unit


@lru_cache(maxsize=16)
def rows(whole: Rect, layout: Layout) -> tuple[Row, Row]:
    """Return the row of the rotary, and that of the fixed engine under it."""
    below, tall = band(whole, layout)[1], _row_units(whole, layout) * layout.unit
    lower = below._replace(y=below.bottom - tall, h=tall)
    return _row(lower._replace(y=lower.y - tall), whole, layout), _row(lower, whole, layout)


def _row(room: Rect, whole: Rect, layout: Layout) -> Row:
    margin = 2 * layout.unit
    if _narrow(whole, layout):
        over = room._replace(h=OVER * layout.font * layout.unit)
        low = room._replace(y=over.bottom, h=room.h - over.h)
        name, told = (rect.inset(margin) for rect in layout.row(over, (1.2, 1.0)))
        shoes, left, bar, right = layout.row(low, (1.3, 1.1, 3.8, 1.1))
    else:
        words, shoes, left, bar, right = layout.row(room, (2.7, 1.0, 0.8, 4.0, 0.8))
        name = words.inset(margin)._replace(h=0.5 * words.h - margin)
        told = name._replace(y=name.bottom)
    return Row(name, told, shoes, (left.inset(margin), right.inset(margin)), _track(bar))


def _track(bar: Rect) -> Rect:
    return Rect(bar.x + 0.02 * bar.w, bar.y + 0.26 * bar.h, 0.96 * bar.w, 0.48 * bar.h)


def feet(looks: Looks, view: TurningView, whole: Rect, layout: Layout) -> Clip:
    """Return the band: shoes, how far they push, and that in words, of both airplanes."""
    below = band(whole, layout)[1]
    found: list[Shape] = [_ground(looks.language, whole, layout)]
    planes = (("rotary", view.rotary), (HOLLOW, view.fixed))
    for (who, plane), row in zip(planes, rows(whole, layout), strict=True):
        share = pushed(plane, free=view.hand == "nobody")
        found += _shoes(row.feet, who, share, layout.unit)
        foot = "none" if view.hand == "nobody" else "rest" if abs(share) < RESTS else "right" if share > 0.0 else "left"
        words, role = ("turning.beyond", "caution") if plane.beyond else (f"turning.foot_{foot}", "ink")
        found += _bar(row, who, share, unit=layout.unit)
        found += _told(looks, row, (words, role), unit=layout.unit, speed_m_s=plane.speed_m_s if view.full else None)
    return Clip(below, tuple(found))


def pushed(plane: AirplaneView, *, free: bool) -> float:
    """Return how far a foot pushes, right positive, −1..1 of the travel; let go, the rudder goes back without one."""
    return 0.0 if free else min(max(plane.feet_share, -1.0), 1.0)


@lru_cache(maxsize=16)
def _ground(language: str, whole: Rect, layout: Layout) -> Layer:
    """Return the ground of the band: what its bars tell, the names of engines and feet, and the tracks of the bars."""
    below, unit = band(whole, layout)[1], layout.unit
    upper, lower = rows(whole, layout)
    head = Rect(upper.track.x, below.y, upper.track.w, HEAD * layout.font * unit)
    if _narrow(whole, layout):
        head = head._replace(x=below.x, w=below.w)
    shapes: list[Shape] = [
        Block(below, "tag"),
        Text(head, say(language, "turning.feet"), "ink", SMALL * unit, "center", bold=True),
    ]
    for who, row in zip(("rotary", HOLLOW), (upper, lower), strict=True):
        x = row.track.center[0]
        shapes += [
            Text(row.name, say(language, f"turning.{who}"), who, LETTERS * unit, bold=True),
            Block(row.track, "track"),
            Block(row.track, "panel_edge", rim=max(1.0, unit)),
            Line(((x, row.track.y - 4 * unit), (x, row.track.bottom + 4 * unit)), "ink", 2 * unit, smooth=False),
            Text(row.words[0], say(language, "turning.left"), "ink_quiet", SMALL * unit, "right"),
            Text(row.words[1], say(language, "turning.right"), "ink_quiet", SMALL * unit),
        ]
    return Layer(below, tuple(shapes))


def _shoes(room: Rect, who: str, share: float, unit: float) -> list[Shape]:
    """Return both shoes on the rudder bar from above, toes up: the foot that pushes is ahead, in its engine's colour.

    That of the fixed engine is an outline; a foot that does not push is grey.
    """
    tall, (x, y) = room.h, room.center
    ahead = AHEAD * tall * min(max(DRAWN * share, -1.0), 1.0)
    ends = tuple((x + OUT * way * STANCE * tall, y + BALL * tall - OUT * way * ahead) for way in (-1.0, 1.0))
    found: list[Shape] = [Line(ends, "blade", 7 * unit), Disc(x, y + BALL * tall, 5 * unit, "blade")]
    for side in (-1.0, 1.0):
        role = who if side * share > RESTS else "steel"
        for oval in SOLE:
            at = x + side * STANCE * tall, y - side * ahead
            outline = tuple((at[0] - side * tall * across, at[1] + tall * along) for across, along in oval)
            found.append(Polygon(outline, role))
            if role == HOLLOW:
                found.append(Polygon(_within(outline, 3 * unit), "tag"))
    return found


def _within(outline: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    """Return an oval smaller by so much all round [px]."""
    across, along = ([point[axis] for point in outline] for axis in (0, 1))
    middle = 0.5 * (min(across) + max(across)), 0.5 * (min(along) + max(along))
    halves = 0.5 * (max(across) - min(across)), 0.5 * (max(along) - min(along))
    scale = [max(half - by, 0.0) / half for half in halves]
    return tuple((middle[0] + scale[0] * (x - middle[0]), middle[1] + scale[1] * (y - middle[1])) for x, y in outline)


def _bar(row: Row, who: str, share: float, *, unit: float) -> list[Shape]:
    """Return the bar of the foot that pushes, from the middle of its track."""
    long, middle = 0.5 * min(SCALE * abs(share), 1.0) * row.track.w, row.track.center[0]
    filled = row.track._replace(x=middle - long if share < 0.0 else middle, w=long)
    return [Block(filled, who, rim=3 * unit if who == HOLLOW else 0.0)]


def _told(looks: Looks, row: Row, told: tuple[str, str], *, unit: float, speed_m_s: float | None = None) -> list[Shape]:
    """Return what the feet do in words, and beside it the speed where it is asked for."""
    key, role = told
    words = row.told if speed_m_s is None else row.told._replace(w=0.68 * row.told.w)
    found: list[Shape] = [Text(words, say(looks.language, key), role, LETTERS * unit)]
    if speed_m_s is not None:
        beside = row.told._replace(x=words.right, w=row.told.right - words.right)
        found.append(Text(beside, readings.speed(speed_m_s, looks), "ink_quiet", LETTERS * unit, "right"))
    return found
