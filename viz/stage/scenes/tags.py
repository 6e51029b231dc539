"""Labels that stand beside what they name, with a line to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.shapes import Block, Disc, Line, Shape, Text

if TYPE_CHECKING:
    from viz.stage.shapes import Point, Rect


LETTERS = 20.0
"""Letters of a label, in units."""
BOLD, BOLD_OF_MANY, MANY = 0.72, 0.66, 30
"""How wide a bold letter is over its size, at most, over a whole label, and over one of more letters than these."""


def wide(words: str, unit: float) -> float:
    """Return how wide a label for these words is on one line [px]."""
    return ((BOLD if len(words) <= MANY else BOLD_OF_MANY) * LETTERS * len(words) + 12.0) * unit


def tag(rect: Rect, words: str, unit: float, *, ground: str = "ink", to: Point | None = None) -> list[Shape]:
    """Return a label on a plate, with a line from the nearer side of it to a point."""
    shapes: list[Shape] = []
    if to is not None:
        start = (min(max(to[0], rect.x), rect.right), min(max(to[1], rect.y), rect.bottom))
        shapes = [
            Line((start, to), "keyline", 4 * unit),
            Line((start, to), "ink", 2 * unit),
            Disc(*to, 4 * unit, "ink"),
        ]
    return [
        *shapes,
        Block(rect, ground),
        Text(rect.inset(4 * unit), words, "on_colour", LETTERS * unit, "center", bold=True),
    ]
