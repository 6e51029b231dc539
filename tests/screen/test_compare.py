"""The first sheet a new user sees."""

import json
import math
import re
from pathlib import Path

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from shared import built

from sim.scenario.bundled import names

GUNLESS = Path(__file__).parents[1] / "scenarios/valid/no_gun.toml"


def test_the_sheet_names_every_engine_and_side(run):
    shown = run("compare")
    assert shown.exit_code == 0
    words = " ".join(shown.output.split())
    for phrase in ("rotary flat_four", "45.0° left", "nose up", "nose down", "1250 rpm clockwise", "not approved data"):
        assert phrase in words


def test_json_is_si_and_complete(run):
    answer = json.loads(run("--units", "us", "compare", "--json").output)
    assert answer["speed_m_s"] == 80 * 1609.344 / 3600
    rotary = answer["powerplants"]["rotary"]
    assert [turn["bank_deg"] for turn in rotary["turns"]] == [-60.0, -45.0, -30.0, 30.0, 45.0, 60.0]
    assert [row["rpm"] for row in rotary["timing"]] == [600.0, 1150.0, 1250.0]
    assert [one["input"] for one in rotary["disturbances"]] == ["rudder kick", "pull-up"]


def test_units_change_what_is_printed(run):
    assert "lbf ft" in run("compare").output
    assert "N m" in run("--units", "si", "compare").output


def test_a_figure_is_written_once(run, tmp_path):
    picture = tmp_path / "compare.svg"
    assert run("compare", "--figure", picture).exit_code == 0
    assert "pitch attitude, nose up" in picture.read_text()
    again = run("compare", "--figure", picture)
    assert again.exit_code == 2
    assert again.stderr == f"{picture}: is already there; give --force to replace it\n"


def test_an_unknown_scenario(run):
    shown = run("compare", "tolgate")
    assert shown.exit_code == 2
    assert (
        shown.stderr
        == f"tolgate: is neither a file nor a bundled scenario ({', '.join(names())}); did you mean tollgate?\n"
    )


def test_no_answer_is_a_sentence(run):
    shown = run("compare", "--set", "flight.speed=30 mph")
    assert shown.exit_code == 1
    lines = shown.stderr.splitlines()
    assert [line.split("within")[0] for line in lines] == [
        f"{name}: no steady straight flight at 30 mph " for name in ("rotary", "flat_four")
    ]


def test_an_airplane_without_a_gun(run):
    shown = run("compare", GUNLESS)
    assert shown.exit_code == 0
    assert "Firing windows" not in shown.output
    assert "45.0° left" in shown.output
    for command in ("windows", "rate", "safe-range", "burst"):
        refused = run(command, GUNLESS)
        assert (refused.exit_code, refused.stderr) == (
            2,
            "gun: is missing; give the table gun with the line of fire, as in the bundled scenario tollgate\n",
        )


def test_a_turn_that_does_not_hold_shows_its_limit(run):
    shown = run("compare", "--set", "flight.speed=300 mph")
    assert "(power)" in shown.output
    assert "In brackets: the limit" in shown.output
    assert "In brackets" not in run("compare").output


def test_power_that_leaves_no_flight_path_is_a_sentence(run):
    result = run("compare", "--set", "flight.speed=600 mph")
    assert result.exit_code == 1
    assert result.stderr == (
        "rotary: no steady straight flight at 600 mph within power; fly nearer to the speed of least drag\n"
        "flat_four: no steady straight flight at 600 mph within power; fly nearer to the speed of least drag\n"
    )


def test_a_rudder_too_small_to_fly_straight_is_a_sentence(run):
    result = run("compare", "--set", "rudder.travel=0.5 deg")
    assert result.exit_code == 1
    assert result.stderr == (
        "rotary: no steady straight flight at 80 mph within rudder travel, "
        "nor at any speed up to 134 mph, the design speed VD\n"
        "flat_four: no steady straight flight at 80 mph within rudder travel, "
        "nor at any speed up to 134 mph, the design speed VD\n"
    )


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=lambda path: path.stem)
def test_the_sheet_as_a_whole(run, snapshot, airplane, units):
    assert run("--units", units, "compare", airplane).output == snapshot


def test_bands_stand_below_what_they_are_of(run, answered):
    told = run("--units", "si", "compare", BIPLANE, "--bands").stdout
    one = answered("compare", BIPLANE, "--bands")["powerplants"]["rotary"]
    steep = one["turns"][-1]
    low, high = sorted(round(abs(steep[f"pitch_{end}_n_m"]), -1) for end in ("low", "high"))
    assert f"({low:.0f} to {high:.0f})" in told, "known to some tens of N m"
    low, high = (round(one[f"angular_momentum_{end}_kg_m2_s"], -1) for end in ("low", "high"))
    assert f"({low:.0f} to {high:.0f})" in told
    pull = one["disturbances"][1]
    assert f"({pull['yaw_by_spin_low_deg']:.1f} to {pull['yaw_by_spin_high_deg']:.1f})" in told
    assert "Without a band: an input without error." in " ".join(told.split())
    assert "Bands of 90 %" not in run("compare", BIPLANE).stdout


