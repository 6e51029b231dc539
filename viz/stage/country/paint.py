"""Country and sky as pixels: the camera does not bank, so each row of the ground lies at one depth."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np
import pygame
from pygame import gfxdraw

from viz.stage.country.fields import BITS, LEVELS, PIXEL_M, PIXELS, fields
from viz.stage.country.sky import HAZE, sky

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.shapes import Country

    Numbers = NDArray[np.float64]

ROWS: Final = 170
"""The ground is drawn at about as many lines as this for the whole picture, and scaled: that is softer, and quicker."""
COARSE: Final = 3
"""The least number of pixels of the picture that a pixel of the ground is scaled to; more are powers of two."""
HAZE_STEPS: Final = 50
"""Haze follows the distance in steps of about one part in so many."""
CLEAR_M, HAZE_M, MOST_HAZE = 250.0, 2600.0, 0.93
"""Haze begins at the first distance and grows within the second."""
SHADOW: Final = (28, 34, 40, 150)


def paint_country(surface: pygame.Surface, country: Country, contrast: str) -> None:
    """Draw sky, ground and the shadow on it into the rectangle of a country."""
    rect = country.rect
    left, top = round(rect.x), round(rect.y)
    wide, tall = round(rect.right) - left, round(rect.bottom) - top
    horizon = min(max(round(country.horizon_y), top), top + tall)
    _sky(surface, country, horizon, contrast)
    coarse = max(COARSE, 1 << round(math.log2(tall / ROWS)))
    rows, columns = -(-(top + tall - horizon) // coarse), -(-wide // coarse)
    if rows < 2:
        return
    ground, place = _sheet(columns, rows), pygame.Rect(left, horizon, wide, top + tall - horizon)
    depth = _ground(ground, country, horizon, coarse, contrast=contrast)
    for outline in country.shadow:
        gfxdraw.filled_polygon(ground, [((x - left) / coarse, (y - horizon) / coarse) for x, y in outline], SHADOW)
    ground.blit(_haze(columns, rows, depth, contrast), (0, 0))
    if surface.get_clip().contains(place) and surface.get_masks() == ground.get_masks():
        _grown(ground, surface, place, coarse)
    else:
        whole = _sheet(*place.size)
        _grown(ground, whole, whole.get_rect(), coarse)
        surface.blit(whole, place)


def _grown(ground: pygame.Surface, surface: pygame.Surface, place: pygame.Rect, coarse: int) -> None:
    """Fill a place with the ground: softened, and where a pixel of it gets large, in pixels of two by two."""
    if coarse == COARSE:
        pygame.transform.smoothscale(ground, place.size, surface.subsurface(place))
        return
    while coarse > 2:
        ground, coarse = _doubled(ground), coarse // 2
    even = pygame.Rect(place.x, place.y, place.w // 2 * 2, place.h // 2 * 2)
    soft = ground.subsurface((0, 0, even.w // 2, even.h // 2))
    pygame.transform.scale(soft, even.size, surface.subsurface(even))
    if place.w > even.w:
        surface.blit(surface, even.topright, (even.right - 1, even.y, 1, even.h))
    if place.h > even.h:
        surface.blit(surface, even.bottomleft, (even.x, even.bottom - 1, place.w, 1))


def _doubled(ground: pygame.Surface) -> pygame.Surface:
    """Return the ground at twice the size: each pixel, and between two of them their mean."""
    columns, rows = ground.get_size()
    found = _sheet(2 * columns, 2 * rows)
    pixels, larger = (pygame.surfarray.pixels2d(each).T.view(np.int32) for each in (ground, found))
    wide = larger[::2]
    wide[:, ::2] = pixels
    half = _halved(pixels)
    np.add(half[:, 1:], half[:, :-1], out=wide[:, 1:-1:2])
    wide[:, -1] = pixels[:, -1]
    half = _halved(wide)
    np.add(half[1:], half[:-1], out=larger[1:-1:2])
    larger[-1] = wide[-1]
    return found


def _halved(pixels: NDArray[np.int32]) -> NDArray[np.int32]:
    """Return packed colours of half the light."""
    found = pixels >> 1
    found &= 0x7F7F7F
    return found


@lru_cache(maxsize=12)
def _sheet(columns: int, rows: int) -> pygame.Surface:
    return pygame.Surface((columns, rows), depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))


def _sky(surface: pygame.Surface, country: Country, horizon: int, contrast: str) -> None:
    left, top, wide, _ = (round(part) for part in country.rect)
    tall = max(8, horizon - top)
    around = max(8, round(math.tau * country.focal_px / 8.0) * 8)
    picture = sky(around, tall, contrast)
    x = left + int(-country.heading_rad * country.focal_px + 0.5 * wide) % around - around
    while x < left + wide:
        surface.blit(picture, (x, horizon - tall))
        x += around


def _ground(ground: pygame.Surface, country: Country, horizon: int, coarse: int, *, contrast: str) -> tuple[float, ...]:
    """Fill the ground, each pixel `coarse` of the picture, row by row from the square; return how far some rows are."""
    columns, rows = ground.get_size()
    centre_x, centre_y = country.centre
    middle = 0.5 if coarse == COARSE else 0.25  # what `_doubled` puts at the start of a pixel is there
    down = ((np.arange(rows, dtype=float) + middle) * coarse + horizon - centre_y) / country.focal_px
    pitch = coarse / country.focal_px
    right = middle * pitch + (round(country.rect.x) - centre_x) / country.focal_px
    cosine, sine = math.cos(country.tilt_rad), math.sin(country.tilt_rad)
    along = country.height_m / np.maximum(sine + cosine * down, 1e-4)
    ahead = along * (cosine - sine * down)
    north, east = math.cos(country.heading_rad), math.sin(country.heading_rad)
    starts = (
        country.north_m + ahead * north - along * right * east,
        country.east_m + ahead * east + along * right * north,
    )
    steps = -along * pitch * east, along * pitch * north
    level = np.clip(np.log2(np.maximum(along * pitch / PIXEL_M, 1.0)), 0, LEVELS - 1)
    places = tuple(_shares(start, step, columns) for start, step in zip(starts, steps, strict=True))
    pixels = pygame.surfarray.pixels2d(ground).T.view(np.int32)
    _looked_up(pixels, *places, level=level.round().astype(int), contrast=contrast)
    far = np.interp([0.0, 0.1, 0.25, 0.5, 1.0], np.linspace(0.0, 1.0, rows), along)
    return tuple((np.round(np.log(far) * HAZE_STEPS) / HAZE_STEPS).tolist())


def _shares(start_m: Numbers, step_m: Numbers, columns: int) -> NDArray[np.uint32]:
    """Return places along rows as shares of the square, 2³² being the whole, so that squares join by themselves.

    Each row has a start and steps on from column to column [m].
    """
    first, on = (
        np.floor(each * (2.0**32 / (PIXELS * PIXEL_M))).astype(np.int64).astype(np.uint32) for each in (start_m, step_m)
    )
    found: NDArray[np.uint32] = np.multiply.outer(on, np.arange(columns, dtype=np.uint32))
    found += first[:, None]
    return found


def _looked_up(
    pixels: NDArray[np.int32],
    north: NDArray[np.uint32],
    east: NDArray[np.uint32],
    *,
    level: NDArray[np.int64],
    contrast: str,
) -> None:
    """Fill pixels with the colours at shares of the square, row by row from the square of a level; north is spent."""
    for number, square in enumerate(fields(contrast)):
        found = np.flatnonzero(level == number)
        if not len(found):
            continue
        rows, bits = slice(int(found[0]), int(found[-1]) + 1), BITS - number
        at = north[rows]
        at >>= np.uint32(32 - 2 * bits)
        at &= np.uint32((1 << 2 * bits) - (1 << bits))
        at |= east[rows] >> np.uint32(32 - bits)
        square.take(at, out=pixels[rows], mode="wrap")


@lru_cache(maxsize=8)
def _haze(columns: int, rows: int, depths: tuple[float, ...], contrast: str) -> pygame.Surface:
    """Return the haze over the ground, thickest at the horizon; depths are logarithms of metres."""
    depth = np.exp(np.interp(np.linspace(0.0, 1.0, rows), [0.0, 0.1, 0.25, 0.5, 1.0], depths))
    share = MOST_HAZE * np.clip(1.0 - np.exp(-np.maximum(depth - CLEAR_M, 0.0) / HAZE_M), 0.0, 1.0)
    column = pygame.Surface((1, rows), pygame.SRCALPHA)
    colours = pygame.surfarray.pixels3d(column)
    colours[0] = (HAZE * (0.3 if contrast == "high" else 1.0)).astype(np.uint8)
    del colours
    alpha = pygame.surfarray.pixels_alpha(column)
    alpha[0] = (255.0 * share).astype(np.uint8)
    del alpha
    return pygame.transform.scale(column, (columns, rows))
