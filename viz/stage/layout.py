"""Where everything stands in a window of a given size, so that nothing overlaps and a finger finds it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from viz.stage.shapes import Rect

LEAST, MOST = (960, 540), (3840, 2160)
"""Smallest and largest window [px]."""
FINGER = 44.0
"""Height of whatever is touched, in a window of 1280 × 720 [px]."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The window cut into its parts; `unit` is a pixel of a 1280 × 720 window."""

    unit: float
    font: float
    top: Rect
    stage: Rect
    caption: Rect
    bottom: Rect

    def row(self, within: Rect, widths: tuple[float, ...]) -> tuple[Rect, ...]:
        """Return rectangles side by side, of widths in these proportions, that fill `within`."""
        gap = 4 * self.unit
        room = within.w - gap * (len(widths) - 1)
        rects, x = [], within.x
        for width in widths:
            share = room * width / sum(widths)
            rects.append(Rect(x, within.y, share, within.h))
            x += share + gap
        return tuple(rects)

    def column(self, within: Rect, heights: tuple[float, ...]) -> tuple[Rect, ...]:
        """Return rectangles from the top of `within` down, of heights in units; negative ones share what is left."""
        gap = 6 * self.unit
        left = within.h - gap * (len(heights) - 1) - sum(height for height in heights if height > 0) * self.unit
        spread = -sum(height for height in heights if height < 0) or 1.0
        rects, y = [], within.y
        for height in heights:
            tall = height * self.unit if height > 0 else max(left, 0.0) * -height / spread
            rects.append(Rect(within.x, y, within.w, tall))
            y += tall + gap
        return tuple(rects)

    def beside(self, wide: float) -> tuple[Rect, Rect]:
        """Return the stage cut into a picture and a column `wide` units wide on its right."""
        gap = 6 * self.unit
        column = wide * self.unit * (1.0 + 0.3 * (self.font - 1.0))
        picture = self.stage._replace(w=self.stage.w - column - gap)
        return picture, self.stage._replace(x=picture.right + gap, w=column)

    def sides(self, middle: float) -> tuple[Rect, Rect, Rect]:
        """Return the stage cut into left view, a column `middle` units wide, and right view."""
        gap = 6 * self.unit
        column = middle * self.unit * (1.0 + 0.3 * (self.font - 1.0))
        view = (self.stage.w - column - 2 * gap) / 2
        left = Rect(self.stage.x, self.stage.y, view, self.stage.h)
        centre = Rect(left.right + gap, self.stage.y, column, self.stage.h)
        return left, centre, Rect(centre.right + gap, self.stage.y, view, self.stage.h)


@lru_cache(maxsize=8)
def layout(width: int, height: int, font: float) -> Layout:
    """Return the parts of a window; letters larger by `font` get a taller caption [px]."""
    unit = min(width / 1280.0, height / 720.0)
    edge = 6 * unit
    bar = FINGER * unit
    caption = (12 + 52 * font) * unit
    top = Rect(edge, edge, width - 2 * edge, bar)
    bottom = Rect(edge, height - edge - bar, width - 2 * edge, bar)
    words = Rect(edge, bottom.y - edge - caption, width - 2 * edge, caption)
    stage = Rect(edge, top.bottom + edge, width - 2 * edge, words.y - edge - top.bottom - edge)
    return Layout(unit, font, top, stage, words, bottom)
