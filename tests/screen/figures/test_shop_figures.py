"""Figures of the shop: every axis says what it shows and in which unit, and marks stand where the numbers are."""

import pytest
from airplanes import BIPLANE, DRAWING

from sim.scenario.reading import load
from sim.studies import balance, layout, scale, speeds
from viz.figures import balance as balance_figure
from viz.figures import layout as layout_figure
from viz.figures import scale as scale_figure
from viz.figures import speeds as speeds_figure


@pytest.fixture(scope="module")
def tollgate():
    return load(BIPLANE)


@pytest.fixture(scope="module")
def drawn(tollgate):
    return {
        "balance": balance_figure.draw(balance.balance(tollgate), "us"),
        "layout": layout_figure.draw(layout.study(tollgate), "si"),
        "scale": scale_figure.draw(scale.study(scale.load(DRAWING)), "us"),
        "speeds": speeds_figure.draw(speeds.study(tollgate), "us"),
    }


@pytest.mark.parametrize("name", ["balance", "layout", "scale", "speeds"])
def test_axes_have_words_and_units(drawn, name):
    for panel in drawn[name].axes:
        assert "[" in panel.get_xlabel()
        assert "[" in panel.get_ylabel() or panel.get_yticklabels()
        assert panel.get_title() or panel.get_title(loc="left")


def test_the_envelope_passes_through_its_points(tollgate, drawn):
    answer = balance.balance(tollgate)
    first = drawn["balance"].axes[0].get_lines()[3]
    assert list(first.get_xdata()) == pytest.approx([point.cg_percent_mac for point in answer.envelope[:3]])


def test_the_side_view_is_not_squeezed(drawn):
    assert drawn["layout"].axes[0].get_aspect() == 1.0


def test_every_dimension_has_a_line(drawn):
    labels = [label.get_text() for label in drawn["scale"].axes[0].get_yticklabels()]
    assert labels == [each.name for each in scale.study(scale.load(DRAWING)).dimensions]


def test_both_engines_are_told_apart_without_colour(drawn):
    strokes = {
        line.get_linestyle() for line in drawn["speeds"].axes[0].get_lines() if line.get_label().endswith(", full")
    }
    assert len(strokes) == 2


def test_kinds_of_nodes_are_told_apart_without_colour(drawn):
    marks = [line.get_marker() for line in drawn["layout"].axes[0].get_lines() if line.get_marker() != "None"]
    assert len(marks) == len(set(marks)) == 5


def test_the_shop_figures_carry_their_caution(drawn):
    for figure in drawn.values():
        assert "licensed engineer or mechanic" in figure.get_supxlabel()
