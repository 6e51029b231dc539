"""Pixels: a picture of every shape against a golden one, words that fit, and memory that does not grow."""

from pathlib import Path

import numpy as np
import pygame
import pytest

from viz.stage.lettering import AREA_KEPT
from viz.stage.painter import PICTURE_AREAS_KEPT, PICTURES_KEPT, Painter
from viz.stage.shapes import Block, Clip, Disc, Layer, Line, Polygon, Rect, Text

GOLDEN = Path(__file__).parent / "golden"
SIZE = (192, 108)
CELL = 4
SHAPES = (
    Block(Rect(0, 0, 192, 108), "panel"),
    Block(Rect(8, 8, 40, 24), "button_on"),
    Block(Rect(8, 8, 40, 24), "ink", rim=2),
    Disc(80, 24, 16, "rotary"),
    Disc(80, 24, 20, "fixed", rim=2),
    Disc(80, 24, 6, "rotary", fade=0.9),
    Polygon(((110, 8), (150, 12), (140, 40), (104, 36)), "linen"),
    Polygon(((120, 14), (136, 16), (130, 30)), "linen", 0.5),
    Line(((8, 44), (48, 60), (88, 44)), "caution", 3),
    Line(((100, 50), (180, 62)), "keyline"),
    Clip(Rect(10, 66, 30, 30), (Disc(10, 66, 28, "strike"),)),
    Layer(Rect(52, 66, 40, 30), (Block(Rect(52, 66, 40, 30), "button"), Disc(72, 81, 10, "knob"))),
    Text(Rect(100, 64, 88, 40), "Two lines of words", "ink", 16, "center", bold=True),
    Text(Rect(160, 8, 28, 20), "38", "caution", 14, "right"),
)


def grid(surface):
    """Return a picture as letters 0..9a..f of lightness, a letter for each cell."""
    light = pygame.surfarray.array3d(surface).mean(axis=2) / 255.0
    cells = light.reshape(SIZE[0] // CELL, CELL, SIZE[1] // CELL, CELL).mean(axis=(1, 3)).T
    return np.rint(cells * 15).astype(int)


@pytest.mark.parametrize("contrast", ["normal", "high"])
def test_every_shape_looks_as_it_did(contrast):
    surface = pygame.Surface(SIZE, depth=32)
    Painter(contrast).paint(surface, SHAPES)
    lines = (GOLDEN / f"shapes_{contrast}.txt").read_text().split()
    golden = np.array([[int(letter, 16) for letter in line] for line in lines])
    off = np.abs(grid(surface) - golden)
    assert off.max() <= 2
    assert off.mean() < 0.1


def test_a_picture_is_drawn_once_and_copied():
    painter, surface = Painter(), pygame.Surface(SIZE, depth=32)
    painter.paint(surface, SHAPES)
    first = pygame.image.tobytes(surface, "RGB")
    painter.paint(surface, SHAPES)
    assert pygame.image.tobytes(surface, "RGB") == first
    assert len(painter._pictures) == 1


def test_what_is_kept_stays_bounded():
    painter, surface = Painter(), pygame.Surface(SIZE, depth=32)
    for number in range(1200):
        box = Rect(0, 0, 60, 20)
        painter.paint(surface, [Text(box, str(number)), Layer(box, (Block(box, "panel"),))])
    letters = [picture for pieces in painter.lettering._kept.values() for picture, _ in pieces]
    assert sum(x.get_width() * x.get_height() for x in letters) == painter.lettering._pixels
    assert painter.lettering._pixels <= AREA_KEPT * SIZE[0] * SIZE[1]
    area = sum(drawn.get_width() * drawn.get_height() for _, drawn in painter._pictures.values())
    assert len(painter._pictures) <= PICTURES_KEPT
    assert area <= PICTURE_AREAS_KEPT * SIZE[0] * SIZE[1]


def test_far_points_do_not_break_the_painter():
    painter, surface = Painter(), pygame.Surface(SIZE, depth=32)
    painter.paint(surface, [Disc(1e9, -1e9, 4, "ink"), Line(((-1e6, 0), (1e6, 50)), "ink", smooth=False)])
