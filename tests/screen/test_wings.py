"""``whirlgate wings``: sheet, JSON, figure, and every wrong plane in a sentence."""

import json

import pytest

import sim
from sim.units.quantities import caution
from viz.figures.wings import draw

LOWER = ("--plane", "span 25 ft 6 in, chord 4 ft 2 in, taper 0.9, dihedral 3 °, incidence 1 °")
UPPER = ("--plane", "span 28 ft, chord 4 ft 6 in, height 4 ft 9 in, ahead 1 ft 6 in, incidence 1.5 °")
CELL = ("wings", *LOWER, *UPPER, "--section-slope", "5.7", "--at", "x 14 ft, z 2 ft")


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_sheet(run, snapshot, units):
    result = run("--units", units, *CELL)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_the_sheet_of_sections(run, snapshot):
    result = run("--units", "si", "wings", "--plane", "chord 1.2 m", *UPPER, "--two-dimensional")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_json_is_the_answer(run):
    shown = run(*CELL, "--json").stdout
    asked = sim.wings([LOWER[1], UPPER[1]], section_slope=5.7, at="x 14 ft, z 2 ft")
    assert shown == asked.to_json() + "\n"
    answer = json.loads(shown)
    keys = "lift_slope_per_rad planes span_factor induced_factor roll_damping_per_rad dihedral_effect_per_rad2"
    assert {*keys.split(), "aerodynamic_centre_m", "downwash_slope"} < answer.keys()
    assert sum(plane["share"] for plane in answer["planes"]) == pytest.approx(1.0)
    assert caution("estimate") in answer["cautions"]


@pytest.mark.parametrize(("units", "foot"), [("us", 0.3048), ("si", 1.0)])
def test_the_figure_draws_the_loads(units, foot):
    answer = sim.wings([LOWER[1], UPPER[1]])
    (panel,) = draw(answer, units).axes
    for line, plane in zip(panel.lines, answer.planes, strict=True):
        assert line.get_xdata() == pytest.approx([y / foot for y in plane.spanwise_m])
        assert line.get_ydata() == pytest.approx(plane.loading_per_rad)
    share = answer.planes[0].share
    assert panel.get_legend().texts[0].get_text() == f"plane 1, {share:.1%} of the lift"
    assert panel.get_ylim()[0] == 0.0


def test_the_figure_is_written(run, tmp_path):
    file = tmp_path / "wings.svg"
    assert run(*CELL, "--figure", file).exit_code == 0
    for words in (
        "Span loading of each plane",
        "circulation Γ/bVα [1/rad]",
        "right positive [ft]",
        "licensed engineer",
    ):
        assert words in file.read_text()


def test_everything_wrong_at_once(run, tmp_path):
    wrong = ("wings", "--plane", "spn 3 m, chord 1 m", "--plane", "chord 2 m, taper 3", "--section-slope", "12")
    result = run(*wrong, "--two-dimensional", "--at", "x 3", "--figure", tmp_path / "no.svg")
    names = "span, chord, taper, sweep, dihedral, incidence, height, ahead, section slope"
    assert (result.exit_code, result.stderr.splitlines()) == (
        2,
        [
            '--section-slope: must be 2 to 8, got "12"',
            "--figure: cannot be used with --two-dimensional: planes of infinite span have no span loading",
            "--at: cannot be used with --two-dimensional",
            f'--plane 1: a name must be one of {names}, got "spn"; did you mean span?',
            '--plane 2 taper: must be 0 to 1, got "3"',
        ],
    )


def test_without_a_plane(run):
    result = run("wings")
    sentence = '--plane: is missing; each plane as in "span 28 ft, chord 4 ft 6 in"'
    assert (result.exit_code, result.stderr.splitlines()) == (2, [sentence])
