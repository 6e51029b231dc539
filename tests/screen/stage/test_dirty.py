"""Where a picture has changed: rectangles hold whatever is painted, and all that differs, and cut no stroke."""

import numpy as np
import pygame
import pytest

from viz.stage.dirty import bounds, changed
from viz.stage.painter import Painter
from viz.stage.scenes.camera import chase
from viz.stage.shapes import Block, Clip, Disc, Layer, Line, Polygon, Rect
from viz.stage.solid.airplane import airplane, ghost
from viz.stage.solid.view import outline, seen

SIZE = (400, 300)
VIEW = Rect(0, 0, *SIZE)
BACK = Layer(VIEW, (Block(VIEW, "back"),))


def solids(figure):
    camera, turn = chase(VIEW, 0.2, figure.span_m), np.eye(3)
    yield seen(airplane(figure), figure, camera, turn=turn)
    yield outline(ghost(figure), camera, "ghost", turn=turn, place_m=np.array([3.0, 2.0, 1.0]), angles={})


def test_bounds_hold_what_is_painted_and_not_much_more(stage):
    shapes = [
        Line(((40.3, 50.2), (200.7, 120.9), (180.0, 40.0)), "ink", 9.0),
        Line(((40.3, 250.2), (200.7, 120.9)), "ink"),
        Disc(150.4, 140.6, 31.5, "ink"),
        Disc(150.4, 140.6, 31.5, "ink", rim=6.0),
        Polygon(((60.2, 70.7), (140.0, 66.1), (90.9, 180.4)), "ink"),
        *solids(stage.figure),
    ]
    for shape in shapes:
        surface = pygame.Surface(SIZE, depth=32)
        Painter().paint(surface, [shape])
        across, down = np.nonzero(pygame.surfarray.array3d(surface).any(axis=2))
        held = bounds(shape)
        assert held.left <= across.min() <= held.left + 20
        assert held.right - 20 <= across.max() < held.right
        assert held.top <= down.min() <= held.top + 20
        assert held.bottom - 20 <= down.max() < held.bottom


def test_what_moves_is_drawn_again_where_it_was_and_where_it_is():
    still = Block(Rect(300, 200, 50, 50), "ink")
    here, there = Disc(40, 40, 10, "ink"), Disc(200, 100, 10, "ink")
    parts = changed((BACK, still, here), (BACK, still, there))
    assert len(parts) == 2
    for disc in (here, there):
        assert any(part.contains(bounds(disc)) for part, _ in parts)
    assert not any(part.colliderect(bounds(still)) for part, _ in parts)
    assert [shapes for part, shapes in parts if part.contains(bounds(there))] == [[BACK, there]]
    assert changed((BACK, still, here), (BACK, still, here)) == []


def test_an_other_order_is_another_picture():
    one, other = Block(Rect(0, 0, 50, 50), "ink"), Block(Rect(20, 20, 50, 50), "strike")
    assert changed((BACK, one, other), (BACK, other, one)) is None


def test_no_stroke_is_cut(stage):
    """A line that begins beside what moves is drawn whole, and so are strokes that it crosses."""
    lines = Line(((50, 40), (390, 40)), "ink"), Line(((380, 20), (380, 290)), "ink")
    parts = changed((BACK, *lines, Disc(40, 40, 12, "ink")), (BACK, *lines, Disc(42, 40, 12, "ink")))
    assert len(parts) == 1
    assert all(parts[0][0].contains(bounds(line)) for line in lines)


@pytest.mark.parametrize("first", [BACK, Block(VIEW, "back")])
def test_over_a_picture_only_what_changed_is_painted(first):
    """Told by a spoilt pixel far from it, which stays; without a picture below all of it is painted again."""
    painter, surface, spoilt = Painter(), pygame.Surface(SIZE, depth=32), (1, 2, 3)
    painter.paint(surface, [Clip(VIEW, (first, Disc(40, 40, 10, "ink")))])
    surface.set_at((350, 250), spoilt)
    painter.paint(surface, [Clip(VIEW, (first, Disc(60, 40, 10, "ink")))], fresh=False)
    assert (tuple(surface.get_at((350, 250)))[:3] == spoilt) == (first is BACK)
    assert surface.get_at((31, 40)) == surface.get_at((300, 100)) != surface.get_at((60, 40))


def test_a_still_picture_that_comes_is_painted_whole():
    painter, surface = Painter(), pygame.Surface(SIZE, depth=32)
    painter.paint(surface, [Clip(VIEW, (BACK,), still=True)])
    assert pygame.surfarray.array3d(surface).any(axis=2).all()
