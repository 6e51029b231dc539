"""Where a picture has changed from one frame to the next, by the shapes it is made of."""

from __future__ import annotations

import math
from itertools import chain
from typing import TYPE_CHECKING

import numpy as np
import pygame

from viz.stage.shapes import Block, Clip, Disc, Facets, Layer, Line, Outline, Polygon, Text, Veil

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Sequence

    from numpy.typing import NDArray

    from viz.stage.shapes import Shape

MARGIN_PX = 3
"""By how much a shape may reach beyond its points, besides the width of its strokes."""
FAR_PX = 30000.0
ALIKE = (Facets, Outline, Veil)
"""Shapes held in arrays: the same ones only where they are the very same object."""
CUT = (Block, Layer, Text)
"""Shapes of which a part is drawn as the whole is; strokes and smooth edges that end at an edge are not."""


def changed(before: Sequence[Shape], now: Sequence[Shape]) -> list[tuple[pygame.Rect, list[Shape]]] | None:
    """Return where a picture is to be drawn again, and the shapes there; None for all of it, where their order differs.

    The rectangles do not overlap, and none cuts a shape of which a part would be drawn otherwise than the whole.
    """
    old, new = ({_key(shape): shape for shape in shapes} for shapes in (before, now))
    if [key for key in old if key in new] != [key for key in new if key in old]:
        return None
    places = [bounds(shape) for shape in now]
    parts = _apart(
        [place for place, key in zip(places, map(_key, now), strict=True) if key not in old],
        [bounds(shape) for key, shape in old.items() if key not in new],
    )
    whole = [place for place, shape in zip(places, now, strict=True) if not isinstance(shape, CUT)]
    while cut := [
        place for place in whole if any(part.colliderect(place) and not part.contains(place) for part in parts)
    ]:
        parts = _apart(parts, cut)
    return [(part, [now[number] for number in part.collidelistall(places)]) for part in parts]


def _key(shape: Shape) -> Hashable:
    if isinstance(shape, ALIKE):
        return id(shape)
    return (shape.rect, id(shape.items)) if isinstance(shape, (Clip, Layer)) else shape


def _apart(*rects: Iterable[pygame.Rect]) -> list[pygame.Rect]:
    """Return rectangles joined where they overlap."""
    found: list[pygame.Rect] = []
    for rect in chain(*rects):
        joined = rect
        while (met := joined.collidelist(found)) >= 0:
            joined = joined.union(found.pop(met))
        found.append(joined)
    return found


def bounds(shape: Shape) -> pygame.Rect:
    """Return a rectangle on whole pixels that holds a shape."""
    left, top, right, bottom, over = _edges(shape)
    left, top, right, bottom = (min(max(edge, -FAR_PX), FAR_PX) for edge in (left, top, right, bottom))
    corner = math.floor(left - over), math.floor(top - over)
    return pygame.Rect(corner, (math.ceil(right + over) - corner[0], math.ceil(bottom + over) - corner[1]))


def _edges(shape: Shape) -> tuple[float, float, float, float, float]:
    """Return left, top, right and bottom of what a shape is drawn through, and by how much it reaches beyond."""
    if isinstance(shape, Disc):
        reach = shape.radius + shape.rim
        return shape.x - reach, shape.y - reach, shape.x + reach, shape.y + reach, MARGIN_PX
    if isinstance(shape, (Line, Polygon)):
        across, down = zip(*shape.points, strict=True)
        over = MARGIN_PX + (shape.width if isinstance(shape, Line) else 0.0)
        return min(across), min(down), max(across), max(down), over
    if isinstance(shape, Facets):
        return _around(shape.corners, shape.ends, over=max(shape.widths.tolist(), default=0.0))
    if isinstance(shape, Outline):
        return _around(shape.edges)
    if isinstance(shape, Veil):
        return _around(shape.polygons)
    return shape.rect.x, shape.rect.y, shape.rect.right, shape.rect.bottom, MARGIN_PX


def _around(*points: NDArray[np.float64], over: float = 0.0) -> tuple[float, float, float, float, float]:
    across, down = np.concatenate([each.reshape(-1, 2) for each in points]).T.copy()
    return float(across.min()), float(down.min()), float(across.max()), float(down.max()), MARGIN_PX + over
