"""Nothing that is touched is too small for a finger, and nothing stands on anything else."""

import itertools

import pytest

from viz.stage.controls import widgets
from viz.stage.layout import LEAST, MOST, layout
from viz.stage.snapshot import FONT_SCALES, Looks

SIZES = [LEAST, (1280, 720), (1920, 1080), (1024, 768), (1080, 1920), MOST]


def shown(session, scene, overlay, font):
    session.scene, session.overlay = scene, overlay
    session.looks = Looks(font=font)
    return session.snapshot()


def test_at_720_lines_a_button_is_44_pixels_high():
    assert layout(1280, 720, 1.0).top.h == 44.0


@pytest.mark.parametrize("overlay", ["help", "caution"])
def test_a_page_has_one_button(session, overlay):
    assert len(widgets(shown(session, "turning", overlay, 0), layout(1280, 720, 1.0))) == 1


def test_parts_of_the_window_do_not_overlap():
    for size, font in itertools.product(SIZES, FONT_SCALES):
        at = layout(*size, font)
        parts = (at.top, at.stage, at.caption, at.bottom)
        assert not [pair for pair in itertools.combinations(parts, 2) if pair[0].overlaps(pair[1])]
        assert at.stage.h > 0.5 * min(size[1], size[0] * 9 / 16)
