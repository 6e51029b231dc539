"""``whirlgate mount``: an engine on isolators, its clearances and frequencies, and what is missing in a sentence."""

import json
from math import hypot, pi

import numpy as np
import pytest
import tomlkit
from airplanes import BIPLANE, PARASOL

from sim.model.model import model
from sim.studies.mount import mount
from viz.figures.mount import draw

BOX = {"length": 0.827, "width": 0.813, "height": 0.574}


def on_isolators(*settings, **asked):
    return mount(model(PARASOL, settings), **asked).isolators


def without(tmp_path, table, keys):
    """Write the parasol without some keys of a table of its mount."""
    document = tomlkit.parse(PARASOL.read_text(encoding="utf-8"))
    for key in keys:
        document["mount"][table].pop(key)
    file = tmp_path / "mine.toml"
    file.write_text(tomlkit.dumps(document))
    return file


@pytest.fixture(scope="module")
def found():
    return on_isolators()


def test_json_keys(run, found):
    answer = json.loads(run("mount", PARASOL, "--json").stdout)["isolators"]
    assert {"isolator_count", "isolator_n_per_m", "sag_m", "sways", "clearances", "modes", "rates"} <= set(answer)
    assert answer["modes"][0]["natural_rad_s"] == pytest.approx(found.modes[0].natural_rad_s)
    assert json.loads(run("mount", "--json").stdout)["isolators"] is None


def test_rates_of_a_four_stroke_engine_with_a_geared_propeller(found):
    """Six cylinders fire three times a turn; idle 870 rpm, full 3310 rpm, gear 0.617."""
    turn = 2.0 * pi / 60.0
    assert {one.name: (one.idle_rad_s / turn, one.full_rad_s / turn) for one in found.rates} == {
        "firing": pytest.approx((3 * 870.0, 3 * 3310.0)),
        "engine shaft": pytest.approx((870.0, 3310.0)),
        "propeller": pytest.approx((0.617 * 870.0, 0.617 * 3310.0)),
    }
    lowest, highest = found.modes[0].natural_rad_s, found.modes[-1].natural_rad_s
    for one in found.rates:
        ratios = one.idle_ratio * lowest, one.full_ratio * lowest, one.idle_highest_ratio * highest
        assert ratios == pytest.approx((one.idle_rad_s, one.full_rad_s, one.idle_rad_s))
        met = [mode.name for mode in found.modes if one.idle_rad_s <= mode.natural_rad_s <= one.full_rad_s]
        assert list(one.meets) == met


def test_the_inertia_is_that_of_the_engine_as_a_box_of_the_disc_and_of_the_other_items():
    parasol = model(PARASOL)
    items = [item for item in parasol.mass_state("flat_six").items if item.moves_with_engine]
    masses = np.array([item.mass_kg for item in items])
    places = np.array([[-item.station_m, item.buttline_m, -item.waterline_m] for item in items])
    arms = places - masses @ places / masses.sum()
    own = [[item.length_m, item.width_m, item.height_m] for item in items]
    own[[item.name for item in items].index("flat_six")] = list(BOX.values())
    disc = parasol.powerplant("flat_six").propeller.polar_inertia_kg_m2
    tensor = np.diag([disc, 0.5 * disc, 0.5 * disc])
    for mass, arm, size in zip(masses, arms, np.square(own), strict=True):
        tensor += mass * (arm @ arm * np.eye(3) - np.outer(arm, arm) + np.diag(size.sum() - size) / 12.0)
    assert parasol.mount.inertias_kg_m2["flat_six"] == pytest.approx(tensor, rel=1e-9)
    heavier = model(PARASOL, ("mount.hung.flat_six.mass=400 kg",)).mount.inertias_kg_m2["flat_six"]
    assert heavier == pytest.approx(tensor * 400.0 / masses.sum(), rel=1e-9)


def test_a_deflection_says_the_same_as_the_stiffness_that_makes_it(found, tmp_path):
    hung = model(PARASOL).mount.engines["flat_six"]
    mean_m = hung.mass_kg * 9.80665 / (3 * 203e3)
    file = without(tmp_path, "isolators", ["vertical_stiffness"])
    given = mount(model(file, (f"mount.isolators.deflection={mean_m!r} m",))).isolators
    assert given.isolator_n_per_m == pytest.approx(found.isolator_n_per_m, rel=1e-9)


def test_isolators_move_with_the_engine(found):
    moved = on_isolators(engine_move_m=-0.11)
    assert moved.sag_m == pytest.approx(found.sag_m, rel=1e-9)
    assert [one.natural_rad_s for one in moved.modes] == pytest.approx([one.natural_rad_s for one in found.modes])


def test_sway_is_from_where_the_engine_hangs_at_rest(found):
    """Weight at a load factor n moves the centre of mass by n − 1 times the sag."""
    by_case = {one.name: one for one in found.sways}
    sag = np.array(found.sag_m)
    for case, factor in (("weight at the load factor", 4.6), ("weight at -0.4 of the load factor", -0.4 * 4.6)):
        assert by_case[case].cg_shift_m == pytest.approx((factor - 1.0) * sag, rel=1e-9)
        assert by_case[case].sway_m == pytest.approx(hypot(*by_case[case].cg_shift_m))


