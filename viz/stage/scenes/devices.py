"""How it is used: touch, mouse, keys and gamepad, each as a picture of the device in use with a few words."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from viz.stage.shapes import Block, Disc, Line, Polygon, Rect, Shape, Text
from viz.words.say import say

if TYPE_CHECKING:
    from collections.abc import Callable

    from viz.stage.layout import Layout

LETTERS: Final = 19.0
"""Letters of what is said of a device, in units."""
PICTURE: Final = 0.62
"""Height of a picture over that of its card."""

QUARTER_RAD: Final = tuple(0.5 * math.pi * step / 8 for step in range(9))


@lru_cache(maxsize=2)
def devices(language: str, room: Rect, layout: Layout) -> tuple[Shape, ...]:
    """Return four cards in a room, two by two."""
    cards = [card for row in layout.column(room, (-1.0, -1.0)) for card in layout.row(row, (1.0, 1.0))]
    found: list[Shape] = []
    for card, (name, picture) in zip(cards, PICTURES.items(), strict=True):
        upper = card._replace(h=PICTURE * card.h)
        words = card._replace(y=upper.bottom, h=card.bottom - upper.bottom).inset(8 * layout.unit)
        found += [
            Block(card, "panel"),
            Block(card, "panel_edge", rim=layout.unit),
            *picture(*upper.center, 0.01 * min(0.9 * upper.h, 0.5 * upper.w)),
            Text(words, say(language, f"devices.{name}"), "ink", LETTERS * layout.unit, "center"),
        ]
    return tuple(found)


def ways(x: float, y: float, reach: float, px: float) -> list[Shape]:
    """Return two arrows that point to the left and to the right of a point, in the colour of what is done."""
    found: list[Shape] = []
    for way in (-1.0, 1.0):
        neck, tip = x + way * (reach - 14 * px), x + way * reach
        found += [
            Line(((x + way * 0.5 * reach, y), (neck, y)), "caution", 4 * px),
            Polygon(((tip, y), (neck, y - 9 * px), (neck, y + 9 * px)), "caution"),
        ]
    return found


def hand(x: float, tip: float, bottom: float, width: float) -> list[Shape]:
    """Return a hand with one finger stretched out upward, its tip at a height, down to the wrist [px]."""
    fingers = [Rect(x - 0.5 * width, tip, width, bottom - tip)]
    fingers += [fingers[0]._replace(x=x + (0.6 + place * 1.05) * width, y=tip + 1.9 * width) for place in range(3)]
    found: list[Shape] = []
    for finger in fingers:
        y = finger.y + 0.5 * width
        found += [Disc(finger.center[0], y, 0.5 * width, "ink"), Block(finger._replace(y=y, h=bottom - y), "ink")]
    top = tip + 3.2 * width
    return [*found, Block(Rect(x - 0.5 * width, top, fingers[-1].right - x + 0.5 * width, bottom - top), "ink")]


def _box(x: float, y: float, wide: float, tall: float) -> Rect:
    return Rect(x - 0.5 * wide, y - 0.5 * tall, wide, tall)


def _framed(rect: Rect, role: str, px: float) -> list[Shape]:
    return [Block(rect, role), Block(rect, "panel_edge", rim=max(1.0, 2 * px))]


def _touch(x: float, y: float, px: float) -> list[Shape]:
    """Return a screen with the pad on it, and a hand whose finger drags it."""
    screen = _box(x, y - 8 * px, 150 * px, 80 * px)
    finger = hand(x, y - 12 * px, y + 48 * px, 12 * px)
    return [*_framed(screen, "back", px), *ways(x, y - 22 * px, 60 * px, px), *finger]


def _mouse(x: float, y: float, px: float) -> list[Shape]:
    """Return a mouse with its left button down, dragged to the side."""
    radius, top, low = 27 * px, y - 10 * px, y + 20 * px
    quarter = [(x - radius * math.cos(turn), top - radius * math.sin(turn)) for turn in QUARTER_RAD]
    return [
        Line(((x, top - radius), (x, y - 50 * px)), "ink", 3 * px),
        *(Disc(x, middle, radius, "ink") for middle in (top, low)),
        Block(_box(x, 0.5 * (top + low), 2 * radius, low - top), "ink"),
        Polygon(((x, top), *quarter), "caution"),
        Line(((x, top - radius), (x, top), (x - radius, top)), "back", 2 * px),
        *ways(x, y, 80 * px, px),
    ]


def _keys(x: float, y: float, px: float) -> list[Shape]:
    """Return the four arrow keys, those to the sides pressed."""
    side, found = 38 * px, []
    for across, down in ((0, -1), (-1, 0), (0, 0), (1, 0)):
        middle = (x + 1.1 * across * side, y + (1.1 * down + 0.5) * side)
        pressed = across != 0
        key = _box(*middle, side, side)
        found += [
            *_framed(key, "caution" if pressed else "button", px),
            _arrow(middle, across, down, 9 * px, pressed=pressed),
        ]
    return found


def _arrow(at: tuple[float, float], across: int, down: int, size: float, *, pressed: bool) -> Polygon:
    along = (float(across), float(down if down or across else 1))
    tip = (at[0] + size * along[0], at[1] + size * along[1])
    base = [
        (at[0] - size * along[0] + way * size * along[1], at[1] - size * along[1] + way * size * along[0])
        for way in (-1.0, 1.0)
    ]
    return Polygon((tip, *base), "on_colour" if pressed else "ink")


def _pad(x: float, y: float, px: float) -> list[Shape]:
    """Return a gamepad whose left stick is pushed to the side, and its buttons."""
    y += 10 * px
    left, right = (x - 36 * px, y + 4 * px), (x + 36 * px, y + 4 * px)
    body: list[Shape] = [Disc(*end, 32 * px, "ink") for end in (left, right)]
    body.append(Block(Rect(left[0], y - 28 * px, right[0] - left[0], 46 * px), "ink"))
    buttons = [
        Disc(right[0] + 12 * px * across, right[1] - 4 * px + 12 * px * down, 5 * px, "back")
        for across, down in ((0, -1), (-1, 0), (1, 0), (0, 1))
    ]
    stick = [Disc(*left, 17 * px, "back"), Disc(left[0] - 8 * px, left[1], 11 * px, "caution")]
    return [*body, *buttons, *stick, *ways(left[0], y - 42 * px, 44 * px, px)]


PICTURES: Final[dict[str, Callable[[float, float, float], list[Shape]]]] = {
    "touch": _touch,
    "mouse": _mouse,
    "keys": _keys,
    "pad": _pad,
}
"""Device -> its picture about a point, by the size of a hundredth of it [px]."""
