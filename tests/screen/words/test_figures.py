"""Figures in another language: nothing is left in English, and every word stays on the paper."""

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from shared import answer

from tests.screen.words.invented import invented, unmarked
from viz.figures.complete import complete
from viz.figures.sheet import arrange
from viz.words.reader import meant, reading

NAMED = ("rotary", "flat_four", "CFR", "CD0", "Tollgate single-seater", "min", "flat", "four")
"""Engines of the scenario, a law, a symbol, units of three letters."""
FIGURES = {"windows": "windows", "rate": "rate", "safe_range": "safe_range", "burst": "burst", "cooling": "cooling"}
"""Module of ``viz/figures`` -> the study whose answer it draws."""


def drawn(name):
    """Return a figure as it is drawn on paper, with its renderer."""
    figure = complete(name, answer(FIGURES[name]), "si", on_paper=True)
    renderer = FigureCanvasAgg(figure).get_renderer()
    arrange(figure)
    figure.draw_without_rendering()
    return figure, renderer


def words(figure):
    """Yield every text of a figure that is seen."""
    for text in figure.findobj(Text):
        if text.get_visible() and text.get_text().strip():
            yield text


@pytest.mark.parametrize("name", FIGURES)
def test_every_word_of_a_figure_was_looked_up(name, monkeypatch):
    with invented(monkeypatch):
        figure, _ = drawn(name)
    cautions = figure.get_supxlabel()
    left = {text.get_text(): unmarked(text.get_text(), NAMED) for text in words(figure)}
    assert {text: own for text, own in left.items() if own and text != cautions} == {}


@pytest.mark.parametrize("language", ["french", "german"])
@pytest.mark.parametrize("name", FIGURES)
def test_titles_and_legends_stay_on_the_paper(name, language):
    with reading(language):
        figure, renderer = drawn(name)
    whole = figure.bbox.padded(1.0)
    boxes = [legend.get_window_extent(renderer) for legend in figure.legends]
    boxes += [text.get_window_extent(renderer) for text in figure.texts]
    assert all(whole.x0 <= box.x0 and box.x1 <= whole.x1 and box.y1 <= whole.y1 for box in boxes)


def test_a_word_for_two_things_is_told_apart():
    assert meant("gun|firing") == "firing"
    with reading("german"):
        assert meant("gun|firing") == "schießend"
