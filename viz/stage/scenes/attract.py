"""What a passer-by reads of the attract loop: a title over the picture, and below it a hand that touches."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage.layout import TITLE
from viz.stage.scenes.devices import hand
from viz.stage.shapes import Block, Disc, Layer, Rect, Shape, Text
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.snapshot import SceneName, Snapshot

TOUCH_S = 2.4
"""A hand comes down and goes up again in this time [s]."""
ICON = 150.0
"""Room of the hand, in units."""


def attract(snapshot: Snapshot, layout: Layout) -> list[Shape]:
    """Return title, hand and what it asks for; the hand stands still where little motion is asked for."""
    language = snapshot.looks.language
    room = layout.bottom
    icon = room._replace(w=ICON * layout.unit)
    words = room._replace(x=icon.right, w=room.right - icon.right)
    return [
        _title(snapshot.scene, language, layout),
        *_hand(icon, 0.0 if snapshot.looks.steady else snapshot.now_s, layout.unit),
        _ask(words, language, layout),
    ]


@lru_cache(maxsize=8)
def _title(scene: SceneName, language: str, layout: Layout) -> Layer:
    rect, words = layout.top, say(language, f"attract.{scene}")
    return Layer(rect, (Block(rect, "tag"), Text(rect, words, "caution", TITLE * layout.unit, "center", bold=True)))


@lru_cache(maxsize=8)
def _ask(rect: Rect, language: str, layout: Layout) -> Layer:
    words = Text(
        rect.inset(6 * layout.unit), say(language, "attract.touch"), "ink", 0.85 * TITLE * layout.unit, bold=True
    )
    return Layer(rect, (Block(rect, "tag"), words))


def _hand(room: Rect, now_s: float, unit: float) -> list[Shape]:
    """Return a hand whose finger touches a spot, and the ring that spreads from it."""
    phase = (now_s / TOUCH_S) % 1.0
    lift = 0.5 + 0.5 * math.cos(math.tau * phase)
    x, spot = room.x + 0.4 * room.w, room.y + 28 * unit
    shapes: list[Shape] = [Block(room, "tag"), Disc(x, spot, 6 * unit, "caution")]
    if phase > 0.5:
        spread = 2.0 * phase - 1.0
        shapes.append(Disc(x, spot, (10 + 16 * spread) * unit, "caution", rim=3 * unit, fade=0.9 * spread))
    return [*shapes, *hand(x, spot + 14 * unit * lift, room.bottom, 18 * unit)]
