"""The side view in figures: with axes, in the balance below its envelope, and plain for visitors."""

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.studies.drawing import drawing, drawing_if_possible
from viz.figures import balance, side_view
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


def test_visitors_see_names_and_a_scale_bar_and_no_axes():
    made = drawing(built(BIPLANE), powerplant="rotary")
    panel = side_view.draw(made, "us").axes[0]
    assert not panel.axison
    assert {text.get_text() for text in panel.texts} == {"propeller", "engine", "pilot", "fuel", "4 ft"}
    bar = panel.get_lines()[-1].get_xdata()
    assert bar[1] - bar[0] == pytest.approx(48.0)
    assert "licensed engineer" in complete("side_view", made, "us").get_supxlabel().replace("\n", " ")
    everything = figure.draw(made, "us").axes[0]
    assert len(panel.get_lines()) < len(everything.get_lines())
