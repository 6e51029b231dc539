"""What stands below a view: whose airplane it is, the push on its nose, height and speed; and the pilots' work."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from sim.frames import nose_effect
from viz.stage import readings
from viz.stage.attitude import on_picture
from viz.stage.scenes.hand_and_feet import work
from viz.stage.shapes import Block, Clip, Layer, Rect, Shape, Text
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import AirplaneView, Looks, TurningView

FELT_N_M = 5.0
"""A couple below this is called none [N m]."""
LETTERS = 15.0
ROWS = 3
"""Of a panel: whose it is, the push, height with heading and speed."""
WORK_ROWS = 4
NARROW = 840.0
"""Width of a view in units below which the work stands under the panels, not between them."""
WIDTHS = (1.0, 1.2, 1.0)
"""Of the panels in a wide view: rotary, work, fixed."""


def band(whole: Rect, layout: Layout) -> tuple[Rect, Rect]:
    """Return the picture of a view, and the band below it."""
    lines = ROWS + WORK_ROWS if _narrow(whole, layout) else WORK_ROWS
    tall = lines * 24 * layout.unit * layout.font
    return whole._replace(h=whole.h - tall), whole._replace(y=whole.bottom - tall, h=tall)


def _narrow(whole: Rect, layout: Layout) -> bool:
    return whole.w < NARROW * layout.unit


@lru_cache(maxsize=16)
def panels(whole: Rect, layout: Layout) -> tuple[Rect, Rect, Rect]:
    """Return the panel of the rotary, that of the work of both pilots, and that of the fixed engine."""
    below = band(whole, layout)[1]
    if not _narrow(whole, layout):
        rotary, between, fixed = layout.row(below, WIDTHS)
        return rotary, between, fixed
    upper = below._replace(h=below.h * ROWS / (ROWS + WORK_ROWS))
    rotary, fixed = layout.row(upper, (1.0, 1.0))
    return rotary, below._replace(y=upper.bottom, h=below.bottom - upper.bottom), fixed


def instruments(looks: Looks, view: TurningView, whole: Rect, layout: Layout) -> list[Shape]:
    """Return the panels of both engines, name, push and readings, and the work of both pilots between them."""
    rotary, between, fixed = panels(whole, layout)
    found: list[Shape] = [work(looks, view, between, layout)]
    for who, plane, panel in (("rotary", view.rotary, rotary), ("fixed", view.fixed, fixed)):
        _, push, values = rows(panel, ROWS, layout)
        items = (
            _named(looks.language, who, panel, layout),
            *_push(looks, plane, view.camera_heading_rad, push, layout=layout),
            *_values(looks, plane, values, layout),
        )
        found.append(Clip(panel, items))
    return found


@lru_cache(maxsize=16)
def _named(language: str, who: str, panel: Rect, layout: Layout) -> Layer:
    """Return the ground of a panel with the name of whose it is."""
    name = rows(panel, ROWS, layout)[0]
    words = Text(name, say(language, f"turning.{who}"), who, 17 * layout.unit, bold=True)
    return Layer(panel, (Block(panel, "tag"), words))


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
    return [Text(row, said, "ink", LETTERS * layout.unit, bold=True)]
