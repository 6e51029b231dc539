"""``whirlgate exhibit``: its sheet, its JSON, its files, and all it refuses."""

import json

import ezdxf
import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import answer as asked

from sim.model.model import model
from sim.studies.exhibit import exhibit
from viz.drawings.placards import placards
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
        "mean_stress_pa",
        "solid_safety",
        "fatigue_safety",
        "natural_per_s",
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
SI = {"", "kg", "1/s", "m", "Pa", "N", "J", "V", "m/s", "°", "rpm"}
FILES = {
    *(f"{part}.{kind}" for part in ("cam", "slide", "lead-plate", "base", "propeller") for kind in ("dxf", "svg")),
    *("spring-block.stl", "check-bar.stl", "book.pdf", "stock-aluminium-8-1.dxf", "assembly.dxf"),
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
    assert set(told) == {
        "shown",
        "cam",
        "spring",
        "drive",
        "worst_hand",
        "checks",
        "inert",
        "parts",
        "fasteners",
        "cautions",
    }
    assert set(told["worst_hand"]) == {"rpm", "flashes_per_s", "tip_m_s", "energy_j"}
    part = {"name", "material", "mass_kg", "x_m", "y_m", "z_from_m", "z_to_m", "fit", "made", "standard"}
    assert all(set(each) == part for each in told["parts"])
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
    names = {path.name for path in place.iterdir()}
    assert names >= FILES
    assert all(path.stat().st_size > 600 for path in place.iterdir())
    again = run("exhibit", "--out", place)
    assert again.exit_code == 2
    assert set(again.stderr.splitlines()) == {
        f"{place / name}: is already there; give --force to replace it" for name in names
    }


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_figure_shows_one_turn_and_when_the_lamp_is_lit(units):
    answer = asked("exhibit")
    _, lift, pressure, turning = draw(answer, units).axes
    labels = [panel.get_ylabel() for panel in (lift, pressure, turning)]
    shown = {"us": ("in", "lbf in", 1.0 / 0.0254), "si": ("mm", "N m", 1e3)}
    lifted, turned, factor = shown[units]
    heads = (
        f"lift of the roller along its path [{lifted}]",
        "pressure angle [°]",
        f"torque at crank or motor [{turned}]",
    )
    assert labels == [*heads]
    assert turning.get_xlabel() == "propeller angle, 0 with blade 1 on the bore line [°]"
    angle, height = lift.lines[0].get_data()
    assert (angle[0], angle[-1]) == pytest.approx((0.0, 360.0))
    assert height.max() == pytest.approx(factor * answer.cam.lift_m)
    assert np.abs(pressure.lines[0].get_ydata()).max() == pytest.approx(answer.cam.pressure_angle_deg, rel=1e-3)
    window = answer.display.window
    arcs = [(patch.get_x(), patch.get_x() + patch.get_width(), patch.get_hatch()) for patch in lift.patches]
    lit = [ends for *ends, hatch in arcs if not hatch]
    assert lit == [pytest.approx(np.degrees([window.from_rad, window.to_rad]) + more) for more in (0.0, 180.0)]
    half = np.degrees(window.closed_rad) / 2.0
    blades = [(0.0, half), (180.0 - half, 180.0 + half), (360.0 - half, 360.0)]
    assert [ends for *ends, hatch in arcs if hatch] == [pytest.approx(ends) for ends in blades]
    assert lift.get_title(loc="left") == "Lamp lit (shaded) by the scenario's cam; hatched: blade in the way"
    ((across, up),) = (words.get_position() for words in lift.texts)
    assert abs(np.interp(across, angle, height) - up) > 0.4 * height.max()
    switched = np.interp(window.from_rad, np.radians(angle), height)
    assert switched == pytest.approx(lift.lines[1].get_ydata()[0], abs=5e-5 * factor)


def test_a_figure_is_written(run, tmp_path):
    target = tmp_path / "turn.svg"
    assert run("exhibit", "--figure", target).exit_code == 0
    assert "lift of the roller along its path [in]" in target.read_text(encoding="utf-8")


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
    assert "Next: print book.pdf at 100 %, measure its line of 100 mm, and cut from the DXF or SVG files." in written
    assert "--out display" not in written
    assert "--out display, the files to cut from" in said


@pytest.mark.parametrize(
    ("asked_for", "opens", "lamp", "ends"),
    [
        ((), "Fixed cam: opens 6.0° and 186.0°", "from 70.1° to 140.1°", "clears blade and margin by 24.7°."),
        (("--ideal",), "Ideal cam, fitted to this speed: opens 131.2°", "from 15.3° to 164.7°", "whole clear arc"),
        (
            ("--set", 'exhibit.powerplant="flat_four"'),
            "Fixed cam: opens 6.0° and 186.0°",
            "from 139.3° to 209.3°",
            "to clear both they would have to come 42.5° earlier or later",
        ),
        (
            ("--set", 'gun.action="impulse"', "--set", 'cam.opens="9 °"'),
            "Fixed cam: impulses 9.0° and 189.0°",
            "from 15.3° to 130.9°",
            "it could come 57.8° earlier or later",
        ),
    ],
)
def test_the_sheet_says_first_which_cam_the_lamp_shows_and_what_clears_the_blades(run, asked_for, opens, lamp, ends):
    words = " ".join(run("exhibit", *asked_for).stdout.split("Inert interrupter display")[0].split())
    for part in (opens, lamp, "released", ends):
        assert part in words


def test_ideal_is_of_the_ideal_cam_and_asked_for_again(run, told):
    shown = json.loads(run("exhibit", "--ideal", "--json").stdout)["shown"]
    assert (shown["cam"]["ideal"], told["shown"]["cam"]["ideal"]) == (True, False)
    assert shown["lamp_off_deg"] - shown["lamp_on_deg"] == pytest.approx(shown["cam"]["dwell_deg"])
    assert told["shown"]["lamp_off_deg"] - told["shown"]["lamp_on_deg"] == pytest.approx(70.0)
    assert "--ideal --out display, the files" in " ".join(run("exhibit", "--ideal").stdout.split())


VISITORS = {(): "then a bullet could pass", ('exhibit.powerplant="flat_four"',): "a bullet could meet one"}


@pytest.mark.parametrize("settings", VISITORS)
def test_the_placard_says_what_this_cam_does(settings):
    made = exhibit(model(BIPLANE, settings))
    words = {code: " ".join(paragraphs) for code, _, paragraphs in placards(made)}
    assert VISITORS[settings] in words["en"]
    struck = made.shown.clearance_deg < 0.0
    assert ("pourrait en toucher une" in words["fr"], "eines treffen" in words["de"]) == (struck, struck)


@pytest.mark.usefixtures("written")
def test_the_files_are_cut_along_the_kerf_and_nested_on_the_stock_asked_for(run, place, tmp_path):
    """Written over those that are there, which is allowed with --force."""
    wide = []
    for asked_for in ((), ("--kerf", "0.4 mm", "--stock", "60 in", "40 in", "--force")):
        if asked_for:
            assert run("exhibit", "--out", place, *asked_for).exit_code == 0
        rim = ezdxf.readfile(place / "base.dxf").query('*[layer=="OUTLINE"]')[0].get_points("xy")
        wide.append(np.ptp(np.array(rim), axis=0))
    assert wide[1] - wide[0] == pytest.approx([0.4, 0.4], abs=1e-4)
    nest = ezdxf.readfile(place / "stock-aluminium-8-1.dxf").query('*[layer=="STOCK"]')[0]
    piece = sorted(np.ptp(np.array(nest.get_points("xy")), axis=0))  # on which the base may lie turned
    assert np.all((np.sort(wide[1]) <= piece) & (piece <= np.array([1016.0, 1524.0])))
    small = run("exhibit", "--out", tmp_path / "none", "--stock", "200 mm", "200 mm")
    assert (small.exit_code, "--stock: must hold every part, got " in " ".join(small.stderr.split())) == (2, True)


def test_a_lamp_that_is_lit_across_the_end_of_a_turn_is_drawn_at_both_ends():
    """With one window a turn, opened so that its rounds pass from 330° to 400°."""
    settings = ["gun.impulses_per_rev=1", "exhibit.lobes=1", 'cam.opens="265.918 °"']
    answer = exhibit(model(BIPLANE, settings))
    first = draw(answer, "si").axes[1]
    lit = [(patch.get_x(), patch.get_x() + patch.get_width()) for patch in first.patches if not patch.get_hatch()]
    assert [round(end, 2) for ends in sorted(lit) for end in ends] == [0.0, 40.0, 330.0, 360.0]
