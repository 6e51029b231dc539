"""The timing figures: no label on a mark, strikes long enough to see, the edges of the band on the paper."""

import pytest
from airplanes import BIPLANE
from matplotlib.backends.backend_agg import FigureCanvasAgg

from sim.model.gun_options import setups
from sim.studies.burst import asked_burst
from sim.studies.safe_range import asked_band
from sim.studies.windows import windows
from viz.figures import burst
from viz.figures import safe_range as band
from viz.figures import windows as clock
from viz.figures.burst import HUB, SEEN
from viz.figures.sheet import INKS, rendered


@pytest.fixture(scope="module")
def cam():
    return asked_band(scenario=BIPLANE)


def boxes(figure, panel):
    FigureCanvasAgg(figure).draw()
    renderer = figure.canvas.get_renderer()
    leads = [line for line in panel.get_lines() if line.get_color() == INKS[1]]
    return (
        [text.get_window_extent(renderer) for text in panel.texts if "lead" in text.get_text()],
        [line.get_window_extent(renderer) for line in leads],
    )


def test_no_speed_is_written_over_a_lead():
    figure = clock.draw(windows(setups(scenario=BIPLANE)))
    rendered(figure, "png")
    for panel in figure.axes:
        labels, leads = boxes(figure, panel)
        assert len(labels) == len(leads) == 3
        assert not any(label.overlaps(lead) for label in labels for lead in leads)


def test_a_few_strikes_in_many_rounds_are_seen():
    answer = asked_burst(scenario=BIPLANE, rounds=200_000, seed=1)
    bars = [bar for bar in burst.draw(answer).axes[0].patches if bar.get_y() == pytest.approx(HUB)]
    struck = [bar for bar in bars if bar.get_facecolor()[:3] == pytest.approx((196 / 255, 80 / 255, 10 / 255))]
    assert answer.strikes > 0
    seen = [bar.get_height() for bar in struck if bar.get_height() > 0.0]
    assert seen
    assert min(seen) >= SEEN - 1e-12


def test_the_edges_of_the_band_are_on_the_paper(cam):
    for panel, propeller in zip(band.draw(cam).axes, cam.propellers, strict=True):
        (safe,) = propeller.bands
        low, high = panel.get_xlim()
        assert low < safe.from_rpm < safe.to_rpm < high
        assert any(f"{safe.from_rpm:.0f} to {safe.to_rpm:.0f} rpm" in text.get_text() for text in panel.texts)
