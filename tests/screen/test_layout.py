"""``whirlgate layout``: its sheet, its nodes as CSV, its figure, and wrong input."""

import csv
import json

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from matplotlib.text import Text

from sim.model.model import model
from sim.studies.layout import layout
from viz.figures.complete import complete
from viz.figures.layout import draw
from viz.figures.sheet import rendered


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(
    "airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER], ids=["biplane", "triplane", "parasol", "two_seater"]
)
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "layout", airplane)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_nodes_as_csv(run, tmp_path):
    file = tmp_path / "nodes.csv"
    made = run("layout", "--nodes", file, "--json")
    assert (made.exit_code, made.stderr) == (0, f"wrote {file}\n")
    found = json.loads(made.stdout)
    rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
    assert len(rows) == 2 * len(found["nodes"])
    assert set(rows[0]) == {"node", "kind", "side", "station [m]", "waterline [m]", "buttline [m]"}
    assert sum(float(row["buttline [m]"]) for row in rows) == pytest.approx(0.0)
    again = run("layout", "--nodes", file)
    assert (again.exit_code, again.stderr) == (2, f"{file}: is already there; give --force to replace it\n")


@pytest.fixture(scope="module")
def drawn():
    answer = layout(model(TRIPLANE))
    return answer, draw(answer, "si")


def test_the_side_view_is_to_scale_in_millimetres(drawn):
    answer, figure = drawn
    panel, _ = figure.axes
    assert panel.get_aspect() == 1.0
    assert (panel.get_xlabel(), panel.get_ylabel()) == (
        "station, aft of the datum [mm]",
        "waterline, height above waterline 0 [mm]",
    )
    outline = panel.patches[0].get_xy()
    assert outline[:-1].ravel() == pytest.approx(
        [1000.0 * part for point in answer.planes[0].outline for part in point]
    )


def test_kinds_of_nodes_are_told_apart_without_colour(drawn):
    marks = [line.get_marker() for line in drawn[1].axes[0].get_lines() if line.get_marker() != "None"]
    assert len(marks) == len(set(marks)) == len({node.kind for node in drawn[0].nodes})


def test_struts_of_the_side_view_and_the_front_truss_bear_their_lengths(drawn):
    answer, figure = drawn
    side, front = ([text.get_text() for text in panel.texts] for panel in figure.axes)
    struts = [one for one in answer.members if not one.kind.endswith("wire")]
    assert {f"{1000.0 * one.length_m:.2f}" for one in struts} <= set(side)
    ahead = [one for one in answer.members if one.name.startswith("front ")]
    assert {f"{1000.0 * one.length_m:.2f}" for one in ahead} <= set(front)
    assert {"flying wire", "landing wire", "cabane wire"} < {one.kind for one in ahead}


def test_a_foot_that_two_struts_share_is_told_once():
    found = layout(model(PARASOL, ['layout.lift_feet=["1.6 m"]']))
    side = draw(found, "si").axes[0]
    assert [text.get_text() for text in side.texts].count("1600.00") == 1


def test_the_legend_stays_below_the_words_of_the_axis():
    """However flat the picture is: a foot of a cabane strut by mistake at the tail."""
    figure = draw(layout(model(BIPLANE, ['layout.cabane_feet=["200 in"]'])), "us")
    figure.draw_without_rendering()
    panel = figure.axes[0]
    assert panel.get_legend().get_window_extent().y1 < panel.xaxis.label.get_window_extent().y0


@pytest.mark.parametrize("path", [BIPLANE, PARASOL])
def test_no_strip_of_the_paper_stays_blank(path):
    """From title to axis, from axis to title and from legend to edge less than 0.6 in; none lies over another."""
    figure = complete("layout", layout(model(path)), "us")
    rendered(figure)
    side, front = figure.axes
    words, last = (panel.get_legend().get_window_extent() for panel in (side, front))
    titles = [
        text.get_window_extent()
        for panel in (side, front)
        for text in panel.get_children()
        if isinstance(text, Text) and text.get_text() == panel.get_title(loc="left")
    ]
    gaps = [figure.bbox.height - titles[0].y1, words.y0 - titles[1].y1, last.y0]
    assert all(0.0 <= gap < 0.6 * figure.dpi for gap in gaps), [gap / figure.dpi for gap in gaps]


def test_a_spar_that_does_not_fit(run):
    result = run("layout", "--set", "layout.spar.front.cap=3 in")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == (
        "no front spar fits at 13 % of the chord: the section is 5.54 in deep there, and caps and covers take "
        "6.062 in; move the spar to where the section is deeper or make it narrower\n"
    )


def test_a_figure_is_written(run, tmp_path):
    file = tmp_path / "side.svg"
    assert run("layout", "--figure", file).exit_code == 0
    assert "upper longeron 62.00" in file.read_text(encoding="utf-8")


def test_nodes_go_to_a_csv_alone(run):
    result = run("layout", "--nodes", "nodes.txt")
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", '--nodes: must end in .csv, got "nodes.txt"\n')
