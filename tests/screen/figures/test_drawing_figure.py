"""The side view in figures: with axes, in the balance below its envelope, and plain for visitors."""

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.studies.drawing import drawing, drawing_if_possible
from viz.figures import balance, visitors
from viz.figures import drawing as figure
from viz.figures.complete import complete

IN = 39.37007874015748
airplanes = pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER], ids=lambda path: path.stem)


def points(panel):
    return [tuple(map(float, xy)) for line in panel.get_lines() for xy in line.get_xydata()]


@airplanes
@pytest.mark.parametrize(("units", "factor"), [("us", IN), ("si", 1000.0)])
def test_every_line_of_the_side_view_is_drawn_where_it_is(airplane, units, factor):
    made = drawing(built(airplane))
    panel = figure.draw(made, units).axes[0]
    side = next(view for view in made.views if view.name == "side")
    assert len(panel.get_lines()) == len(side.lines) + len(side.circles)
    for line, drawn in zip(side.lines, panel.get_lines(), strict=False):
        first = drawn.get_xydata()[0]
        assert tuple(first) == pytest.approx([factor * at for at in line.points_m[0]])
    across = [x for x, _ in points(panel)]
    length_m = next(one.drawn_m for one in made.dimensions if one.name == "overall length")
    assert max(across) - min(across) >= factor * length_m - 1e-6
    assert panel.get_aspect() == 1.0


@airplanes
def test_the_balance_shows_the_airplane_with_its_limits(airplane):
    weighed, made = answer("balance", airplane), drawing(built(airplane))
    both = balance.draw({"balance": weighed, "drawing": made}, "us")
    assert len(both.axes) == 3
    assert len(balance.draw(weighed, "us").axes) == 2
    panel = both.axes[2]
    upright = {
        round(line.get_xdata()[0], 6)
        for line in panel.get_lines()
        if len(line.get_xdata()) == 2 and list(line.get_ydata()) == [0, 1]
    }
    wanted = (made.forward_limit_station_m, made.aft_limit_station_m, weighed.target_station_m)
    assert upright == {round(IN * station_m, 6) for station_m in wanted}


def test_the_engine_of_the_balance_stands_where_it_was_asked():
    usual, moved = (drawing_if_possible(built(BIPLANE), "flat_four", engine_move_m=move_m) for move_m in (0.0, -0.0762))
    stations = [next(one.station_m for one in made.places if one.name == "engine CG") for made in (usual, moved)]
    assert stations[1] - stations[0] == pytest.approx(-0.0762)


def test_where_there_is_too_little_of_the_wing_there_is_no_drawing():
    from sim.model.model import Model
    from sim.scenario.reading import load

    bare = load(BIPLANE).model_copy(update={"section": None})
    assert drawing_if_possible(Model(bare), "rotary") is None


@pytest.mark.parametrize(("units", "bar", "factor"), [("us", "4 ft", IN), ("si", "1 m", 1000.0)])
def test_three_views_have_one_scale_and_a_bar_of_it(units, bar, factor):
    made = drawing(built(BIPLANE), powerplant="rotary")
    drawn = complete("three_view", made, units, on_paper=True)
    drawn.draw_without_rendering()
    plan, corner, front, left = drawn.axes
    assert not any(panel.axison for panel in drawn.axes)
    scales = [
        abs(panel.transData.transform((1.0, 0.0))[0] - panel.transData.transform((0.0, 0.0))[0])
        for panel in (plan, front, left)
    ]
    assert scales == pytest.approx([scales[0]] * 3, rel=0.15)
    ends = left.get_lines()[-1].get_xdata()
    assert ends[1] - ends[0] == pytest.approx(factor * (4 * 0.3048 if units == "us" else 1.0))
    assert bar in {text.get_text() for text in left.texts}
    given = corner.texts[0].get_text()
    assert [line.split()[0] for line in given.split("\n")] == ["span", "length", "height"]
    assert "licensed engineer" in drawn.get_supxlabel().replace("\n", " ")


def test_visitors_see_the_three_views_with_the_words_of_their_language_alone():
    shown = visitors.ForVisitors(drawing(built(BIPLANE), powerplant="rotary"), "si", "envergure 8,0 m")
    drawn = complete("visitors", shown, "us")
    told = {text.get_text() for panel in drawn.axes for text in (*panel.texts, panel.title)} - {""}
    assert told == {"envergure 8,0 m", "1 m"}
    assert drawn.get_supxlabel() == ""
