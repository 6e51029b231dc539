"""Power against speed: axes say what they show and in which unit, and both engines are told apart in grey."""

import pytest
from airplanes import BIPLANE

from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies import speeds
from viz.figures import speeds as speeds_figure


@pytest.fixture(scope="module")
def tollgate():
    return load(BIPLANE)


@pytest.fixture(scope="module")
def drawn(tollgate):
    return {
        "speeds": speeds_figure.draw(speeds.speeds(Model(tollgate)), "us"),
    }


@pytest.mark.parametrize("name", ["speeds"])
def test_axes_have_words_and_units(drawn, name):
    for panel in drawn[name].axes:
        assert "[" in panel.get_xlabel()
        assert "[" in panel.get_ylabel() or panel.get_yticklabels()
        assert panel.get_title() or panel.get_title(loc="left")


def test_both_engines_are_told_apart_without_colour(drawn):
    strokes = {
        line.get_linestyle() for line in drawn["speeds"].axes[0].get_lines() if line.get_label().endswith(", full")
    }
    assert len(strokes) == 2


def test_the_shop_figures_carry_their_caution(drawn):
    for figure in drawn.values():
        assert "licensed engineer or mechanic" in figure.get_supxlabel()
