"""Pictures of the stage in report and handout: their letters over the width of a page."""

import pytest
from shared import built
from stage_fit import faults

from sim.live import scene_data
from viz.report.stage_picture import MOMENTS_S, SIZE, shown
from viz.stage.layout import layout
from viz.stage.recorder import STEP_HZ
from viz.stage.scenes.scene import draw
from viz.stage.show import Show
from viz.words.catalogue import languages
from viz.words.say import own_units

A4_IN, MARGINS_IN = 210.0 / 25.4, 2 * 12.0 / 25.4
"""Width of the narrower paper, and what the print leaves at its sides."""
LEAST_PT = 8.0


@pytest.fixture(scope="module")
def stage():
    return scene_data.stage(built())


@pytest.mark.parametrize("scene", MOMENTS_S)
def test_no_letter_is_under_8_points_on_paper(stage, scene):
    """In every language, at the moment of the picture."""
    least_px = LEAST_PT / 72.0 / (A4_IN - MARGINS_IN) * SIZE[0]
    show = Show(stage, shown(scene, "si", languages()[0]), SIZE)
    for _ in range(round(MOMENTS_S[scene] * STEP_HZ)):
        show.tick(1.0 / STEP_HZ)
    for language in languages():
        setting = shown(scene, own_units(language), language)
        show.session.looks = setting.looks
        snapshot, scale = show.session.snapshot(), setting.looks.font_scale
        shapes = draw(snapshot, layout(*SIZE, scale, snapshot.front), stage.figure, SIZE)
        wrong = faults(shapes, SIZE, scale, least_share=0.0, least_px=least_px)
        assert [each for each in wrong if each.startswith("small")] == [], language
        assert faults(shapes, SIZE, scale, least_share=0.0, least_px=2.0 * least_px) != []
