"""The two views of the layout: no words lie over other words, whatever the airplane."""

from itertools import combinations
from pathlib import Path

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from matplotlib.backends.backend_agg import FigureCanvasAgg

from sim.model.model import model
from sim.studies.layout import layout
from viz.figures.layout import draw


@pytest.mark.parametrize("file", [BIPLANE, PARASOL, TRIPLANE, TWO_SEATER, "tollgate"], ids=lambda file: Path(file).stem)
@pytest.mark.parametrize("units", ["us", "si"])
def test_no_words_lie_over_others(file, units):
    figure = draw(layout(model(file)), units)
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    panel, front = figure.axes
    renderer = canvas.get_renderer()
    said = {text: text.get_window_extent(renderer) for text in (*panel.texts, *front.texts) if text.get_text()}
    assert len(said) >= 5
    over = [
        (one.get_text(), other.get_text()) for one, other in combinations(said, 2) if said[one].overlaps(said[other])
    ]
    assert not over
