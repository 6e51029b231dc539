"""What stands on a view in words and bars: whose it is, height, heading, speed, the push on the nose, the controls."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from sim.frames import nose_effect
from viz.stage import readings
from viz.stage.shapes import Block, Line, Rect, Shape, Text
from viz.stage.words import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import AirplaneView, Looks

FELT_N_M = 5.0
"""A couple below this is called none [N m]."""
LETTERS = 15.0
LABELS = (("height", "heading", "speed"), ("elevator", "rudder"))


class Places(NamedTuple):
    """Where the tags of a view stand: name, readings, push and bars."""

    name: Rect
    values: Rect
    push: Rect
    bars: Rect


@lru_cache(maxsize=16)
def places(view: Rect, layout: Layout) -> Places:
    """Return the tags of a view."""
    step = 24 * layout.unit * layout.font
    name = Rect(view.x, view.y, view.w, 1.3 * step)
    return Places(
        name,
        Rect(view.x, name.bottom, 0.5 * view.w, 3 * step),
        Rect(view.x + 0.5 * view.w, name.bottom, 0.5 * view.w, 3 * step),
        Rect(view.x, view.bottom - 2 * step, view.w, 2 * step),
    )


def sky(view: Rect, layout: Layout) -> Rect:
    """Return the part of a view that no tag covers."""
    at = places(view, layout)
    return Rect(view.x, at.values.bottom, view.w, at.bars.y - at.values.bottom)


def instruments(looks: Looks, plane: AirplaneView, view: Rect, layout: Layout, *, who: str) -> list[Shape]:
    """Return the name on top, readings at its left, the push at its right, and the bars of the controls below.

    Above the bars, where it is so: that the flight is outside the range of validity.
    """
    at = places(view, layout)
    return [
        *_labels(who, looks.language, view, layout),
        *_values(looks, plane, at.values, layout),
        *_push(looks, plane, at.push, layout),
        *_bars(looks, plane, at.bars, layout),
        *(_indicative(looks, sky(view, layout), layout) if plane.beyond else ()),
    ]


def _indicative(looks: Looks, free: Rect, layout: Layout) -> list[Shape]:
    """Return the words that a flight is outside the range of validity, on a tag at the foot of the picture."""
    high = 24 * layout.unit * layout.font
    tag = Rect(free.x, free.bottom - high, free.w, high)
    words = say(looks.language, "turning.beyond")
    return [Block(tag, "tag"), Text(tag.inset(4 * layout.unit), words, "caution", LETTERS * layout.unit, "center")]


@lru_cache(maxsize=16)
def _labels(who: str, language: str, view: Rect, layout: Layout) -> tuple[Shape, ...]:
    at, unit = places(view, layout), layout.unit
    texts = [
        Text(row._replace(w=share * row.w), say(language, f"turning.{key}"), "ink_quiet", LETTERS * unit)
        for tag, keys, share in ((at.values, LABELS[0], 0.56), (at.bars, LABELS[1], 0.26))
        for row, key in zip(rows(tag, len(keys), layout), keys, strict=True)
    ]
    name = Text(at.name.inset(2 * unit), say(language, f"turning.{who}"), who, 19 * unit, "center", bold=True)
    return (*(Block(tag, "tag") for tag in at), name, *texts)


def rows(tag: Rect, count: int, layout: Layout) -> list[Rect]:
    """Return a tag cut into rows, with a margin at its sides."""
    inner = tag.inset(4 * layout.unit)._replace(y=tag.y, h=tag.h)
    return [inner._replace(y=inner.y + row * inner.h / count, h=inner.h / count) for row in range(count)]


def _values(looks: Looks, plane: AirplaneView, tag: Rect, layout: Layout) -> list[Shape]:
    shown = (
        readings.height(plane.height_m, looks),
        readings.heading(plane.heading_rad),
        readings.speed(plane.speed_m_s, looks),
    )
    return [
        Text(
            row._replace(x=row.x + 0.56 * row.w, w=0.44 * row.w), text, "ink", LETTERS * layout.unit, "right", bold=True
        )
        for row, text in zip(rows(tag, 3, layout), shown, strict=True)
    ]


def _push(looks: Looks, plane: AirplaneView, tag: Rect, layout: Layout) -> list[Shape]:
    couple_n_m = math.hypot(plane.pitch_n_m, plane.yaw_n_m)
    felt = couple_n_m >= FELT_N_M
    effect = nose_effect(plane.pitch_n_m, plane.yaw_n_m).replace(" ", "_") if felt else "none"
    first, second, third = rows(tag, 3, layout)
    return [
        Text(
            first._replace(h=second.bottom - first.y),
            say(looks.language, f"turning.{effect}"),
            "ink",
            16 * layout.unit,
            "center",
            bold=True,
        ),
        Text(third, readings.couple(couple_n_m, looks) if felt else "", "ink", LETTERS * layout.unit, "center"),
    ]


def _bars(looks: Looks, plane: AirplaneView, tag: Rect, layout: Layout) -> list[Shape]:
    elevator, rudder = rows(tag, 2, layout)
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
