"""Where everything stands in a window of a given size, so that nothing overlaps and a finger finds it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from viz.stage.shapes import Rect

LEAST, MOST = (960, 540), (7680, 4320)
"""Longer and shorter side of the smallest window and of the largest picture; upright ones count as well [px]."""
LEAST_PICTURE = (640, 360)
"""Longer and shorter side of the smallest picture, which has nothing to be touched [px]."""
FINGER = 44.0
"""Height of whatever is touched, in a window of 1280 × 720 [px]."""
SENTENCE = 26.0
"""Letters of the sentence about what happens, in units.

Their capitals are 14 mm high on a screen of 43 inches, 16 minutes of arc from 3 m away: the least of ISO 9241-303.
"""
TITLE = 44.0
"""Letters of the title of the attract loop, in units."""
PANEL = 210.0
"""Height of stick and sliders in an upright window, in units."""
EDGE = 6.0
Front = Literal["full", "bare", "attract"]
"""What stands about the picture: everything that is touched, nothing of it, or the title of the attract loop."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The window cut into its parts.

    Attributes
    ----------
    unit : float
        A pixel of a window of 1280 × 720, or 720 × 1280: others hold as much, or more in one direction.
    font : float
        Size of letters, 1 for the smallest.
    upright : bool
        Whether the window is higher than wide. What is touched is then all in its lower half, for one hand.
    front : Front
        What stands about the picture.
    top, tools : Rect
        Scenes, or the title; languages and what is set for all scenes.
    stage, panel, caption, bottom, strip : Rect
        The picture, stick and sliders below it, which is empty but in an upright window, the sentence, the buttons, and
        the cautions in a line.
    """

    unit: float
    font: float
    upright: bool
    front: Front
    top: Rect
    tools: Rect
    stage: Rect
    panel: Rect
    caption: Rect
    bottom: Rect
    strip: Rect

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
        """Return the picture, and the room of stick and sliders: `wide` units on its right, or the panel below it."""
        if self.front != "full":
            return self.stage, self.stage._replace(x=self.stage.right, w=0.0)
        if self.upright:
            return self.stage, self.panel
        gap = EDGE * self.unit
        column = wide * self.unit * (1.0 + 0.3 * (self.font - 1.0))
        picture = self.stage._replace(w=self.stage.w - column - gap)
        return picture, self.stage._replace(x=picture.right + gap, w=column)


def fits(width: int, height: int, least: tuple[int, int] = LEAST, most: tuple[int, int] = MOST) -> bool:
    """Tell whether a size lies within two, longer side first; it may stand upright [px]."""
    sides = sorted((width, height), reverse=True)
    return all(low <= side <= high for low, side, high in zip(least, sides, most, strict=True))


def at_least(width: int, height: int) -> tuple[int, int]:
    """Return a size brought up to the smallest window, upright if it was [px]."""
    least = LEAST[::-1] if height > width else LEAST
    return max(width, least[0]), max(height, least[1])


@lru_cache(maxsize=16)
def layout(width: int, height: int, font: float, front: Front = "full") -> Layout:
    """Return the parts of a window; larger letters get a taller caption [px]."""
    upright = height > width
    unit = min(max(width, height) / 1280.0, min(width, height) / 720.0)
    empty = Rect(EDGE * unit, EDGE * unit, width - 2 * EDGE * unit, 0.0)
    heights = _heights(font, upright, front)
    found = dict.fromkeys(("top", "tools", "stage", "panel", "caption", "bottom", "strip"), empty)
    gap = EDGE * unit
    left = height - gap - sum(tall * unit + gap for _, tall in heights)
    y = gap
    for name, tall in heights:
        found[name] = empty._replace(y=y, h=tall * unit + (left if name == "stage" else 0.0))
        y = found[name].bottom + gap
    if not upright and front != "bare":
        _share(found, "top" if front == "full" else "bottom", 0.57, gap)
    return Layout(unit, font, upright, front, **found)


def _share(found: dict[str, Rect], name: str, share: float, gap: float) -> None:
    """Give the right end of a row to the tools."""
    whole = found[name]
    found[name] = whole._replace(w=share * whole.w)
    found["tools"] = whole._replace(x=found[name].right + gap, w=whole.right - found[name].right - gap)


def _heights(font: float, upright: bool, front: Front) -> list[tuple[str, float]]:
    """Return the parts from the top down with their heights in units; the stage takes what they leave."""
    bar = FINGER * (0.5 + 0.5 * font)
    lines = 1.2 * SENTENCE * font
    caption = ("caption", 12 + (3 * lines + 24 * font if upright else 2 * lines))
    strip = ("strip", (18 * font + 2) * (2 if upright else 1))
    if front == "bare":
        return [("stage", 0.0), caption, strip]
    if front == "attract":
        title = ("top", (2 if upright else 1) * 1.3 * TITLE + 12)
        tools = [("tools", 1.5 * bar)] if upright else []
        return [title, ("stage", 0.0), caption, ("bottom", 104.0), *tools, strip]
    if upright:
        rows = [("bottom", bar), ("top", bar), ("tools", bar)]
        return [("stage", 0.0), caption, ("panel", PANEL), *rows, strip]
    return [("top", bar), ("stage", 0.0), caption, ("bottom", bar), strip]
