"""The sky of a late afternoon all the way round, its clouds drawn once."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np
import pygame

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

HAZE: Final = np.array([214.0, 196.0, 172.0])
"""Colour of the air far off."""
ABOVE: Final = (
    (0.0, (232.0, 208.0, 174.0)),
    (0.12, (214.0, 208.0, 198.0)),
    (0.35, (158.0, 184.0, 204.0)),
    (1.0, (84.0, 128.0, 172.0)),
)
"""Share of the height of the picture above the horizon, and the colour there."""
DARK: Final = 0.3
"""Brightness of all of it where contrast is high."""
OCTAVES: Final = ((5, 40, 1.0), (10, 80, 0.55), (22, 180, 0.3), (44, 360, 0.16))
COARSE: Final = 4
SEED: Final = 2


@lru_cache(maxsize=4)
def sky(around_px: int, tall_px: int, contrast: str) -> pygame.Surface:
    """Return the sky all the way round, its horizon at its lower edge."""
    wide, tall = around_px // COARSE, max(2, tall_px // COARSE)
    up = np.linspace(1.0, 0.0, tall)
    shares, colours = [share for share, _ in ABOVE], np.array([colour for _, colour in ABOVE])
    clear = np.stack([np.interp(up, shares, channel) for channel in colours.T], axis=-1)[:, None]
    cloud = _noise(tall, wide)
    cover = np.clip((cloud - 0.55) * 0.8, 0.0, 1.0) * np.clip(3.0 * up[:, None] - 0.05, 0.0, 1.0) * 0.85
    lit = np.clip(0.5 + 0.65 * (cloud - np.roll(cloud, (-6, 10), (0, 1))), 0.0, 1.0)[..., None]
    white = lit * np.array([255.0, 242.0, 218.0]) + (1.0 - lit) * np.array([186.0, 180.0, 186.0])
    colour = clear * (1.0 - cover[..., None]) + white * cover[..., None]
    colour *= DARK if contrast == "high" else 1.0
    small = pygame.Surface((wide, tall), depth=32, masks=(0xFF0000, 0xFF00, 0xFF, 0))
    pygame.surfarray.blit_array(small, colour.transpose(1, 0, 2).astype(np.uint8))
    return pygame.transform.smoothscale(small, (around_px, tall_px))


def _noise(tall: int, wide: int) -> Numbers:
    """Return smooth noise that joins itself from left to right."""
    random = np.random.default_rng(SEED)
    total = np.zeros((tall, wide))
    for rows, columns, strength in OCTAVES:
        grid = random.normal(0.0, 1.0, (rows + 1, columns))
        grid = np.concatenate([grid, grid[:, :1]], axis=1)
        y, x = np.linspace(0.0, rows - 1e-6, tall), np.linspace(0.0, columns - 1e-6, wide)
        i, j = y.astype(int), x.astype(int)
        down, along = (part * part * (3.0 - 2.0 * part) for part in ((y - i)[:, None], (x - j)[None]))
        low, high = (grid[i][:, j + step] for step in (0, 1))
        below, beyond = (grid[i + 1][:, j + step] for step in (0, 1))
        total += strength * (
            (low * (1.0 - along) + high * along) * (1.0 - down) + (below * (1.0 - along) + beyond * along) * down
        )
    return total
