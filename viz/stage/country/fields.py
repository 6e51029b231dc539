"""A square of country from above that joins itself on all sides: fields, hedges, woods, river, road and airfield."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np
import pygame

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Ink = tuple[int, int, int]

BITS: Final = 11
PIXELS: Final = 1 << BITS
"""Side of the square. [px]"""
PIXEL_M: Final = 1.5
LEVELS: Final = 6
"""The square at whole size, half, a quarter and so on."""
FIELDS: Final = 14
"""Fields along a side."""
SEED: Final = 4
EDGE: Final = 12.0
"""What stands along the side of a field reaches no farther over it. [px]"""
CROPS: Final[tuple[Ink, ...]] = (
    (112, 128, 72),
    (128, 138, 78),
    (96, 116, 66),
    (186, 164, 96),
    (150, 146, 84),
    (204, 182, 112),
    (116, 98, 66),
    (88, 112, 70),
    (140, 150, 92),
    (164, 142, 88),
)
HEDGE, HEDGE_LIGHT, LEAVES, SHADE = (70, 84, 48), (84, 102, 54), (98, 116, 58), (58, 66, 44)
RIVER: Final[tuple[tuple[float, Ink], ...]] = (
    (36.0, (96, 112, 62)),
    (27.0, (150, 158, 128)),
    (22.0, (128, 156, 172)),
    (13.0, (160, 186, 198)),
)
ROAD: Final[tuple[tuple[float, Ink], ...]] = ((8.0, (150, 138, 104)), (5.0, (220, 206, 168)))
AIRFIELD: Final = (350.0, 350.0)


@lru_cache(maxsize=2)
def fields(contrast: str) -> tuple[NDArray[np.int32], ...]:
    """Return the square as packed colours, flat, north after north; at whole size, half, and so on.

    Parameters
    ----------
    contrast : str
        ``normal``, or ``high`` for a dark and plain country that nothing is lost against.
    """
    square = _drawn()
    found = []
    for _ in range(LEVELS):
        colours = pygame.surfarray.array3d(square).astype(np.float64)
        if contrast == "high":
            colours *= 0.28
        red, green, blue = (colours[..., channel].astype(np.int32) for channel in range(3))
        found.append(np.ascontiguousarray(red << 16 | green << 8 | blue).ravel())
        square = pygame.transform.smoothscale(square, (square.get_width() // 2,) * 2)
    return tuple(found)


def _drawn() -> pygame.Surface:
    random = np.random.default_rng(SEED)
    square = pygame.Surface((PIXELS, PIXELS), depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))
    corners = _corners(random)
    for number, cell in _cells(corners):
        _field(
            square, np.random.default_rng((SEED, number)), cell, CROPS[(number * 7 + number // FIELDS * 3) % len(CROPS)]
        )
    for number, cell in _cells(corners):
        for side, end in enumerate((1, 3)):
            _hedge(square, np.random.default_rng((SEED, number, side)), cell[0], cell[end])
    for _ in range(26):
        wood = random.uniform(60.0, PIXELS - 60.0, 2)
        for _ in range(random.integers(10, 60)):
            _tree(square, wood + random.normal(0.0, 16.0, 2), random.uniform(2.5, 5.0))
    _winding(square, RIVER, across=False)
    _winding(square, ROAD, across=True)
    _airfield(square)
    return square


def _corners(random: np.random.Generator) -> Numbers:
    """Return corners of fields, one more each way than there are fields, the last as the first, shape (n, n, 2)."""
    shift = random.uniform(-0.28, 0.28, (FIELDS + 1, FIELDS + 1, 2))
    shift[-1], shift[:, -1] = shift[0], shift[:, 0]
    steps = np.arange(FIELDS + 1)
    grid = np.stack(np.meshgrid(steps, steps, indexing="ij"), axis=-1)
    return np.asarray((grid + shift) * (PIXELS / FIELDS))


def _cells(corners: Numbers) -> Iterator[tuple[int, Numbers]]:
    """Yield number and corners of every field; one that lies over an edge of the square comes on both sides of it."""
    for i in range(FIELDS):
        for j in range(FIELDS):
            cell = np.array([corners[i, j], corners[i + 1, j], corners[i + 1, j + 1], corners[i, j + 1]])
            for shift in _shifts(cell):
                yield i * FIELDS + j, cell + shift


def _shifts(cell: Numbers) -> list[tuple[float, float]]:
    """Return where a field is drawn besides its place: with its hedges, a tree's width beyond the edge, too."""
    low, high = cell.min(axis=0) - EDGE, cell.max(axis=0) + EDGE
    ways = [
        [0.0, *([PIXELS] if low[axis] < 0.0 else []), *([-PIXELS] if high[axis] > PIXELS else [])] for axis in (0, 1)
    ]
    return [(dx, dy) for dx in ways[0] for dy in ways[1]]