def test_what_the_gear_spares_the_blades(run):
    """Without it a round passes at any angle: the share of a turn that the blades block, bullet included."""
    found = json.loads(run("compare", BIPLANE, "--json").stdout)["powerplants"]
    for name, one in found.items():
        line = built(BIPLANE).gun_line(name)
        assert one["untimed_strikes_per_1000"] == pytest.approx(1000.0 * line.blades * line.blocked_rad / math.tau)
    assert "no gear: strikes of 1000" in run("compare", BIPLANE).stdout
    unarmed = json.loads(run("compare", GUNLESS, "--json").stdout)["powerplants"]
    assert all(one["untimed_strikes_per_1000"] is None for one in unarmed.values())
    assert "no gear" not in run("compare", GUNLESS).stdout


def test_of_two_guns_both_are_counted_with_the_gear_and_without_it(run, tmp_path):
    """A second gun 9 in to the side crosses the blades farther out, where they block another arc."""
    airplane = tmp_path / "twin.toml"
    text = (Path(__file__).parents[2] / "scenarios/tollgate.toml").read_text(encoding="utf-8")
    second = '[second_gun]\noffset = "9 in"\nopens = "4 °"\nlink_delay = "1.5 ms"\n\n[warmth]'
    airplane.write_text(text.replace("[warmth]", second, 1), encoding="utf-8")
    both = json.loads(run("compare", airplane, "--strikes", "--json").stdout)["powerplants"]
    one = json.loads(run("compare", "tollgate", "--json").stdout)["powerplants"]
    for name, found in both.items():
        fired = json.loads(run("burst", airplane, "--powerplant", name, "--rounds", 1000, "--json").stdout)
        assert found["timed_strikes_per_1000"] == pytest.approx(fired["exact"]["strikes_per_1000"], rel=1e-9)
        assert found["untimed_strikes_per_1000"] == pytest.approx(fired["untimed_strikes_per_1000"], rel=1e-9)
        assert found["untimed_strikes_per_1000"] < 0.99 * one[name]["untimed_strikes_per_1000"]


def test_strikes_with_and_without_the_gear_are_those_of_a_burst(run, answered):
    """The exact numbers of the command burst at full speed, behind each engine."""
    both = answered("compare", "tollgate", "--strikes")["powerplants"]
    told = run("compare", "tollgate", "--strikes").stdout
    (line,) = (line for line in told.splitlines() if "full, gear: strikes of 1000" in line)
    for name, one in both.items():
        fired = answered("burst", "tollgate", "--powerplant", name, "--rounds", "1000")
        assert one["timed_strikes_per_1000"] == pytest.approx(fired["exact"]["strikes_per_1000"], rel=1e-9)
        assert one["untimed_strikes_per_1000"] == pytest.approx(fired["untimed_strikes_per_1000"], rel=1e-9)
        assert f"{one['timed_strikes_per_1000']:.2g}" in line
        worse = f"this cam strikes more blades of the {name} than no gear would" in " ".join(told.split())
        assert worse is (one["timed_strikes_per_1000"] > one["untimed_strikes_per_1000"])
    plain = answered("compare", "tollgate")["powerplants"]
    assert [one["timed_strikes_per_1000"] for one in plain.values()] == [None, None]
    assert "full, gear" not in run("compare", "tollgate").stdout


def test_a_propeller_that_turns_against_its_engine_says_so(run, answered):
    """The gear of the upright four turns it so: its momentum is that of the propeller, its inertia no negative one."""
    four = answered("compare", PARASOL)["powerplants"]["upright_four"]
    assert four["spin_rad_s"] > 0.0 > four["angular_momentum_kg_m2_s"]
    shown = run("--units", "si", "compare", PARASOL).stdout
    size, sense = (line for line in shown.splitlines() if re.match("  (Angular|momentum) ", line))
    assert size.endswith(f"{-four['angular_momentum_kg_m2_s']:.0f} kg m²/s")
    assert sense.split() == ["momentum", "anticlockwise"]
    (inertia,) = (line for line in shown.splitlines() if line.startswith("  Polar inertia"))
    assert inertia.endswith(f" {-four['polar_inertia_kg_m2']:.2f} kg m²")
    level = " ".join(run("handling", PARASOL).stdout.split())
    assert level.count("slug ft²/s anticlockwise.") == 1


def test_a_round_that_an_impulse_lets_go_has_no_open_time(run):
    assert "  window  " in run("compare", BIPLANE).stdout
    shown = run("compare", TRIPLANE).stdout
    assert "  impulse  " in shown
    assert "open time" not in shown
    assert "window  " not in shown
