"""Facets, ghosts and veils as pixels."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np
import pygame

from viz.stage.palette import Contrast, colour

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from viz.stage.shapes import Facets, Outline, Veil

    Numbers = NDArray[np.float64]

WIDE_PX: Final = 1.7
"""Rods from this width on are drawn as bands."""
FAR_PX: Final = 20000.0


@lru_cache(maxsize=64)
def _inks(roles: tuple[str, ...], contrast: Contrast) -> Numbers:
    return np.array([colour(role, contrast) for role in roles], dtype=float)


def paint_facets(surface: pygame.Surface, facets: Facets, contrast: Contrast) -> None:
    """Draw faces and rods, and with each face the edges that are its."""
    base = _inks(facets.roles, contrast)[facets.role]
    count = len(facets.corners)
    tint = base * facets.light
    tint[:count] += 255.0 * facets.glint
    inks = np.clip(tint, 0.0, 255.0)
    colours = _packed(surface, inks).tolist()
    corners = np.clip(facets.corners, -FAR_PX, FAR_PX).tolist()
    bands, ends = _bands(facets)
    by_owner = np.argsort(facets.keyline.owner, kind="stable")
    owner, lines, light = (part[by_owner] for part in facets.keyline)
    lit = _packed(surface, np.minimum(inks[owner] * light[:, None], 255.0))
    strokes = [(*ends, ink) for ends, ink in zip(lines.tolist(), lit.tolist(), strict=True)]
    first = np.searchsorted(owner, np.arange(count + 1)).tolist()
    polygon, stroke = pygame.draw.polygon, pygame.draw.aaline
    for place in facets.order.tolist():
        ink = colours[place]
        if place < count:
            polygon(surface, ink, corners[place])
            for one, other, line in strokes[first[place] : first[place + 1]]:
                stroke(surface, line, one, other)
        else:
            rod = place - count
            if facets.widths[rod] < WIDE_PX:
                stroke(surface, ink, *ends[rod])
            else:
                band = bands[rod]
                polygon(surface, ink, band)
                stroke(surface, ink, band[0], band[3])
                stroke(surface, ink, band[1], band[2])


def _packed(surface: pygame.Surface, inks: Numbers) -> NDArray[np.int64]:
    """Return colours, 0..255, as pixels of a surface: one number is read sooner than three. shape (n)."""
    *shifts, clear = surface.get_shifts()
    losses = surface.get_losses()
    opaque = 0xFF << clear if surface.get_masks()[3] else 0
    parts = inks.astype(np.int64)
    return np.asarray(
        opaque | sum(parts[:, channel] >> losses[channel] << shifts[channel] for channel in range(3)), dtype=np.int64
    )


def _bands(facets: Facets) -> tuple[list[list[list[float]]], list[list[list[float]]]]:
    """Return rods as bands of four corners, and as two ends."""
    ends = np.clip(facets.ends, -FAR_PX, FAR_PX)
    along = ends[:, 1] - ends[:, 0]
    along /= np.maximum(np.hypot(along[:, 0], along[:, 1]), 1e-6)[:, None]
    aside = np.stack([-along[:, 1], along[:, 0]], axis=1) * (0.5 * facets.widths)[:, None]
    start, end = ends[:, 0], ends[:, 1]
    return np.stack([start - aside, start + aside, end + aside, end - aside], axis=1).tolist(), ends.tolist()


def paint_outline(surface: pygame.Surface, ghost: Outline, contrast: Contrast) -> None:
    """Draw the silhouette of a ghost over a dark line."""
    edges = np.clip(ghost.edges, -FAR_PX, FAR_PX).tolist()
    for width, role in ((4, "keyline"), (2, ghost.role)):
        ink = colour(role, contrast)
        for one, other in edges:
            pygame.draw.line(surface, ink, one, other, width)


def paint_veil(surface: pygame.Surface, veil: Veil, contrast: Contrast) -> None:
    """Draw translucent polygons."""
    ink = np.array(colour(veil.role, contrast))
    shares = veil.opacity[:, None]
    inks = np.concatenate([ink * shares, 255.0 * shares], axis=1).astype(int)
    _veiled(surface, veil.polygons, inks.tolist())


_SCRATCH: list[pygame.Surface] = []


def _veiled(surface: pygame.Surface, polygons: Numbers, inks: list[list[int]]) -> None:
    """Draw polygons on a clear sheet, colours already multiplied by their opacity, and lay that over the picture."""
    if not len(polygons):
        return
    box = surface.get_clip()
    low = np.maximum(np.floor(polygons.min(axis=(0, 1))).astype(int) - 1, box.topleft)
    high = np.minimum(np.ceil(polygons.max(axis=(0, 1))).astype(int) + 2, box.bottomright)
    wide, tall = (high - low).tolist()
    if wide < 1 or tall < 1:
        return
    if not _SCRATCH or _SCRATCH[0].get_width() < wide or _SCRATCH[0].get_height() < tall:
        _SCRATCH[:] = [
            pygame.Surface((max(wide, surface.get_width()), max(tall, surface.get_height())), pygame.SRCALPHA)
        ]
    sheet = _SCRATCH[0].subsurface((0, 0, wide, tall))
    sheet.fill((0, 0, 0, 0))
    for polygon, ink in zip(np.clip(polygons - low, -FAR_PX, FAR_PX).tolist(), inks, strict=True):
        pygame.draw.polygon(sheet, ink, polygon)
    surface.blit(sheet, low.tolist(), special_flags=pygame.BLEND_PREMULTIPLIED)
