"""The cautions of a figure: those of its answer, small, within the paper, and clear of everything that is drawn."""

import pytest
from airplanes import BIPLANE
from matplotlib.backends.backend_agg import FigureCanvasAgg
from shared import answer, built

import sim
import viz
from sim.studies.couple import couple, over_a_turn
from sim.sweeps.local_sensitivity import sensitivity
from sim.sweeps.registry import STUDIES
from sim.units.quantities import caution
from viz.figures.complete import PAGE_IN, complete, drawing
from viz.figures.sheet import arrange

BORNE = {
    "speeds": ["shop", "estimate"],
    "modes": ["shop", "estimate"],
    "handling": ["shop", "estimate"],
    "compare": ["history", "shop", "estimate"],
    "balance": ["shop", "estimate"],
    "layout": ["shop"],
    "mount": ["shop", "structure"],
    "structure": ["shop", "structure", "estimate"],
    "windows": ["history"],
    "rate": ["history"],
    "safe_range": ["history"],
    "burst": ["history"],
    "cooling": ["history"],
    "exhibit": ["history", "inert", "gun", "guard", "estimate"],
}


def words(figure):
    return " ".join(figure.get_supxlabel().split())


def clear_of_all(figure):
    """Return whether the cautions lie within the paper and under all axes, their labels and legends."""
    renderer, paper = FigureCanvasAgg(figure).get_renderer(), figure.bbox
    arrange(figure)
    figure.draw_without_rendering()  # titles and ticks move once more as they are drawn
    (told,) = (text for text in figure.texts if text.get_text() == figure.get_supxlabel())
    box = told.get_window_extent(renderer)
    above = [panel.get_tightbbox(renderer) for panel in figure.axes if panel.get_visible()]
    above += [legend.get_window_extent(renderer) for legend in figure.legends]
    within = paper.x0 <= box.x0 and box.x1 <= paper.x1 and paper.y0 <= box.y0
    return within and all(box.y1 <= each.y0 for each in above) and all(each.y1 <= paper.y1 for each in above)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", BORNE)
def test_a_figure_bears_the_cautions_of_its_answer_under_all_that_is_drawn(name, units):
    figure = viz.figure(answer(name), units=units)
    assert words(figure) == " ".join(map(caution, BORNE[name]))
    assert clear_of_all(figure)


def test_a_couple_and_one_clock_of_a_gun_line_bear_theirs():
    turn = over_a_turn(couple(polar_inertia_kg_m2=7.0, spin_rad_s=130.0, yaw_rate_rad_s=0.4, pitch_rate_rad_s=0.1), 2)
    one = STUDIES["windows"](built(), powerplant="rotary")
    line = STUDIES["windows"](spin_rad_s=[94.0, 157.0], blades=2, blocked_deg=24.0, margin_deg=4.0)
    for shown, key in ((turn, "estimate"), (one, "history"), (line, "history")):
        figure = viz.figure(shown)
        assert words(figure) == caution(key)
        assert clear_of_all(figure)


def test_several_answers_in_one_figure_bear_the_cautions_of_all():
    asked = ("speeds.stall_m_s", "balance.engine_move_m")
    answers = dict(zip(asked, sensitivity(str(BIPLANE), collect=asked), strict=True))
    figure = complete("sensitivity", answers, "si")
    assert words(figure) == f"{caution('shop')} {caution('estimate')}"


def test_a_drawing_stands_on_a_page_at_the_width_of_its_figure_or_of_the_page():
    """That of the windows is 8.7 in wide, and made smaller to fit the narrower of both papers."""
    made = drawing("windows", answer("windows"), "us")
    assert made.width_in == PAGE_IN[0] < 8.7
    assert f'width="{8.7 * 72.0:g}pt"' in made.svg
    assert caution("history") in made.svg


def test_an_answer_without_a_figure_is_refused():
    with pytest.raises(TypeError, match="answers of check have no figure"):
        viz.figure(sim.check([str(BIPLANE)]))
