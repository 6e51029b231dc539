"""Words as pixels: wrapped into their box, set smaller where they would not fit, and kept for the next frame."""

from __future__ import annotations

from collections import OrderedDict
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

import pygame

from viz.stage.palette import Contrast, colour

if TYPE_CHECKING:
    from viz.stage.shapes import Text

AREA_KEPT = 0.3
"""Area of all texts kept as pictures, over that of the window; the one unused for longest makes room."""
FONTS_KEPT = 12
"""Fonts open at a time: each takes a megabyte, and one that is opened again a third of a millisecond."""
LEAST_PX = 8
SHRINK = 0.9

Piece = tuple[pygame.Surface, tuple[int, int]]


@lru_cache(maxsize=1)
def _folder() -> Path:
    """Return where the plotting library keeps its fonts: the same letters on every machine."""
    spec = find_spec("matplotlib")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError(name="matplotlib")
    return Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf"


@lru_cache(maxsize=FONTS_KEPT)
def _font(size: int, bold: bool) -> pygame.font.Font:
    pygame.font.init()
    return pygame.font.Font(_folder() / ("DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"), size)


def _wrapped(font: pygame.font.Font, text: str, width: float) -> list[str] | None:
    """Return the lines of a text no wider than `width`, or None where a word alone is wider."""
    lines: list[str] = []
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font.size(longer)[0] <= width:
            lines[-1] = longer
        elif font.size(word)[0] <= width:
            lines.append(word)
        else:
            return None
    return lines


def _area(pieces: list[Piece]) -> int:
    return sum(picture.get_width() * picture.get_height() for picture, _ in pieces)


class Lettering:
    """Sets texts in one contrast and letter size; `small` lists those that had to be set under the least size."""

    def __init__(self) -> None:
        self._kept: OrderedDict[tuple[object, ...], list[Piece]] = OrderedDict()
        self._pixels = 0
        self.small: list[str] = []

    def pieces(self, text: Text, contrast: Contrast, scale: float, window_pixels: int) -> list[Piece]:
        """Return the lines of a text as pictures, each with its place from the top left of the box."""
        key = (text.text, text.rect.w, text.rect.h, text.role, text.size, text.align, text.bold, contrast, scale)
        kept = self._kept.get(key)
        if kept is None:
            kept = self._set(text, contrast, scale)
            self._kept[key] = kept
            self._pixels += _area(kept)
            self._make_room(AREA_KEPT * window_pixels)
        else:
            self._kept.move_to_end(key)
        return kept

    def _make_room(self, most_pixels: float) -> None:
        while self._pixels > most_pixels and len(self._kept) > 1:
            self._pixels -= _area(self._kept.popitem(last=False)[1])

    def _set(self, text: Text, contrast: Contrast, scale: float) -> list[Piece]:
        if not text.text:
            return []
        size, lines = self._fitted(text, scale)
        font = _font(size, text.bold)
        high = font.get_linesize()
        top = (text.rect.h - high * len(lines)) / 2
        ink = colour(text.role, contrast)
        pieces = []
        for row, line in enumerate(lines):
            picture = font.render(line, True, ink)
            spare = text.rect.w - picture.get_width()
            left = {"left": 0.0, "center": spare / 2, "right": spare}[text.align]
            pieces.append((picture, (round(left), round(top + row * high))))
        return pieces

    def _fitted(self, text: Text, scale: float) -> tuple[int, list[str]]:
        wanted = text.size * scale
        while True:
            size = max(LEAST_PX, round(wanted))
            font = _font(size, text.bold)
            lines = _wrapped(font, text.text, text.rect.w)
            if lines is not None and font.get_linesize() * len(lines) <= text.rect.h + 1:
                return size, lines
            if size <= LEAST_PX:
                self.small.append(text.text)
                return size, lines or [text.text]
            wanted = min(wanted * SHRINK, size - 1)
