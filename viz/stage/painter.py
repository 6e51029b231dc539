"""Shapes as pixels: the only place that draws. A plain surface will do; no window is needed."""

from __future__ import annotations

from collections import OrderedDict
from typing import TYPE_CHECKING, Any

import pygame
from pygame import gfxdraw

from viz.stage.country.paint import paint_country
from viz.stage.dirty import changed
from viz.stage.lettering import Lettering
from viz.stage.palette import Contrast, colour
from viz.stage.shapes import Block, Clip, Country, Disc, Facets, Layer, Line, Outline, Polygon, Rect, Shape, Text, Veil
from viz.stage.solid.paint import paint_facets, paint_outline, paint_veil

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

PICTURES_KEPT = 160
PICTURE_AREAS_KEPT = 1.6
"""Area of all pictures kept, over that of the window: two backdrops of a scene, and what stands on one."""
FAR_PX = 30000
"""What the drawing library takes as a coordinate; farther points are brought back to here."""


class Painter:
    """Draws shapes in a contrast and a size of letters; keeps pictures and words for the next frame."""

    def __init__(self, contrast: Contrast = "normal", letters: float = 1.0) -> None:
        self.contrast, self.letters = contrast, letters
        self.lettering = Lettering()
        self._window_pixels = 0
        self._still: dict[Rect, tuple[Shape, ...]] = {}
        self._pictures: OrderedDict[tuple[int, Contrast, float], tuple[object, pygame.Surface]] = OrderedDict()
        self._ways: dict[type, Callable[[pygame.Surface, Any], object]] = {
            Block: self._block,
            Polygon: self._polygon,
            Line: self._line,
            Disc: self._disc,
            Text: self._text,
            Clip: self._clip,
            Layer: self._picture,
            Country: lambda surface, shape: paint_country(surface, shape, self.contrast),
            Facets: lambda surface, shape: paint_facets(surface, shape, self.contrast),
            Outline: lambda surface, shape: paint_outline(surface, shape, self.contrast),
            Veil: lambda surface, shape: paint_veil(surface, shape, self.contrast),
        }

    def paint(self, surface: pygame.Surface, shapes: Sequence[Shape], *, fresh: bool = True) -> list[pygame.Rect]:
        """Draw every shape, the first one hindmost; unless `fresh`, what is still stands on the surface already.

        Return where something was drawn: whoever shows the surface need not copy the rest.
        """
        if fresh:
            self._still.clear()
        self._window_pixels = surface.get_width() * surface.get_height()
        places: list[pygame.Rect] = []
        for shape in shapes:
            if isinstance(shape, Clip):
                places += self._clip(surface, shape)
            else:
                self._draw(surface, (shape,))
        return places if all(isinstance(shape, Clip) for shape in shapes) else [surface.get_rect()]

    def _draw(self, surface: pygame.Surface, shapes: Iterable[Shape]) -> None:
        ways = self._ways
        for shape in shapes:
            ways[type(shape)](surface, shape)

    def _block(self, surface: pygame.Surface, block: Block) -> None:
        ink = colour(block.role, self.contrast)
        if block.rim:
            pygame.draw.rect(surface, ink, _whole(block.rect), max(1, round(block.rim)))
        else:
            surface.fill(ink, _whole(block.rect))

    def _polygon(self, surface: pygame.Surface, polygon: Polygon) -> None:
        ink = colour(polygon.role, self.contrast, polygon.shade, polygon.fade)
        gfxdraw.filled_polygon(surface, polygon.points, ink)
        if polygon.smooth:
            gfxdraw.aapolygon(surface, polygon.points, ink)

    def _line(self, surface: pygame.Surface, line: Line) -> None:
        ink = colour(line.role, self.contrast, 1.0, line.fade)
        width = max(1, round(line.width))
        if width == 1 and line.smooth:
            pygame.draw.aalines(surface, ink, False, line.points)
        elif len(line.points) == 2:
            pygame.draw.line(surface, ink, line.points[0], line.points[1], width)
        else:
            pygame.draw.lines(surface, ink, False, line.points, width)

    def _disc(self, surface: pygame.Surface, disc: Disc) -> None:
        ink = colour(disc.role, self.contrast, 1.0, disc.fade)
        x, y, radius = round(disc.x), round(disc.y), round(disc.radius)
        if not (abs(x) < FAR_PX and abs(y) < FAR_PX):
            return
        if disc.rim:
            pygame.draw.circle(surface, ink, (x, y), radius, max(1, round(disc.rim)))
        else:
            gfxdraw.filled_circle(surface, x, y, radius, ink)
            gfxdraw.aacircle(surface, x, y, radius, ink)

    def _text(self, surface: pygame.Surface, text: Text) -> None:
        left, top = round(text.rect.x), round(text.rect.y)
        for picture, (x, y) in self.lettering.pieces(text, self.contrast, self.letters, self._window_pixels):
            surface.blit(picture, (left + x, top + y))

    def _clip(self, surface: pygame.Surface, clip: Clip) -> list[pygame.Rect]:
        """Draw a clip, and return where."""
        if clip.still:
            if self._still.get(clip.rect) == clip.items:
                return []
            self._still[clip.rect] = clip.items
        before, parts = surface.get_clip(), self._parts(clip)
        for part, items in parts:
            surface.set_clip(part.clip(before))
            self._draw(surface, items)
        surface.set_clip(before)
        return [part for part, _ in parts]

    def _parts(self, clip: Clip) -> Sequence[tuple[pygame.Rect, Sequence[Shape]]]:
        """Return where a clip is drawn and what: over a picture that fills it, only where it is not as it was."""
        whole, ground = _whole(clip.rect), clip.items[0] if clip.items else None
        if clip.still or not (isinstance(ground, Layer) and ground.rect == clip.rect and not ground.clear):
            return [(whole, clip.items)]
        stood = self._still.get(clip.rect)
        self._still[clip.rect] = clip.items
        parts = changed(stood, clip.items) if stood else None
        return [(whole, clip.items)] if parts is None else [(part.clip(whole), items) for part, items in parts]

    def _picture(self, surface: pygame.Surface, picture: Layer) -> None:
        """Draw a picture once and copy it after that; it is known by being the very same tuple of shapes."""
        key = (id(picture.items), self.contrast, self.letters)
        kept = self._pictures.get(key)
        place = _whole(picture.rect)
        if kept is None or kept[0] is not picture.items or kept[1].get_size() != place.size:
            drawn = _sheet(place.size, picture.clear)
            self._draw(drawn, [_moved(shape, -place.x, -place.y) for shape in picture.items])
            kept = self._pictures[key] = (picture.items, drawn)
            self._make_room(PICTURE_AREAS_KEPT * self._window_pixels)
        self._pictures.move_to_end(key)
        surface.blit(kept[1], place.topleft)

    def _make_room(self, most_pixels: float) -> None:
        pixels = sum(drawn.get_width() * drawn.get_height() for _, drawn in self._pictures.values())
        while len(self._pictures) > PICTURES_KEPT or (pixels > most_pixels and len(self._pictures) > 1):
            _, (_, drawn) = self._pictures.popitem(last=False)
            pixels -= drawn.get_width() * drawn.get_height()


