"""What stands below a view in words and bars: whose it is, the push on the nose, height and speed, the controls."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from sim.frames import nose_effect
from viz.stage import readings
from viz.stage.attitude import on_picture
from viz.stage.shapes import Block, Clip, Line, Rect, Shape, Text
from viz.stage.words import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import AirplaneView, Looks, TurningView

FELT_N_M = 5.0
"""A couple below this is called none [N m]."""
LETTERS = 15.0
ROWS = 4
"""Of a panel: whose it is and the push, height with heading and speed, elevator, rudder."""


def band(whole: Rect, layout: Layout) -> tuple[Rect, Rect]:
    """Return the picture of a view, and the band below it."""
    tall = ROWS * 24 * layout.unit * layout.font
    return whole._replace(h=whole.h - tall), whole._replace(y=whole.bottom - tall, h=tall)


@lru_cache(maxsize=16)
def panels(whole: Rect, layout: Layout) -> tuple[Rect, Rect]:
    """Return the panels of both engines, side by side."""
    below = band(whole, layout)[1]
    half = below._replace(w=0.5 * (below.w - 4 * layout.unit))
    return half, half._replace(x=below.right - half.w)


def instruments(looks: Looks, view: TurningView, whole: Rect, layout: Layout) -> list[Shape]:
    """Return the panels of both engines: its name and push, readings, and the bars of the controls."""
    found: list[Shape] = []
    for who, plane, panel in zip(("rotary", "fixed"), (view.rotary, view.fixed), panels(whole, layout), strict=True):
        name, values, *bars = rows(panel, ROWS, layout)
        items = (
            *_labels(who, looks.language, panel, layout),
            *_push(looks, plane, view.camera_heading_rad, name, layout=layout),
            *_values(looks, plane, values, layout),
            *_bars(looks, plane, bars, layout),
        )
        found.append(Clip(panel, items, still=True))
    return found


@lru_cache(maxsize=16)
def _labels(who: str, language: str, panel: Rect, layout: Layout) -> tuple[Shape, ...]:
    name, _, *bars = rows(panel, ROWS, layout)
    labels = [
        Text(row._replace(w=0.26 * row.w), say(language, f"turning.{key}"), "ink_quiet", LETTERS * layout.unit)
        for row, key in zip(bars, ("elevator", "rudder"), strict=True)
    ]
    title = Text(name._replace(w=0.5 * name.w), say(language, f"turning.{who}"), who, 17 * layout.unit, bold=True)
    return (Block(panel, "tag"), title, *labels)


def rows(tag: Rect, count: int, layout: Layout) -> list[Rect]:
    """Return a tag cut into rows, with a margin at its sides."""
    inner = tag.inset(4 * layout.unit)._replace(y=tag.y, h=tag.h)
    return [inner._replace(y=inner.y + row * inner.h / count, h=inner.h / count) for row in range(count)]


def _values(looks: Looks, plane: AirplaneView, row: Rect, layout: Layout) -> list[Shape]:
    """Return height, heading and speed, or in their place that the flight is outside the range of validity."""
    if plane.beyond:
        return [Text(row, say(looks.language, "turning.beyond"), "caution", LETTERS * layout.unit)]
    shown = (
        readings.height(plane.height_m, looks),
        readings.heading(plane.heading_rad),
        readings.speed(plane.speed_m_s, looks),
    )
    return [Text(row, "   ".join(shown), "ink_quiet", LETTERS * layout.unit)]


def _push(looks: Looks, plane: AirplaneView, heading_rad: float, row: Rect, *, layout: Layout) -> list[Shape]:
    """Return where the nose is pushed, as the arrow on the picture shows it, and how hard."""
    couple_n_m = math.hypot(plane.pitch_n_m, plane.yaw_n_m)
    felt = couple_n_m >= FELT_N_M
    up, right = on_picture(plane.attitude, heading_rad, up=plane.pitch_n_m, right=plane.yaw_n_m)
    effect = nose_effect(up, right).replace(" ", "_") if felt else "none"
    words = say(looks.language, f"turning.{effect}")
    said = f"{words}, {readings.couple(couple_n_m, looks)}" if felt else words
    half = row._replace(x=row.x + 0.5 * row.w, w=0.5 * row.w)
    return [Text(half, said, "ink", LETTERS * layout.unit, "right", bold=True)]


def _bars(looks: Looks, plane: AirplaneView, bars: list[Rect], layout: Layout) -> list[Shape]:
    elevator, rudder = bars
    return [
        *_bar(looks, plane.elevator_share, elevator, layout, ways=("down", "up")),
        *_bar(looks, plane.rudder_share, rudder, layout, ways=("left", "right")),
    ]


def _bar(looks: Looks, share: float, row: Rect, layout: Layout, *, ways: tuple[str, str]) -> list[Shape]:
    """Return a bar from the middle towards where the nose is meant to go, and its share in words."""
    track = Rect(row.x + 0.28 * row.w, row.y + 0.3 * row.h, 0.38 * row.w, 0.4 * row.h)
    words = Rect(row.x + 0.68 * row.w, row.y, 0.32 * row.w, row.h)
    percent = round(100 * share)
    key = f"value.{ways[percent > 0]}" if percent else "value.middle"
    middle, reach = track.center[0], 0.5 * track.w * min(max(share, -1.0), 1.0)
    return [
        Block(track, "groove"),
        Block(Rect(min(middle, middle + reach), track.y, abs(reach), track.h), "caution"),
        Line(((middle, track.y), (middle, track.bottom)), "knob", max(1.0, 2 * layout.unit), smooth=False),
        Text(words, say(looks.language, key, share=abs(percent)), "ink", LETTERS * layout.unit, "right"),
    ]
