"""``whirlgate drag``: the sheet, its JSON and its figure, and wrong input."""

import json

import pytest
from airplanes import BIPLANE, SESQUIPLANE

import sim
from viz.figures.drag import draw


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_sheet_as_a_whole(run, snapshot, units):
    assert run("--units", units, "drag", SESQUIPLANE).output == snapshot


def test_the_sheet_with_stated_values(run, snapshot):
    assert run("drag", BIPLANE, "--set", "drag.zero_lift=0.042 ± 0.002").output == snapshot


def test_json_is_si(run):
    found = json.loads(run("drag", SESQUIPLANE, "--json").stdout)
    wing = next(part for part in found["parts"] if part["name"] == "wing")
    assert wing["area_m2"] == pytest.approx(8.34 * 1.43 + 6.71 * 0.97)
    assert found["coefficients"]["lift_max"]["stated"] is None
    assert found["speed_m_s"] == pytest.approx(37.3)
    assert found["cautions"]


def test_the_figure_draws_a_bar_for_each_part_with_its_error():
    answer = sim.drag(SESQUIPLANE)
    (panel,) = draw(answer, "us").axes
    bars = sorted(bar.get_width() for bar in panel.patches)
    areas = sorted(part.drag_area_m2 / 0.3048**2 for part in answer.parts)
    assert bars == pytest.approx(areas)
    labels = [label.get_text() for label in panel.get_yticklabels()]
    assert labels[-2].startswith("4 x legs, ")
    assert labels[-1].startswith("wing, ")
    assert len(labels) == len(answer.parts)
    (errors,) = (one for one in panel.collections if len(one.get_segments()) == len(areas))
    widths = sorted(segment[1][0] - segment[0][0] for segment in errors.get_segments())
    assert widths == pytest.approx(sorted(2.0 * part.drag_area_band_m2 / 0.3048**2 for part in answer.parts))


def test_the_figure_is_written(run, tmp_path):
    assert run("drag", SESQUIPLANE, "--figure", tmp_path / "drag.svg").exit_code == 0
    assert "CD0" in (tmp_path / "drag.svg").read_text(encoding="utf-8")


def test_without_a_section_it_says_what_is_missing(run, tmp_path):
    text = SESQUIPLANE.read_text(encoding="utf-8").replace('naca = "4411"\n', "")
    file = tmp_path / "plain.toml"
    file.write_text(text, encoding="utf-8")
    found = run("drag", file)
    assert found.exit_code == 2
    assert [line.partition(" ")[2] for line in found.stderr.splitlines()] == [
        'drag.zero_lift: is missing: CD0 on the wing area, as in "0.042", or the table section',
        'drag.span_efficiency: is missing: e, as in "0.7", or the table section',
        'lift.max: is missing: CL at the stall, as in "1.45", or the table section',
        'lift.zero: is missing: CL with the x axis along the flow, as in "0.3", or the table section',
    ]


def test_without_a_section_but_with_all_stated_drag_asks_for_it(run):
    found = run("drag", "tests/scenarios/valid/least.toml")
    assert (found.exit_code, found.stderr) == (2, 'section: is missing: naca, as in "2412", or points\n')


def test_a_part_is_taken_away_by_a_count_of_none(run, answered):
    """Without the wheels their drag area goes, times the interference of the whole, and nothing else."""
    with_wheels, without = (
        answered("drag", SESQUIPLANE, *words) for words in ((), ("--set", "drag.part.wheels.count=0"))
    )
    gone = next(part for part in with_wheels["parts"] if part["name"] == "wheels")
    assert "wheels" not in [part["name"] for part in without["parts"]]
    less = with_wheels["coefficients"]["drag_zero_lift"]["value"] - without["coefficients"]["drag_zero_lift"]["value"]
    assert less == pytest.approx(
        gone["drag_area_m2"] * with_wheels["whole_interference"]["value"] / with_wheels["area_m2"], rel=1e-6
    )
    result = run("drag", SESQUIPLANE, "--set", "drag.part.wheels.count=-1")
    assert result.exit_code == 2


def test_the_aspect_ratio_to_which_e_belongs_stands_beside_it(run, answered):
    found = answered("drag", SESQUIPLANE)
    told = " ".join(run("drag", SESQUIPLANE).stdout.split())
    assert f"with the aspect ratio A = {found['aspect_ratio']:.2f} of the equivalent monoplane" in told
