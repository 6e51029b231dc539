"""``whirlgate structure``: its sheet, JSON, figure and cautions, and wrong input."""

import json

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import answer as answered_by

from sim.model.model import model
from sim.studies.structure import structure
from viz.figures.structure import draw


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, PARASOL], ids=["biplane", "parasol"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "structure", airplane)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


@pytest.fixture(scope="module")
def answer(run):
    return json.loads(run("structure", TRIPLANE, "--json").stdout)


def test_json_keys(answer):
    assert {"name", "load_factor"} < set(answer["cases"][0])
    keys = {"name", "kind", "length_m", "size", "force_n", "moment_n_m", "case", "margin", "least_size"}
    assert all(keys < set(row) for row in answer["members"])
    kinds = {row["kind"] for row in answer["members"]}
    assert {"spar", "flying wire", "drag wire", "compression rib", "interplane strut", "cabane strut"} < kinds
    assert any("a licensed engineer checks loads" in line for line in answer["cautions"])


def test_the_figure_draws_every_member_of_both_trusses_and_every_spar():
    found = answered_by("structure", BIPLANE)
    front, rear, moments, shears, margins = draw(found, "si").axes
    for panel, name in ((front, "front"), (rear, "rear")):
        words = [text.get_text() for text in panel.texts]
        own = [one for one in found.members if one.name.startswith(f"{name} ") and one.kind.endswith(("strut", "wire"))]
        assert {f"{abs(one.ultimate_n):.0f}" for one in own} <= set(words)
        spars = [one for one in found.spars if f" {name} spar" in one.name]
        assert {f"{max(map(abs, one.thrusts_n)):.0f}" for one in spars} <= set(words)
        assert len(words) == len(own) + len(spars)
    assert len(moments.get_lines()) == len(found.spars) + 1
    first = found.spars[0]
    assert moments.get_lines()[0].get_ydata() == pytest.approx(first.moments_n_m)
    assert shears.get_lines()[0].get_ydata() == pytest.approx(first.shears_n)
    assert margins.get_lines()[0].get_ydata() == pytest.approx([min(value, 3.0) for value in first.margins])


@pytest.mark.parametrize("gone", ["rear landing wire", "rear landing wire, left"])
def test_the_figure_names_what_is_left_out_and_draws_no_wire_that_is_gone(gone):
    found = structure(model(BIPLANE), without=[gone])
    figure = draw(found, "si")
    assert all(panel.get_title(loc="left").endswith(f"\nWITHOUT {gone}") for panel in figure.axes)
    assert "WITHOUT" not in draw(answered_by("structure", BIPLANE), "si").axes[0].get_title(loc="left")
    words = [text.get_text() for text in figure.axes[1].texts]
    own = [one for one in found.members if one.name == "rear landing wire"]
    assert [text for text in words if "only" in text] == [f"{abs(one.ultimate_n):.0f}\nright only" for one in own]
    assert len(own) == (1 if gone.endswith("left") else 0)


def test_the_sheet_says_that_lengths_run_from_axis_to_axis_where_the_pins_are_there(run):
    """By as much as the pins of the layout stand off the axes; on the faces both commands have the same lengths."""
    lengths = {one.name: one.length_m for one in answered_by("layout", BIPLANE).members}
    for pins, longer in (("axes", True), ("faces", False)):
        result = run("structure", BIPLANE, "--set", f"structure.pins={pins}")
        assert ("run from axis to axis" in " ".join(result.stdout.split())) is longer
        found = structure(model(BIPLANE, [f"structure.pins={pins}"]))
        own = next(one for one in found.members if one.kind == "interplane strut")
        assert (own.length_m > lengths[own.name] + 0.01) is longer


def test_tension_and_compression_are_told_apart_without_colour():
    front = draw(answered_by("structure", BIPLANE), "us").axes[0]
    strokes = {line.get_linestyle() for line in front.get_lines()}
    assert len(strokes) == 2
    widths = [line.get_linewidth() for line in front.get_lines()]
    assert max(widths) > 3.0 * min(widths)


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_curves_of_the_spars_are_told_apart_without_colour_and_the_worst_is_named(airplane):
    found = answered_by("structure", airplane)
    *trusses, _, _, margins = draw(found, "us").axes
    curves = [
        line for line in margins.get_lines() if str(line.get_label()) in {f"{s.name}: {s.case}" for s in found.spars}
    ]
    looks = [(str(line.get_linestyle()), str(line._unscaled_dash_pattern), line.get_marker()) for line in curves]
    assert len(set(looks)) == len(found.spars)
    worst = min(found.spars, key=lambda spar: min(spar.margins))
    assert [text.get_text() for text in margins.texts] == [f"{worst.name} {min(worst.margins):.2f}"]
    assert [panel.get_title(loc="left").partition(" ")[0] for panel in trusses] == ["Front", "Rear"]


def test_loads_of_the_truss_do_not_lie_over_each_other():
    """Of the triplane, whose middle wing has short cabane struts beside its wires."""
    figure = draw(answered_by("structure", TRIPLANE), "us")
    figure.draw_without_rendering()
    for panel in figure.axes[:2]:
        boxes = [text.get_window_extent() for text in panel.texts]
        assert not any(one.overlaps(other) for n, one in enumerate(boxes) for other in boxes[:n])


def test_loads_of_crossing_wires_stand_clear_of_the_crossing():
    """Of the biplane: a load that lies over no other stays where it is put, on its own side of the crossing."""
    found = answered_by("structure", BIPLANE)
    panel = draw(found, "si").axes[0]
    for name, share in (("front flying wire", 0.72), ("front landing wire", 0.28)):
        wire = next(one for one in found.members if one.name == name)
        (start, end) = (place[1:] for place in wire.ends_m)
        (text,) = (text for text in panel.texts if text.get_text() == f"{abs(wire.ultimate_n):.0f}")
        place = [first + share * (last - first) for first, last in zip(start, end, strict=True)]
        assert text.get_position() == pytest.approx([1000.0 * place_m for place_m in place])


def test_a_figure_is_written(run, tmp_path):
    file = tmp_path / "truss.svg"
    assert run("structure", "--figure", file).exit_code == 0
    assert "Margin of safety along the spars" in file.read_text(encoding="utf-8")


def test_a_scenario_without_the_table(run):
    result = run("structure", "--set", "structure.member.flying_wire.size=big")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith("structure.member.flying_wire.size: must be one of 6-40 tie rod, ")


def test_the_sheet_tells_what_takes_over_the_load_of_what_is_left_out(run):
    found = structure(model(BIPLANE), without=["rear landing wire, left"])
    words = " ".join(run("--units", "si", "structure", BIPLANE, "--without", "rear landing wire, left").stdout.split())
    table = words.partition("What takes over the load")[2].partition("Materials and sizes")[0]
    assert len(found.taken_over) > 1
    for one in found.taken_over:
        for load_n in (one.whole_n, one.ultimate_n):
            assert f"{abs(load_n):.0f} N {'tension' if load_n > 0.0 else 'compression'}" in table
    assert "takes over" not in run("structure", BIPLANE).stdout
