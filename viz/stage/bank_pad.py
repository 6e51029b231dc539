"""The pad on which a finger sets the bank of both airplanes: to the side only, as data and as shapes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from viz.stage.palette import HOLLOW
from viz.stage.shapes import Block, Disc, Line, Rect, Shape, Text

if TYPE_CHECKING:
    from viz.stage.shapes import Point

REACH = 0.42
"""Of the pad's width, from its middle to full bank."""


class BankPad(NamedTuple):
    """A pad along which a finger is dragged to the side, right positive, −1..1 of the largest bank.

    `told_rad` is the bank of the wings on it, told to the pilots, or the rotary's where nobody is told any; `flown` is
    whose airplane has which, right wing down positive.
    """

    rect: Rect
    words: str
    share: float
    told_rad: float
    flown: tuple[tuple[str, float], ...]

    @property
    def middle(self) -> Point:
        """Where the wings cross [px]."""
        return self.rect.center[0], self.rect.y + 0.5 * self.rect.h

    @property
    def groove_y(self) -> float:
        """Height of the track of the finger [px]."""
        return self.rect.bottom - 0.14 * self.rect.h

    def deflection_at(self, x: float, y: float) -> tuple[float, float]:  # noqa: ARG002
        """Return what a finger at a point asks for: to the side, and never along."""
        return min(max((x - self.rect.center[0]) / (REACH * self.rect.w), -1.0), 1.0), 0.0


def still(pad: BankPad, unit: float) -> tuple[Shape, ...]:
    """Return the shapes that stay: the pad, its words, the horizon, and the track with its two ends.

    The knob covers the whole head of an arrow at its end, so no part of one looks broken off.
    """
    x, y = pad.middle
    reach, low, head = REACH * pad.rect.w, pad.groove_y, 8 * unit
    arrows = (
        ((x + way * reach - way * head, low - head), (x + way * reach, low), (x + way * reach - way * head, low + head))
        for way in (-1.0, 1.0)
    )
    return (
        Block(pad.rect, "button"),
        Block(pad.rect, "panel_edge", rim=unit),
        Text(pad.rect._replace(h=0.16 * pad.rect.h).inset(3 * unit), pad.words, "ink", 16 * unit, "center", bold=True),
        Line(((pad.rect.x, y), (pad.rect.right, y)), "groove", 2 * unit, smooth=False),
        Line(((x - reach, low), (x + reach, low)), "groove", 6 * unit, smooth=False),
        *(Line(arrow, "ink", 3 * unit) for arrow in arrows),
    )


def moving(pad: BankPad, unit: float) -> tuple[Shape, ...]:
    """Return the shapes that move: wings as told, where both airplanes have theirs, and the finger's knob."""
    x, y = pad.middle
    half = min(0.4 * pad.rect.w, 0.2 * pad.rect.h / math.sin(math.radians(45.0)))

    def wings(bank_rad: float, reach: float, above: float = 0.0) -> tuple[Point, Point]:
        along, down = math.cos(bank_rad), math.sin(bank_rad)
        top = (x + above * down, y - above * along)
        return (top[0] - reach * along, top[1] - reach * down), (top[0] + reach * along, top[1] + reach * down)

    marks = [
        Disc(*end, 7 * unit, role, rim=2 * unit) if role == HOLLOW else Disc(*end, 4 * unit, role)
        for role, bank_rad in reversed(pad.flown)
        for end in wings(bank_rad, half)
    ]
    return (
        Line(wings(pad.told_rad, half), "knob", 5 * unit),
        Line(wings(pad.told_rad, 0.9 * half, 0.2 * half), "knob", 5 * unit),
        Disc(x, y, 0.13 * half, "knob"),
        *marks,
        Disc(x + pad.share * REACH * pad.rect.w, pad.groove_y, 13 * unit, "knob"),
    )
