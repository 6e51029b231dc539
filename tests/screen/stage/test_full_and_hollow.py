"""Rotary and fixed engine are as light as one another: what is drawn of one is full and of the other an outline.

Measured on pictures: 3 : 1 (WCAG 2, 1.4.11) between the middles of both, for every kind of eyes and in grey.
"""

import itertools

import numpy as np
import pygame
import pytest
from stage_eyes import worst
from stage_shapes import later

from viz.stage.actions import Action
from viz.stage.bank_pad import BankPad
from viz.stage.controls import widgets
from viz.stage.layout import layout
from viz.stage.palette import HOLLOW, colour
from viz.stage.scenes.scene import draw
from viz.stage.shapes import Block, Clip, Disc, Layer, Polygon, Text
from viz.stage.show import Setting, Show
from viz.stage.snapshot import Looks

SIZE = (1920, 1080)
LEAST = 3.0
LEAST_HEAD = 18.0
"""Width of the head of an arrow in units from which a core is seen in it."""
KINDS = ("rotary", HOLLOW)


def pictured(stage, scene, contrast="normal", font=0, full=False, script="turn-left", at_s=3.0):
    """Return a picture, array (width, height, 3), and what it is drawn of, flattened, the hindmost first."""
    show = Show(stage, Setting(Looks("english", contrast, font), scene, script if scene == "turning" else ""), SIZE)
    if full:
        show.session.act(Action.FULL_CONTROL)
        show.session.turning.stick(0.5, 0.4)
    later(show.session, at_s)
    surface = pygame.Surface(SIZE, depth=32)
    show.paint(surface)
    snapshot = show.session.snapshot()
    parts = layout(*SIZE, snapshot.looks.font_scale, snapshot.front)
    return (
        pygame.surfarray.array3d(surface),
        list(flat(draw(snapshot, parts, stage.figure, SIZE))),
        widgets(snapshot, parts),
    )


def flat(shapes):
    for shape in shapes:
        if isinstance(shape, Clip | Layer):
            yield from flat(shape.items)
        else:
            yield shape


def at(picture, x, y):
    return tuple(map(int, picture[round(x), round(y)]))


def middles(shapes, unit):
    """Return by kind of mark the middle of what is drawn of each engine: bars, arrows, where the noses point."""
    found = {}
    labels = {shape.rect.center for shape in shapes if isinstance(shape, Text) and shape.role == "on_colour"}
    for kind in KINDS:
        blocks = [shape for shape in shapes if isinstance(shape, Block) and shape.role == kind]
        bars = [bar for bar in blocks if bar.rect.w > 6 * unit and bar.rect.center not in labels]
        heads = [one for one in shapes if isinstance(one, Polygon) and one.role == kind and len(one.points) == 3]
        noses = [
            one for one in shapes if isinstance(one, Disc) and one.role == kind and abs(one.radius - 8 * unit) < 0.1
        ]
        found[kind] = {
            "bar": [bar.rect.center for bar in bars],
            "arrow": [tuple(np.mean(one.points, axis=0)) for one in heads if span(one) > LEAST_HEAD * unit],
            "nose": [(one.x, one.y) for one in noses],
        }
    return found


def span(head):
    return np.hypot(*np.subtract(head.points[1], head.points[2]))


APART = [("turning", 6.0, "arrow"), ("turning", 3.0, "bar"), ("engine", 3.0, "bar")]
"""Scene, time in the room at which both of a mark are large and apart, and that mark."""


@pytest.mark.parametrize("contrast", ["normal", "high"])
@pytest.mark.parametrize(("scene", "at_s", "mark"), APART)
def test_the_rotary_is_full_and_the_fixed_engine_hollow(stage, scene, at_s, mark, contrast):
    picture, shapes, _ = pictured(stage, scene, contrast, at_s=at_s)
    found = middles(shapes, SIZE[0] / 1280.0)
    full, hollow = ([at(picture, *place) for place in found[kind][mark]] for kind in KINDS)
    assert full, mark
    assert hollow, mark
    assert set(full) == {colour("rotary", contrast)}
    for one, other in itertools.product(full, hollow):
        assert worst(one, other) >= LEAST, mark


@pytest.mark.parametrize("full", [False, True], ids=["bank pad", "stick"])
def test_marks_on_the_pads_are_full_and_hollow(stage, full):
    """A ring has the ground of the pad, or what it stands round, in its middle; a disc its own colour."""
    picture, shapes, touched = pictured(stage, "turning", full=full, script="")
    pad = next(one for one in touched if isinstance(one, BankPad) != full and hasattr(one, "deflection_at"))
    marks = [one for one in shapes if isinstance(one, Disc) and one.role in KINDS and pad.rect.holds(one.x, one.y)]
    rims = {kind: {bool(one.rim) for one in marks if one.role == kind} for kind in KINDS}
    assert rims == {"rotary": {False}, HOLLOW: {True}}
    for one in marks:
        edge = at(picture, one.x + one.radius - 1.5, one.y)
        if one.role == HOLLOW:
            assert one.radius > max(other.radius for other in marks if other.role == "rotary"), (
                "both are seen on one place"
            )
            assert worst(edge, colour("button", "normal")) >= LEAST


def test_both_inks_alone_would_be_the_same_in_grey():
    assert worst(colour("rotary", "normal"), colour(HOLLOW, "normal")) < LEAST


def test_a_short_arrow_keeps_its_edge():
    from viz.stage.scenes.arrows import arrow

    assert arrow((0.0, 0.0), (4.0, 0.0), "keyline", 1.0, over=-2.4) == []
    assert len(arrow((0.0, 0.0), (60.0, 0.0), "keyline", 1.0, over=-2.4)) == 2
