"""Whose airplane is whose: a label for each with its engine, and a line from it to the airplane."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from viz.stage.palette import HOLLOW
from viz.stage.scenes.noses import EDGE, TALL
from viz.stage.scenes.tags import tag, wide
from viz.stage.shapes import Rect, Shape
from viz.words.say import say

if TYPE_CHECKING:
    from viz.stage.layout import Layout
    from viz.stage.shapes import Point

WIDE: Final = 1.9
"""Width of a picture over its height from which it has room for two airplanes side by side."""
TWO_LINES: Final = 0.6
"""Width of a label in two lines over that in one."""
TALLER: Final = 1.8
"""Its height over that of one in one line."""


def narrow(view: Rect) -> bool:
    """Return whether a picture has no room for two airplanes side by side."""
    return view.w < WIDE * view.h


def rooms(view: Rect, layout: Layout, language: str) -> dict[str, Rect]:
    """Return where the labels stand: in the lower corners.

    In a narrow picture, where the ghost is higher, its label is in an upper corner.
    """
    grown, edge = layout.unit * layout.font, EDGE * layout.unit
    found = {}
    for who in ("rotary", HOLLOW):
        long = min(TWO_LINES * wide(say(language, f"turning.with_{who}"), grown), 0.5 * view.w - 2 * edge)
        tall = TALLER * TALL * grown
        low, high = view.bottom - edge - tall, view.y + edge
        left = view.x + edge if who == HOLLOW else view.right - edge - long
        found[who] = Rect(left, high if who == HOLLOW and narrow(view) else low, long, tall)
    return found


def names(places: dict[str, Point], view: Rect, layout: Layout, *, language: str) -> list[Shape]:
    """Return the labels, each with a line to the place of its airplane."""
    return [
        shape
        for who, room in rooms(view, layout, language).items()
        for shape in tag(room, say(language, f"turning.with_{who}"), layout.unit, ground=who, to=places[who])
    ]
