"""``whirlgate exhibit``: its sheet, its JSON, its files, and all it refuses."""

import json

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import answer as asked

from viz.figures.exhibit import draw

KEYS = {
    "cam": {
        "law",
        "lobes",
        "base_radius_m",
        "lift_m",
        "rise_deg",
        "dwell_deg",
        "low_dwell_deg",
        "pressure_angle_deg",
        "min_radius_m",
        "contact_stress_pa",
        "float_speed_rpm",
        "roller_speed_rpm",
    },
    "spring": {
        "wire_m",
        "coil_m",
        "active_coils",
        "rate_n_per_m",
        "preload_n",
        "full_force_n",
        "free_length_m",
        "solid_length_m",
        "stress_pa",
        "allowed_stress_pa",
        "alternating_stress_pa",
        "energy_j",
        "rise_energy_j",
        "clash_allowance",
    },
    "drive": {
        "shaft_torque_n_m",
        "torque_n_m",
        "crank_force_n",
        "speed_fluctuation",
        "clutch_n_m",
        "tip_force_n",
        "tip_speed_m_s",
        "kinetic_energy_j",
        "motor_power_w",
    },
}
CHECK = {"name", "value", "limit", "unit", "passes", "source", "cure", "bound", "quantity"}
SI = {"", "m", "Pa", "N", "J", "V", "m/s", "°", "rpm"}
FILES = {
    *(f"{part}.{kind}" for part in ("cam", "follower", "lead-plate", "base") for kind in ("dxf", "svg")),
    "cam.stl",
    "sheet.pdf",
}


@pytest.fixture(scope="module")
def said(run):
    """Return the sheet of the biplane's display, its words on one line."""
    return " ".join(run("exhibit").stdout.split())


@pytest.fixture(scope="module")
def told(run):
    """Return the same as JSON."""
    return json.loads(run("exhibit", "--json").stdout)


def test_json_is_one_object_with_the_agreed_keys(told):
    assert set(told) == {"cam", "spring", "drive", "checks", "inert", "cautions"}
    for table, keys in KEYS.items():
        assert set(told[table]) == keys
    assert told["inert"] is True
    for check in told["checks"]:
        assert set(check) == CHECK
        assert check["unit"] in SI
        assert check["passes"] is True
        assert check["cure"] == ""
        assert check["source"]


def test_rise_and_dwells_add_up_to_a_lobe(told):
    cam = told["cam"]
    assert 2.0 * cam["rise_deg"] + cam["dwell_deg"] < 360.0 / cam["lobes"]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("scenario", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, scenario, units):
    shown = run("--units", units, "exhibit", scenario)
    assert shown.exit_code == 0
    assert shown.stdout == snapshot


def test_the_sheet_carries_its_cautions(said):
    for caution in (
        "Inert by construction: the follower works an enclosed lamp switch or a light beam, and nothing else.",
        "Nothing here may be used to size, build or alter a gun.",
        "Guard what turns; check the guard standards before cutting; at most three flashes a second.",
        "Estimates, not approved data",
        "[ ] No part has a hole, bore or tube that a round could enter.",
    ):
        assert caution in said


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    return tmp_path_factory.mktemp("exhibit") / "new" / "display"


@pytest.fixture(scope="module")
def written(run, place):
    """Return what is said when the display is written, on one line."""
    shown = run("exhibit", "--out", place)
    assert shown.exit_code == 0
    return " ".join(shown.stdout.split())


@pytest.mark.usefixtures("written")
def test_out_writes_every_file_whole_and_never_over_another(run, place):
    assert {path.name for path in place.iterdir()} == FILES
    assert all(path.stat().st_size > 1000 for path in place.iterdir())
    again = run("exhibit", "--out", place)
    assert again.exit_code == 2
    assert set(again.stderr.splitlines()) == {
        f"{place / name}: is already there; give --force to replace it" for name in FILES
    }
    assert run("exhibit", "--out", place, "--force").exit_code == 0


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_figure_shows_one_turn_and_when_the_lamp_is_lit(units):
    answer = asked("exhibit")
    lift, pressure, turning = draw(answer, units).axes
    labels = [panel.get_ylabel() for panel in (lift, pressure, turning)]
    assert labels == ["lift of the roller along its path [mm]", "pressure angle [°]", "torque at crank or motor [N m]"]
    assert turning.get_xlabel() == "propeller angle, 0 with blade 1 on the bore line [°]"
    angle, height = lift.lines[0].get_data()
    assert (angle[0], angle[-1]) == pytest.approx((0.0, 360.0))
    assert height.max() == pytest.approx(1e3 * answer.cam.lift_m)
    assert np.abs(pressure.lines[0].get_ydata()).max() == pytest.approx(answer.cam.pressure_angle_deg, rel=1e-3)
    window = answer.display.window
    lit = [(patch.get_x(), patch.get_width()) for patch in lift.patches]
    assert len(lit) == window.openings
    assert lit[0] == pytest.approx(np.degrees([window.from_rad, window.to_rad - window.from_rad]))
    switched = np.interp(window.from_rad, np.radians(angle), height)
    assert switched == pytest.approx(lift.lines[1].get_ydata()[0], abs=0.05)


def test_a_figure_is_written(run, tmp_path):
    target = tmp_path / "turn.svg"
    assert run("exhibit", "--figure", target).exit_code == 0
    assert "lift of the roller along its path [mm]" in target.read_text(encoding="utf-8")


def test_a_failed_check_is_shown_with_its_cure_and_nothing_is_cut(run, tmp_path):
    pale = ("--set", 'exhibit.placard_ink="#999999"')
    shown = run("exhibit", *pale)
    assert shown.exit_code == 0
    words = " ".join(shown.stdout.split())
    assert "FAIL" in words
    assert "placard contrast: a darker ink or a lighter paper, such as #000000 on #ffffff." in words
    refused = run("exhibit", *pale, "--out", tmp_path / "display")
    assert refused.exit_code == 1
    assert refused.stderr.strip() == (
        "nothing is written to cut from while a check fails "
        "(placard contrast: a darker ink or a lighter paper, such as #000000 on #ffffff)"
    )
    assert not (tmp_path / "display").exists()


def test_a_scenario_without_a_display_says_where_to_find_one(run, tmp_path):
    text = BIPLANE.read_text(encoding="utf-8")
    start = text.index("[exhibit]")
    after = text.find("\n[", start)
    bare = tmp_path / "bare.toml"
    bare.write_text(text[:start] + (text[after:] if after > 0 else ""), encoding="utf-8")
    shown = run("exhibit", bare)
    assert shown.exit_code == 1
    assert shown.stderr.strip() == (
        "the scenario has no [exhibit] table; copy the one of the tollgate scenario and change it"
    )


def test_what_was_written_is_not_asked_for_again(written, said):
    assert "Next: print sheet.pdf at 100 %, measure its line of 100 mm, and cut from the DXF or SVG files." in written
    assert "--out display" not in written
    assert "--out display, the files to cut from" in said