def _whole(rect: Rect) -> pygame.Rect:
    """Return the rectangle on whole pixels; neighbours stay neighbours."""
    left, top = round(rect.x), round(rect.y)
    return pygame.Rect(left, top, max(0, round(rect.x + rect.w) - left), max(0, round(rect.y + rect.h) - top))


def _sheet(size: tuple[int, int], clear: bool) -> pygame.Surface:
    if clear:
        return pygame.Surface(size, pygame.SRCALPHA)
    return pygame.Surface(size, depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))


def _moved(shape: Shape, dx: float, dy: float) -> Shape:
    """Return a shape moved by whole pixels."""
    if isinstance(shape, Disc):
        return shape._replace(x=shape.x + dx, y=shape.y + dy)
    if isinstance(shape, (Line, Polygon)):
        return shape._replace(points=tuple((x + dx, y + dy) for x, y in shape.points))
    if isinstance(shape, Facets):
        by = (dx, dy)
        keyline = shape.keyline._replace(ends=shape.keyline.ends + by)
        return shape._replace(corners=shape.corners + by, ends=shape.ends + by, keyline=keyline)
    if isinstance(shape, (Outline, Veil)):
        message = f"{type(shape).__name__}: what changes with every frame is not kept as a picture"
        raise TypeError(message)
    moved = shape._replace(rect=shape.rect._replace(x=shape.rect.x + dx, y=shape.rect.y + dy))
    if isinstance(moved, (Clip, Layer)):
        return moved._replace(items=tuple(_moved(item, dx, dy) for item in moved.items))
    return moved
