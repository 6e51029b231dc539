"""Country and sky as pixels: the camera does not bank, so each row of the ground lies at one depth."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np
import pygame
from pygame import gfxdraw

from viz.stage.country.fields import BITS, LEVELS, PIXEL_M, fields
from viz.stage.country.sky import HAZE, sky

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.shapes import Country

    Numbers = NDArray[np.float64]

ROWS: Final = 170
"""The ground is drawn at about as many lines as this for the whole picture, and scaled: that is softer, and quicker."""
COARSE: Final = 3
"""The least number of pixels of the picture that a pixel of the ground is scaled to."""
DOUBLED: Final = 4
"""From this on it is softened at half size: smooth scaling takes its time by what it fills."""
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
    coarse = max(COARSE, round(tall / ROWS))
    rows, columns = -(-(top + tall - horizon) // coarse), -(-wide // coarse)
    if rows < 2:
        return
    ground, place = _sheet(columns, rows), pygame.Rect(left, horizon, wide, top + tall - horizon)
    pitch = place.w / columns, place.h / rows
    depth = _ground(ground, country, horizon, pitch, contrast=contrast)
    for outline in country.shadow:
        points = [((x - left) / pitch[0], (y - horizon) / pitch[1]) for x, y in outline]
        gfxdraw.filled_polygon(ground, points, SHADOW)
    ground.blit(_haze(columns, rows, depth, contrast), (0, 0))
    if surface.get_clip().contains(place) and surface.get_masks() == ground.get_masks():
        _grown(ground, surface, place, coarse)
    else:
        whole = _sheet(*place.size)
        _grown(ground, whole, whole.get_rect(), coarse)
        surface.blit(whole, place)


def _grown(ground: pygame.Surface, surface: pygame.Surface, place: pygame.Rect, coarse: int) -> None:
    """Fill a place with the ground: softened, and where a pixel of it gets large, in pixels of two by two."""
    if coarse < DOUBLED:
        pygame.transform.smoothscale(ground, place.size, surface.subsurface(place))
        return
    soft = _sheet(place.w // 2, place.h // 2)
    pygame.transform.smoothscale(ground, soft.get_size(), soft)
    even = pygame.Rect(place.topleft, (2 * soft.get_width(), 2 * soft.get_height()))
    pygame.transform.scale(soft, even.size, surface.subsurface(even))
    if place.w > even.w:
        surface.blit(surface, even.topright, (even.right - 1, even.y, 1, even.h))
    if place.h > even.h:
        surface.blit(surface, even.bottomleft, (even.x, even.bottom - 1, place.w, 1))


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


def _ground(
    ground: pygame.Surface, country: Country, horizon: int, pitch: tuple[float, float], *, contrast: str
) -> tuple[float, ...]:
    """Fill the ground, each pixel `pitch` of the picture, row by row from the square; return how far some rows are."""
    columns, rows = ground.get_size()
    centre_x, centre_y = country.centre
    down = ((np.arange(rows, dtype=float) + 0.5) * pitch[1] + horizon - centre_y) / country.focal_px
    right: Numbers = (
        (np.arange(columns, dtype=float) + 0.5) * pitch[0] + round(country.rect.x) - centre_x
    ) / country.focal_px
    cosine, sine = math.cos(country.tilt_rad), math.sin(country.tilt_rad)
    along = country.height_m / np.maximum(sine + cosine * down, 1e-4)
    ahead = along * (cosine - sine * down)
    level = np.clip(np.log2(np.maximum(along * pitch[0] / country.focal_px / PIXEL_M, 1.0)), 0, LEVELS - 1)
    pixels = pygame.surfarray.pixels2d(ground).T
    _looked_up(
        pixels, country, ahead=ahead, along=along, right=right, level=level.round().astype(int), contrast=contrast
    )
    return tuple(np.interp([0.0, 0.1, 0.25, 0.5, 1.0], np.linspace(0.0, 1.0, rows), along).round(0).tolist())


def _looked_up(
    pixels: NDArray[np.int32],
    country: Country,
    *,
    ahead: Numbers,
    along: Numbers,
    right: Numbers,
    level: NDArray[np.int64],
    contrast: str,
) -> None:
    north, east = math.cos(country.heading_rad), math.sin(country.heading_rad)
    start_n = ((country.north_m + ahead * north) / PIXEL_M).astype(np.float32)
    start_e = ((country.east_m + ahead * east) / PIXEL_M).astype(np.float32)
    step, aside = (along / PIXEL_M).astype(np.float32), right.astype(np.float32)
    for number, square in enumerate(fields(contrast)):
        found = np.flatnonzero(level == number)
        if not len(found):
            continue
        rows = slice(int(found[0]), int(found[-1]) + 1)
        scale, bits = np.float32(0.5**number), BITS - number
        mask = (1 << bits) - 1
        at_n = ((start_n[rows] * scale)[:, None] - (step[rows] * np.float32(east) * scale)[:, None] * aside).astype(
            np.int32
        )
        at_e = ((start_e[rows] * scale)[:, None] + (step[rows] * np.float32(north) * scale)[:, None] * aside).astype(
            np.int32
        )
        at_n &= mask
        at_e &= mask
        at_n <<= bits
        at_n |= at_e
        pixels[rows] = square.take(at_n)


@lru_cache(maxsize=8)
def _haze(columns: int, rows: int, depths_m: tuple[float, ...], contrast: str) -> pygame.Surface:
    """Return the haze over the ground, thickest at the horizon."""
    depth = np.exp(
        np.interp(np.linspace(0.0, 1.0, rows), [0.0, 0.1, 0.25, 0.5, 1.0], np.log(np.maximum(depths_m, 1.0)))
    )
    share = MOST_HAZE * np.clip(1.0 - np.exp(-np.maximum(depth - CLEAR_M, 0.0) / HAZE_M), 0.0, 1.0)
    column = pygame.Surface((1, rows), pygame.SRCALPHA)
    colours = pygame.surfarray.pixels3d(column)
    colours[0] = (HAZE * (0.3 if contrast == "high" else 1.0)).astype(np.uint8)
    del colours
    alpha = pygame.surfarray.pixels_alpha(column)
    alpha[0] = (255.0 * share).astype(np.uint8)
    del alpha
    return pygame.transform.scale(column, (columns, rows))