def _field(square: pygame.Surface, random: np.random.Generator, cell: Numbers, crop: Ink) -> None:
    pygame.draw.polygon(square, crop, cell.tolist())
    one, other = ((0, 1), (3, 2)) if random.integers(0, 2) else ((0, 3), (1, 2))
    for share in np.linspace(0.0, 1.0, 2 * int(random.integers(9, 22)))[1:-1]:
        ends = (cell[[one[0], other[0]]] * (1.0 - share) + cell[[one[1], other[1]]] * share).tolist()
        ink = np.clip(np.array(crop) * random.uniform(0.93, 1.04), 0, 255).astype(int).tolist()
        pygame.draw.line(square, ink, ends[0], ends[1], 2)


def _hedge(square: pygame.Surface, random: np.random.Generator, one: Numbers, other: Numbers) -> None:
    pygame.draw.line(square, HEDGE, (one + 1.5).tolist(), (other + 1.5).tolist(), 4)
    pygame.draw.line(square, HEDGE_LIGHT, one.tolist(), other.tolist(), 3)
    for share in random.uniform(0.0, 1.0, int(np.hypot(*(other - one)) / 8.0)):
        _tree(square, one * (1.0 - share) + other * share + random.normal(0.0, 1.0, 2), random.uniform(1.5, 4.2))


def _tree(square: pygame.Surface, place: Numbers, radius: float) -> None:
    x, y = map(float, place)
    pygame.draw.ellipse(square, SHADE, (x - 0.2 * radius, y - 0.7 * radius, 2.6 * radius, 1.6 * radius))
    pygame.draw.circle(square, HEDGE, (x, y), radius)
    pygame.draw.circle(square, LEAVES, (x - 0.25 * radius, y - 0.25 * radius), 0.62 * radius)


def _winding(square: pygame.Surface, bands: tuple[tuple[float, Ink], ...], *, across: bool) -> None:
    """Draw a river or a road that leaves the square where it comes in."""
    share = np.linspace(0.0, 1.0, 160)
    turn = 2.0 * np.pi * share
    aside = 0.36 + 0.05 * np.sin(turn) if across else 0.60 + 0.10 * np.sin(turn) + 0.03 * np.sin(3.0 * turn + 1.0)
    way = PIXELS * np.stack([aside, share] if across else [share, aside], axis=1)
    for width, ink in bands:
        for place in way.tolist():
            pygame.draw.circle(square, ink, place, 0.5 * width)
        pygame.draw.lines(square, ink, False, way.tolist(), round(width))


def _airfield(square: pygame.Surface) -> None:
    x, y = AIRFIELD
    pygame.draw.polygon(
        square, (136, 152, 88), [(x - 80, y - 60), (x + 95, y - 75), (x + 105, y + 55), (x - 70, y + 65)]
    )
    for stripe in range(-6, 7):
        start, end = (x - 75 + 1.5 * stripe, y + 9 * stripe - 2), (x + 97, y - 7 + 9 * stripe)
        pygame.draw.line(square, (144, 160, 94), start, end, 4)
    pygame.draw.circle(square, (236, 232, 214), (x + 10, y), 13, 3)
    for hall in range(4):
        left, top = x - 65 + 20 * hall, y - 54
        pygame.draw.rect(square, (70, 74, 52), (left + 3, top + 3, 15, 11))
        pygame.draw.rect(square, (168, 92, 66), (left, top, 15, 6))
        pygame.draw.rect(square, (128, 66, 50), (left, top + 5, 15, 6))
