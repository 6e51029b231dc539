"""The trigger that a visitor holds: hatched while the gun would not fire, plain while it fires or would."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage.shapes import Block, Clip, Layer, Polygon, Shape, Text

if TYPE_CHECKING:
    from viz.stage.gun_states import CamState
    from viz.stage.widgets import Button

BARS = 8
PLAIN = {"now": "now", "not_now": "wait", "none": "strike", "fast": "steel"}


@lru_cache(maxsize=32)
def fire_button(button: Button, shown: CamState, unit: float, focused: bool) -> Layer:
    """Return the trigger; a held one has a wide light rim."""
    rect, role = button.rect, PLAIN[shown]
    rim = (7 if button.on else 3) * unit
    face = rect.inset(rim)
    items: list[Shape] = [Block(rect, "focus" if focused else "ink"), Block(face, role)]
    if shown == "not_now":
        step = face.w / BARS
        slant = min(face.h, 3 * step)
        bars = tuple(
            Polygon(
                (
                    (x, face.bottom),
                    (x + 0.4 * step, face.bottom),
                    (x + 0.4 * step + slant, face.y),
                    (x + slant, face.y),
                ),
                "wait_dark",
            )
            for x in (face.x + (bar - BARS // 2) * step for bar in range(2 * BARS))
        )
        items.append(Clip(face, bars))
    words = face._replace(y=face.y + 0.25 * face.h, h=0.5 * face.h, x=face.x + 0.1 * face.w, w=0.8 * face.w)
    return Layer(
        rect, (*items, Block(words, role), Text(words, button.label, "on_colour", 44 * unit, "center", bold=True))
    )