def test_a_point_in_the_centre_of_mass_sways_with_it_and_takes_its_clearance():
    answer = mount(model(PARASOL))
    hung, move_m = answer.hung["flat_six"], answer.engine_move_m["flat_six"]
    there = {"ahead": hung.ahead_m + move_m, "right": 0.0, "up": -hung.below_m}
    settings = [f"mount.clearance.sump.{key}={place_m!r} m" for key, place_m in there.items()]
    found = on_isolators(*settings)
    worst = max(found.sways, key=lambda one: one.sway_m)
    sump = next(one for one in found.clearances if one.name == "sump")
    assert (sump.case, sump.sway_m) == (worst.name, pytest.approx(worst.sway_m, rel=1e-9))
    assert sump.left_m == pytest.approx(0.023 - worst.sway_m)


def test_without_the_size_of_the_engine_the_shifts_alone_and_no_lower(found, tmp_path):
    bare = mount(model(without(tmp_path, "hung", ["flat_six"]))).isolators
    assert len(bare.modes) == 3
    assert bare.modes[0].natural_rad_s > found.modes[0].natural_rad_s
    assert bare.sag_m == found.sag_m


def test_the_sheet_says_what_strikes_what_is_assumed_and_where_the_stiffness_is_from(run):
    shown = " ".join(run("mount", PARASOL).stdout.split())
    assert "The engine STRIKES the airframe at: cowl lip. Give more clearance or stiffer isolators." in shown
    assert "up and down (invented)." in shown
    assert "Rates of flat_six over the lowest and highest natural frequency" in shown
    wide = run("mount", PARASOL, "--set", "mount.clearance.cowl_lip.clearance=60 mm").stdout
    assert "STRIKES" not in wide
    assert "isolators" not in run("mount", BIPLANE).stdout


def test_the_sheet_shows_every_rate_motion_sway_and_clearance_by_its_numbers(run, found):
    """Turns a minute, inches and per cent of what the answer holds; an isolator isolates above the root of two."""
    lines = [line.split() for line in run("mount", PARASOL).stdout.splitlines()]
    rpm, inch = 30.0 / pi, 0.0254

    def printed(name, *numbers):
        words = name.split()
        return any(line[: len(words)] == words and line[len(words) :][: len(numbers)] == [*numbers] for line in lines)

    def inches(*lengths_m):
        return [word for length in lengths_m for word in (f"{length / inch:.3f}", "in")]

    for one in found.rates:
        ratios = [f"{ratio:.2f}" for ratio in (one.idle_ratio, one.full_ratio, one.idle_highest_ratio)]
        speeds = f"{one.idle_rad_s * rpm:.0f}", "rpm", f"{one.full_rad_s * rpm:.0f}", "rpm"
        assert printed(one.name, *speeds, *ratios)
    for one in found.modes:
        assert printed(one.name, f"{one.natural_rad_s * rpm:.0f}", "rpm", f"{100.0 * one.motion_share:.0f}", "%")
    for one in found.clearances:
        assert printed(one.name.replace("_", " "), *inches(one.clearance_m, one.sway_m, one.left_m))
    thrust = next(one for one in found.sways if one.name == "thrust alone")
    assert printed(thrust.name, *inches(*thrust.cg_shift_m, thrust.sway_m))
    words = " ".join(word for line in lines for word in line)
    assert "passes on less than the force above 1.41, and" in words
    assert f"at rest it sags {found.sag_m[-1] / inch:.3f} in" in words
    assert f"{found.isolator_count} isolators, each" in words
    ahead, side, down = (each / 175.126835 for each in found.isolator_n_per_m)  # N/m of a pound-force an inch
    assert f"each {ahead:.0f} lbf/in fore and aft, {side:.0f} lbf/in sideways, {down:.0f} lbf/in up and down" in words


def test_the_figure_shows_frequencies_as_points_and_rates_as_bars(found):
    panel = draw(mount(model(PARASOL)), "us").axes[-1]
    rpm = 30.0 / pi
    points = [line for line in panel.get_lines() if line.get_marker() == "D"]
    assert [line.get_xdata()[0] for line in points] == pytest.approx([rpm * one.natural_rad_s for one in found.modes])
    bars = [line.get_xdata() for line in panel.get_lines() if line.get_linewidth() == 6.0]
    assert np.array(bars) == pytest.approx(rpm * np.array([[one.idle_rad_s, one.full_rad_s] for one in found.rates]))
    labels = [text.get_text() for text in panel.get_yticklabels()]
    assert labels == [*(one.name for one in found.modes), *(one.name for one in found.rates)]


def test_one_of_stiffness_and_deflection(run, tmp_path):
    neither = run("mount", without(tmp_path, "isolators", ["vertical_stiffness"]))
    for result in (run("mount", PARASOL, "--set", "mount.isolators.deflection=2 mm"), neither):
        assert result.exit_code == 2
        said = "mount.isolators: must have one of vertical_stiffness and deflection"
        assert result.stderr.rstrip().endswith(said)


def test_isolators_stand_at_nodes_and_clearances_are_of_an_engine_on_them(run, tmp_path):
    document = tomlkit.parse(BIPLANE.read_text(encoding="utf-8"))
    document["mount"]["clearance"] = {"cowl": {"ahead": "20 in", "right": "9 in", "up": "0 in", "clearance": "1 in"}}
    file = tmp_path / "mine.toml"
    file.write_text(tomlkit.dumps(document))
    result = run("mount", file)
    assert result.exit_code == 2
    assert result.stderr.rstrip().endswith(
        "mount.clearance: is of an engine on isolators; give the table mount.isolators"
    )
    document["mount"]["isolators"] = {"deflection": "2 mm"}
    document["mount"].pop("node")
    document["mount"].pop("tube")
    file.write_text(tomlkit.dumps(document))
    result = run("mount", file)
    assert result.exit_code == 2
    sentence = 'mount.isolators: stand at the nodes of the engine; give mount.node with held = "engine"'
    assert result.stderr.rstrip().endswith(sentence)
