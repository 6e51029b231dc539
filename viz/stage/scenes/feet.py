"""What stands below a view: how hard the feet of both pilots work, a row for each engine, both to one scale."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

from viz.stage import readings
from viz.stage.palette import HOLLOW
from viz.stage.shapes import Block, Clip, Layer, Line, Polygon, Rect, Shape, Text
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.shapes import Point
    from viz.stage.snapshot import AirplaneView, Looks, TurningView

ROW: Final = 46.0
"""Height of a row in units; grows with the letters."""
NARROW: Final = 840.0
"""Width of a view in units below which the words of a row stand over its bar, not beside it."""
LETTERS: Final = 17.0
RESTS: Final = 0.02
"""Share of the rudder's travel below which the feet rest."""
PEDALS_RAD: Final = 0.6
"""How far the pedals are drawn turned at full travel [rad]."""
DRAWN: Final = 2.0
"""They are drawn turned so many times as far as they are, up to the stop; the bar is to scale."""
SOLE: Final = tuple((math.cos(math.tau * n / 12), math.sin(math.tau * n / 12)) for n in range(13))
FAR: Final = 1.6
"""Width of the pedals over their height."""


class Row(NamedTuple):
    """Where a row has the name of its engine, what the feet do, the pedals, the track of the bar, and the speed."""

    name: Rect
    told: Rect
    pedals: Rect
    track: Rect
    speed: Rect


def band(whole: Rect, layout: Layout) -> tuple[Rect, Rect]:
    """Return the picture of a view, and the band below it."""
    tall = 2 * (1.5 if _narrow(whole, layout) else 1.0) * ROW * layout.unit * layout.font
    return whole._replace(h=whole.h - tall), whole._replace(y=whole.bottom - tall, h=tall)


def _narrow(whole: Rect, layout: Layout) -> bool:
    return whole.w < NARROW * layout.unit


@lru_cache(maxsize=16)
def rows(whole: Rect, layout: Layout) -> tuple[Row, Row]:
    """Return the row of the rotary, and that of the fixed engine under it."""
    below = band(whole, layout)[1]
    upper = below._replace(h=0.5 * below.h)
    return _row(upper, whole, layout), _row(upper._replace(y=upper.bottom), whole, layout)


def _row(room: Rect, whole: Rect, layout: Layout) -> Row:
    margin = 2 * layout.unit
    if _narrow(whole, layout):
        over = room._replace(h=0.42 * room.h)
        low = room._replace(y=over.bottom, h=room.h - over.h)
        pedals = low._replace(w=FAR * low.h)
        name, told, speed = (rect.inset(margin) for rect in layout.row(over, (2.5, 1.9, 1.0)))
        return Row(name, told, pedals, _track(low._replace(x=pedals.right, w=low.w - pedals.w)), speed)
    words, pedals, bar, speed = layout.row(room, (2.6, 0.9, 4.1, 1.0))
    name = words.inset(margin)._replace(h=0.5 * words.h - margin)
    return Row(name, name._replace(y=name.bottom), pedals, _track(bar), speed)


def _track(bar: Rect) -> Rect:
    return Rect(bar.x + 0.02 * bar.w, bar.y + 0.22 * bar.h, 0.96 * bar.w, 0.56 * bar.h)


def feet(looks: Looks, view: TurningView, whole: Rect, layout: Layout) -> Clip:
    """Return the band: pedals, the bar of the rudder and the speed of both airplanes."""
    below = band(whole, layout)[1]
    found: list[Shape] = [_ground(looks.language, whole, layout)]
    planes = (("rotary", view.rotary), (HOLLOW, view.fixed))
    for (who, plane), row in zip(planes, rows(whole, layout), strict=True):
        found += _pedals(plane, row.pedals, who, layout.unit)
        found += _work(looks, plane, row, who, unit=layout.unit, free=view.hand == "nobody")
    return Clip(below, tuple(found))


@lru_cache(maxsize=16)
def _ground(language: str, whole: Rect, layout: Layout) -> Layer:
    """Return the ground of the band with the names of both engines and the tracks of their bars."""
    below = band(whole, layout)[1]
    shapes: list[Shape] = [Block(below, "tag")]
    for who, row in zip(("rotary", HOLLOW), rows(whole, layout), strict=True):
        name = say(language, f"turning.{who}")
        shapes += [
            Text(row.name, name, who, LETTERS * layout.unit, bold=True),
            Block(row.track, "track"),
            Block(row.track, "panel_edge", rim=max(1.0, layout.unit)),
        ]
    return Layer(below, tuple(shapes))


def _pedals(plane: AirplaneView, room: Rect, who: str, unit: float) -> list[Shape]:
    """Return both feet on their pedals from above, the nose up: right rudder pushes the right foot ahead."""
    ghost = who == HOLLOW
    x, y = room.center
    turned = -PEDALS_RAD * min(max(DRAWN * plane.rudder_share, -1.0), 1.0)
    arm = (0.55 * room.h * math.cos(turned), 0.55 * room.h * math.sin(turned))
    ends = ((x - arm[0], y - arm[1]), (x + arm[0], y + arm[1]))
    bar = Line(ends, who, (2 if ghost else 4) * unit)
    return [bar, *(_sole(end, room.h, who, ghost=ghost, unit=unit) for end in ends)]


def _sole(at: Point, tall: float, who: str, *, ghost: bool, unit: float) -> Shape:
    """Return the sole of a foot on its pedal, filled or as an outline."""
    sole = tuple((at[0] + 0.13 * tall * across, at[1] + 0.26 * tall * along) for across, along in SOLE)
    return Line(sole, who, 2 * unit) if ghost else Polygon(sole, who)


def _work(looks: Looks, plane: AirplaneView, row: Row, who: str, *, unit: float, free: bool) -> list[Shape]:
    """Return the bar of the rudder, whichever foot pushes, which one it is in words, and the speed.

    Let go, the rudder stands where it does in level flight, and no foot works.
    """
    share = 0.0 if free else plane.rudder_share
    foot = "none" if free else "rest" if abs(share) < RESTS else "right" if share > 0.0 else "left"
    told, role = ("turning.beyond", "caution") if plane.beyond else (f"turning.foot_{foot}", "ink")
    filled = row.track._replace(w=min(abs(share), 1.0) * row.track.w)
    return [
        Block(filled, who, rim=3 * unit if who == HOLLOW else 0.0),
        Text(row.told, say(looks.language, told), role, LETTERS * unit),
        Text(row.speed, readings.speed(plane.speed_m_s, looks), "ink_quiet", LETTERS * unit, "center"),
    ]
