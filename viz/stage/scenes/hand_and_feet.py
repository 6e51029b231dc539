"""The work of both pilots, side by side: a stick and two feet seen from above, and bars of stick and rudder.

The rotary's is filled, the other a ghost: an outline, as its airplane is on the picture.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from viz.stage.palette import HOLLOW
from viz.stage.shapes import Block, Clip, Disc, Layer, Line, Polygon, Rect, Shape, Text
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.shapes import Point
    from viz.stage.snapshot import AirplaneView, Looks, TurningView

PEDALS_RAD: Final = 0.6
"""How far the rudder bar is drawn turned at full travel [rad]."""
LETTERS: Final = 14.0
BARS: Final = ("hand", "feet")
SOLE: Final = tuple((math.cos(math.tau * n / 12), math.sin(math.tau * n / 12)) for n in range(13))
DRAWN: Final = 2.0
"""The figure moves so many times as far as hand and feet do, up to the stop; the bars are to scale."""


def work(looks: Looks, view: TurningView, panel: Rect, layout: Layout) -> Clip:
    """Return the figure and the bars in a panel."""
    figure, bars = parts(panel)
    planes = (("rotary", view.rotary), ("fixed", view.fixed))
    found: list[Shape] = [_ground(looks.language, panel, layout)]
    for who, plane in planes:
        found += _figure(plane, figure, who, layout.unit)
        for name, rows in zip(BARS, (bars[:2], bars[2:]), strict=True):
            found += _bar(looks.language, plane, rows[who == "fixed"], who=who, name=name, unit=layout.unit)
    return Clip(panel, tuple(found))


def parts(panel: Rect) -> tuple[Rect, tuple[Rect, ...]]:
    """Return where the figure stands, and the four bars: stick of rotary and fixed, rudder of rotary and fixed."""
    side = min(panel.h, 0.36 * panel.w)
    figure = Rect(panel.x, panel.y + 0.5 * (panel.h - side), side, side)
    right = panel._replace(x=figure.right, w=panel.w - side)
    return figure, tuple(right._replace(y=right.y + row * right.h / 4, h=right.h / 4) for row in range(4))


def _track(row: Rect) -> Rect:
    return Rect(row.x + 0.2 * row.w, row.y + 0.25 * row.h, 0.36 * row.w, 0.5 * row.h)


@lru_cache(maxsize=16)
def _ground(language: str, panel: Rect, layout: Layout) -> Layer:
    figure, bars = parts(panel)
    unit = layout.unit
    labels = [
        Text(
            row._replace(w=0.19 * row.w, h=2 * row.h).inset(2 * unit),
            say(language, f"turning.{name}"),
            "ink_quiet",
            LETTERS * unit,
        )
        for name, row in zip(BARS, bars[::2], strict=True)
    ]
    pivot, seat = _pivot(figure), _seat(figure)
    square = _square(figure)
    frames: list[Shape] = []
    for row in bars:
        track = _track(row)
        frames += [Block(track, "track"), Block(track, "panel_edge", rim=max(1.0, unit))]
    still = (
        Block(panel, "tag"),
        Block(square, "groove", rim=max(1.0, unit)),
        Disc(*pivot, 0.03 * figure.h, "groove"),
        Disc(*seat, 0.03 * figure.h, "groove"),
        *labels,
        *frames,
    )
    return Layer(panel, still)


def _pivot(figure: Rect) -> Point:
    """Return where the rudder bar turns."""
    return figure.center[0], figure.y + 0.24 * figure.h


def _seat(figure: Rect) -> Point:
    """Return where a stick stands that is in the middle."""
    return figure.center[0], figure.y + 0.7 * figure.h


def _square(figure: Rect) -> Rect:
    """Return the reach of the stick."""
    x, y = _seat(figure)
    reach = 0.24 * figure.h
    return Rect(x - reach, y - reach, 2 * reach, 2 * reach)


def _figure(plane: AirplaneView, figure: Rect, who: str, unit: float) -> list[Shape]:
    """Return stick and feet from above: the nose is up, so a pull goes down, and right rudder pushes the right foot."""
    ghost = who == HOLLOW
    x, y = _pivot(figure)
    turned = -PEDALS_RAD * _drawn(plane.rudder_share)
    arm = (0.34 * figure.w * math.cos(turned), 0.34 * figure.w * math.sin(turned))
    ends = ((x - arm[0], y - arm[1]), (x + arm[0], y + arm[1]))
    seat, square = _seat(figure), _square(figure)
    stick = (
        seat[0] + 0.5 * square.w * _drawn(plane.aileron_share),
        seat[1] + 0.5 * square.h * _drawn(plane.elevator_share),
    )
    wide = (2 if ghost else 4) * unit
    return [
        Line(ends, who, wide),
        *(_foot(end, figure, who, ghost=ghost, unit=unit) for end in ends),
        Line((seat, stick), who, wide),
        Disc(*stick, 0.075 * figure.h, who, rim=2 * unit if ghost else 0.0),
    ]


def _drawn(share: float) -> float:
    return min(max(DRAWN * share, -1.0), 1.0)


def _foot(at: Point, figure: Rect, who: str, *, ghost: bool, unit: float) -> Shape:
    """Return the sole of a foot on the bar, filled or as an outline."""
    wide, long = 0.075 * figure.w, 0.14 * figure.h
    sole = tuple((at[0] + wide * across, at[1] + long * (0.4 - along)) for across, along in SOLE)
    return Line(sole, who, 2 * unit) if ghost else Polygon(sole, who)


def _bar(language: str, plane: AirplaneView, row: Rect, *, who: str, name: str, unit: float) -> list[Shape]:
    """Return a bar from the middle towards where the nose is meant to go, and its share in words."""
    share, ways = {
        "hand": (plane.elevator_share, ("down", "up")),
        "feet": (plane.rudder_share, ("left", "right")),
    }[name]
    track = _track(row)
    percent = round(100 * share)
    key = f"value.{ways[percent > 0]}" if percent else "value.middle"
    middle, reach = track.center[0], 0.5 * track.w * min(max(share, -1.0), 1.0)
    filled = Rect(min(middle, middle + reach), track.y, abs(reach), track.h)
    words = Rect(track.right, row.y, row.right - track.right - 4 * unit, row.h)
    return [
        Block(filled, who, rim=2 * unit if who == HOLLOW else 0.0),
        Line(((middle, track.y), (middle, track.bottom)), "knob", max(1.0, 2 * unit), smooth=False),
        Text(words, say(language, key, share=abs(percent)), who, LETTERS * unit, "right", bold=True),
    ]
