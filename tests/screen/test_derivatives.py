"""``derivatives``: values with their origin, JSON keys, and an unknown engine."""

import json

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.model.model import model
from sim.studies.derivatives import derivatives
from viz.present import figure

FOOT_M, POUND_N = 0.3048, 4.4482216152605


def test_derivatives_say_where_they_come_from(run):
    result = run("derivatives", "--set", "derivatives.yaw_beta=0.03", "--set", "derivatives.roll_r=0.11")
    lines = {line.split()[0]: line for line in result.stdout.splitlines() if line.strip()}
    assert lines["roll_r"].split()[2:] == ["0.1099", "given"]  # the CG flown lies 5 mm behind that of the keys
    assert lines["yaw_beta"].split()[2:] == ["0.0299", "given"]
    moved = "Given values are those about the CG that wing.arm is measured from; here they stand about the CG flown"
    assert moved in " ".join(result.stdout.split())
    assert moved not in " ".join(run("derivatives").stdout.split())
    assert lines["roll_p"].endswith("geometry")
    assert "±" in lines["roll_p"]


def test_derivatives_json(run):
    found = json.loads(run("derivatives", "--json", "--powerplant", "flat_four").stdout)
    assert found["powerplant"] == "flat_four"
    assert len(found["derivatives"]) == 22
    assert set(found["derivatives"]["lift_alpha"]) == {
        "value",
        "origin",
        "band",
        "per_lift",
        "errors",
        "per_lift_errors",
    }
    assert found["span_factor"] == pytest.approx(1.142, abs=0.001)
    loads = found["loads"]
    assert [one["name"] for one in loads["surfaces"]] == ["upper", "lower", "tailplane"]
    assert sum(one["share"] for one in loads["surfaces"]) == pytest.approx(1.0)
    assert loads["surfaces"][0]["share"] > loads["surfaces"][1]["share"] > 0.4
    assert 0.3 < loads["downwash_slope"] < 0.7


def test_derivatives_of_an_unknown_engine_are_refused(run):
    result = run("derivatives", "--powerplant", "rotry")
    assert result.exit_code == 2
    assert result.stderr == '--powerplant: must be one of rotary, flat_four, got "rotry"; did you mean rotary?\n'


def test_the_sheet_says_who_bears_the_lift(run, answered):
    text = run("--units", "si", "derivatives", TRIPLANE).stdout
    loads = answered("derivatives", TRIPLANE)["loads"]
    lines = {line.split()[0]: line for line in text.partition("Who bears the lift")[2].splitlines() if line.strip()}
    for surface in loads["surfaces"]:
        lift, share = f"{surface['lift_n']:.0f}", f"{100.0 * surface['share']:.1f}"
        assert lines[surface["name"]].split()[-4:] == [lift, "N", share, "%"]


def test_the_figure_draws_the_loads_of_the_answer():
    answer = derivatives(model(TRIPLANE), speed_m_s=30.0)
    *planes, tail = answer.loads.surfaces
    wing, tailplane, downwash = figure(answer, units="us").axes
    for plane, line in zip((*planes, tail), (*wing.get_lines()[:3], tailplane.get_lines()[0]), strict=True):
        y, load = line.get_data()
        assert y[[0, -1]] == pytest.approx([-0.5 * plane.span_m / FOOT_M, 0.5 * plane.span_m / FOOT_M])
        assert load[[0, -1]] == pytest.approx([0.0, 0.0])
        drawn = float(np.trapezoid(load, y)) * POUND_N
        assert drawn == pytest.approx(plane.lift_n, rel=0.02)
        name, lift, share = line.get_label().split("\n")
        assert (name, share) == (plane.name, f"{100.0 * plane.share:.1f} % of the lift")
        assert float(lift.removesuffix(" lbf")) == pytest.approx(plane.lift_n / POUND_N, abs=0.5)
    assert len({line.get_linestyle() for line in (*wing.get_lines()[:3], tailplane.get_lines()[0])}) == 4
    assert downwash.get_lines()[0].get_ydata() == pytest.approx(tail.local_downwash_deg)
    assert downwash.get_title(loc="left").endswith(f"{answer.loads.downwash_slope:.3f} for a unit of angle of attack")


def test_the_figure_says_where_it_is_outside_the_range_of_validity():
    airplane = model(TRIPLANE)
    slow, fast = (figure(derivatives(airplane, speed_m_s=speed)).get_suptitle() for speed in (12.0, 40.0))
    assert slow.endswith("\noutside the range of validity: stall")
    assert "range of validity" not in fast


def test_a_figure_is_written(run, tmp_path):
    result = run("derivatives", "--figure", tmp_path / "loads.svg")
    assert result.exit_code == 0
    assert "Planes of the wing" in (tmp_path / "loads.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=lambda path: path.stem)
def test_the_sheet_as_a_whole(run, snapshot, airplane, units):
    assert run("--units", units, "derivatives", airplane).output == snapshot
