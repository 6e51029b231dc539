"""``whirlgate handling``: JSON keys, signs, words, the figure, and wrong input refused."""

import json
import math
from dataclasses import replace

import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.model.model import Model, model
from sim.scenario.reading import load
from sim.studies.rotor_effect import GradeChange, rotor_effect
from sim.units.quantities import band_ends
from viz.sheets.rotor_effect import changed_levels, control_travel, doubling
from viz.sheets.text import text_of

TURN = {
    *("bank_deg", "turn_rate_deg_s", "load_factor", "alpha_deg", "sideslip_deg", "elevator_deg", "aileron_deg"),
    *(
        "rudder_deg",
        "elevator_share",
        "aileron_share",
        "rudder_share",
        "gyro_pitch_n_m",
        "gyro_yaw_n_m",
        "holds",
        "spin_rad_s",
    ),
    *(f"{control}_share_{end}" for control in ("elevator", "aileron", "rudder") for end in ("low", "high")),
    *(end for name in ("gyro_pitch_n_m", "gyro_yaw_n_m") for end in band_ends(name)),
    *("stick_force_n", "stick_side_force_n", "pedal_force_n", "force_held", "past_minutes", "past_moment"),
    *(end for name in ("stick_force_n", "stick_side_force_n", "pedal_force_n") for end in band_ends(name)),
    *("limit", "holds_probability", "beyond"),
}
BANDED_MODE = (
    *("real_per_s", "imag_rad_s", "damping_ratio", "natural_frequency_rad_s", "time_to_half_s", "time_to_double_s"),
    "coupling_share",
)
MODE = {
    *("name", "real_per_s", "imag_rad_s", "damping_ratio", "natural_frequency_rad_s", "time_to_half_s"),
    *("time_to_double_s", "coupling_share", "level", "grows_probability", "level_probability"),
    "two_roots_probability",
    *(end for name in BANDED_MODE for end in band_ends(name)),
}


FORCES = {
    *("stick_force_per_g_n", "hands_off_m_s", "tail_turn_deg", "static_margin", "static_margin_free"),
    *(
        "stick_friction_n",
        "pedal_friction_n",
        "straight",
        "let_go",
        "elevator_swing_rad_s",
        "estimated",
        "open_gaps",
        "position_reversed",
        "force_reversed",
    ),
    *band_ends("stick_force_per_g_n"),
    *band_ends("static_margin_free"),
    "force_reversed_probability",
}
STRAIGHT = {"speed_m_s", "power", "elevator_share", "force_held", "past_minutes", "past_moment", "limit"} | {
    key for name in ("stick_force_n", "stick_side_force_n", "pedal_force_n") for key in (name, *band_ends(name))
}


@pytest.fixture(scope="module")
def answer(run):
    return json.loads(run("handling", "--json").stdout)


def test_json_keys(answer):
    assert set(answer) == {"speed_m_s", "altitude_m", "powerplants", "masses", "remarks", "cautions"}
    for powerplant in answer["powerplants"].values():
        assert set(powerplant) == {
            *("kind", "polar_inertia_kg_m2", "spin_rad_s", "angular_momentum_kg_m2_s", "turns"),
            *("steepest_left_deg", "steepest_right_deg", "modes", "modes_beyond", "modes_not_held", "forces"),
            "free_modes",
            *(f"{what}_{side}_limit" for what in ("steepest", "force") for side in ("left", "right")),
            *("force_left_deg", "force_right_deg"),
            *("steepest_left_beyond", "steepest_right_beyond"),
            *(end for side in ("left", "right") for end in band_ends(f"steepest_{side}_deg")),
            *(end for name in ("polar_inertia_kg_m2", "spin_rad_s") for end in band_ends(name)),
            *band_ends("angular_momentum_kg_m2_s"),
        }
        assert all(set(turn) == TURN for turn in powerplant["turns"])
        assert all(set(mode) == MODE for mode in powerplant["modes"])
        assert all(set(mode) == MODE for mode in powerplant["free_modes"])
        assert set(powerplant["forces"]) == FORCES
        assert all(set(row) == STRAIGHT for row in powerplant["forces"]["straight"])


def test_a_clockwise_rotary_lowers_the_nose_in_right_turns_and_swings_it_right_in_both(answer):
    for turn in answer["powerplants"]["rotary"]["turns"]:
        if turn["bank_deg"]:
            assert turn["gyro_pitch_n_m"] * turn["bank_deg"] < 0.0
            assert turn["gyro_yaw_n_m"] > 0.0


def test_momentum_is_inertia_times_spin(answer):
    for found in answer["powerplants"].values():
        assert found["angular_momentum_kg_m2_s"] == pytest.approx(found["polar_inertia_kg_m2"] * found["spin_rad_s"])


def test_steepest_banks_hold_and_those_beyond_do_not(run, answer):
    rotary = answer["powerplants"]["rotary"]
    for bank in (rotary["steepest_left_deg"], rotary["steepest_right_deg"]):
        beyond = f"{bank * 1.001} deg"
        found = json.loads(run("handling", "--json", "--bank", f"{bank} deg", "--bank", beyond).stdout)
        turns = found["powerplants"]["rotary"]["turns"]
        assert [turn["holds"] for turn in turns] == [True, False]
        assert turns[0]["limit"] is None
        assert turns[1]["limit"] == "power"


def test_a_turn_beyond_the_lift_has_no_numbers_and_says_why(run):
    found = json.loads(run("handling", "--json", "--speed", "45 mph", "--bank", "70 deg").stdout)
    turn = found["powerplants"]["rotary"]["turns"][0]
    assert (turn["holds"], turn["limit"], turn["rudder_deg"]) == (False, "CLmax", None)


def test_the_rotary_asks_more_rudder_than_the_fixed_engine(answer):
    turns = {name: {t["bank_deg"]: t for t in p["turns"]} for name, p in answer["powerplants"].items()}
    for bank in (-45.0, 45.0):
        assert turns["rotary"][bank]["rudder_share"] > turns["flat_four"][bank]["rudder_share"] + 0.1


def test_reversed_rotation_mirrors_the_sheet(run, answer):
    back = json.loads(run("handling", "--json", "--set", "powerplant.rotary.rotation=anticlockwise").stdout)[
        "powerplants"
    ]["rotary"]
    ahead = answer["powerplants"]["rotary"]
    assert back["steepest_left_deg"] == pytest.approx(-ahead["steepest_right_deg"])
    assert back["turns"][0]["rudder_deg"] == pytest.approx(-ahead["turns"][-1]["rudder_deg"])


@pytest.mark.parametrize("power", ["idle", "cruise", "full"])
def test_power_sets_the_shaft(run, power):
    found = json.loads(run("handling", "--json", "--power", power, "--bank", "30 deg").stdout)["powerplants"]["rotary"]
    assert 60.0 < found["spin_rad_s"] < 140.0
    if power == "cruise":
        assert found["spin_rad_s"] == pytest.approx(1150.0 * 3.14159265 / 30.0)


def test_wrong_options_are_refused_at_once(run):
    result = run("handling", "--speed", "80", "--bank", "95 deg", "--power", "ful")
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        '--speed: must have a unit, as in "80 mph", got "80"',
        '--bank: must be above -90 and below 90 deg, got "95 deg"',
        '--power: must be idle or cruise or full, got "ful"; did you mean full?',
    ]


def test_no_straight_flight_is_no_answer(run):
    """Told of every engine, so that one cure serves all."""
    for speed, command in (("30", "handling"), ("10", "handling"), ("30", "modes")):
        result = run(command, "--speed", f"{speed} mph")
        told = result.stderr.splitlines()
        assert result.exit_code == 1
        assert [line.split(":")[0] for line in told] == ["rotary", "flat_four"]
        why = f"no steady straight flight at {speed} mph within CLmax; fly faster, at 3"
        assert all(why in line for line in told)
    assert run("handling", "--speed", "37.2 mph").exit_code == 0


def test_the_foot_quotes_numbers(run):
    foot = run("handling", "--bank", "45 deg").stdout
    text = " ".join(foot.split())
    assert (
        "To balance the rotor in a level 45° turn at 80.0 mph the rotary needs 22 % left rudder and 3 % stick" in text
    )
    assert "doubles at 56.9 mph" in text
    assert (
        "level differs: spiral in straight flight, 2 with the rotary, 1 with the flat_four; phugoid in a level" in text
    )
    assert "Next: the modes of that turn, with whirlgate modes" in text
    assert "--bank '-45°'; a turn in time" in text
    assert "Estimates, not approved data" in text


def test_the_foot_says_so_where_nothing_doubles_and_where_levels_change():
    effect = rotor_effect(model(BIPLANE), speed_m_s=23.0)
    assert text_of(doubling(effect), "si") == (
        "With the rotary the rudder for the rotor in a left turn, 56 % of travel, has not doubled at 18.8 m/s; "
        "CLmax prevents a slower turn."
    )
    changes = (GradeChange("spiral", 0.0, 4, 2), GradeChange("phugoid", -45.0, 3, 1))
    assert text_of(changed_levels(replace(effect, changes=changes)), "si") == (
        "Modes whose MIL-F-8785C level differs: spiral in straight flight, worse than 3 with the rotary, 2 with the "
        "flat_four; phugoid in a level 45° left turn, 3 with the rotary, 1 with the flat_four."
    )


def test_one_powerplant_is_compared_with_none():
    both = load(BIPLANE)
    own = {"powerplant": {"rotary": both.powerplant["rotary"]}, "item": [], "balance": None, "weighing": None}
    alone = Model(both.model_copy(update=own))
    effect = rotor_effect(alone)
    told = text_of(control_travel(effect), "us")
    assert told.count("rotary") == 1
    assert told.endswith("in percent of travel).")
    assert text_of(changed_levels(effect), "us") == (
        "The scenario has no other powerplant to compare the MIL-F-8785C levels of the rotary with."
    )


def test_too_slow_for_the_sentences_the_sheet_still_stands(run):
    result = run("handling", "--speed", "42 mph", "--bank", "10 deg")
    assert result.exit_code == 0
    assert ") within CLmax; fly faster" in " ".join(result.stdout.split())


def test_the_figure(run, tmp_path):
    path = tmp_path / "figure.svg"
    assert run("handling", "--bank", "30 deg", "--figure", path).exit_code == 0
    drawn = path.read_text(encoding="utf-8")
    for text in (
        "rotary",
        "flat_four",
        "Dutch roll",
        "spiral",
        "forward positive [%]",
    ):
        assert text in drawn


def test_power_that_leaves_no_flight_path_is_a_sentence(run):
    result = run("handling", "--speed", "600 mph")
    assert result.exit_code == 1
    said = "no steady straight flight at 600 mph within power; fly nearer to the speed of least drag"
    assert result.stderr == f"rotary: {said}\nflat_four: {said}\n"


def test_units_belong_before_the_command(run):
    result = run("handling", "--units", "si")
    assert result.exit_code == 2
    assert result.stderr.endswith("Error: --units stands before the command: whirlgate --units si handling\n")


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=lambda path: path.stem)
def test_the_sheet_as_a_whole(run, snapshot, airplane, units):
    assert run("--units", units, "handling", airplane).output == snapshot


def test_a_flight_that_is_not_level_says_so(run):
    climb = " ".join(run("handling", "--power", "cruise", "--bank", "20 deg").stdout.split())
    assert climb.count("steady turns at 80.0 mph and 1000 ft, climb or descent at cruise power") == 2
    assert climb.count("modes in straight flight, climb or descent at cruise power") == 2


def test_bands_are_printed_as_they_are_computed(run):
    asked = ("handling", "--bands", "--bank", "-45 deg", "--powerplant")[:-1]
    found = json.loads(run(*asked, "--json").stdout)["powerplants"]["rotary"]["turns"][0]
    low, high = (round(100 * found[f"rudder_share_{end}"]) for end in ("low", "high"))
    assert 0 < low < round(100 * found["rudder_share"]) < high
    text = " ".join(run(*asked).stdout.split())
    assert "rotary: 90 % band of each control, in percent of its travel" in text
    assert f"{low} left" in text
    assert f"to {high} left" in text
    assert "share of the airplanes drawn that hold both turns this is so; in the sentence before: the 90 %" in text
    effect = rotor_effect(model(BIPLANE), bands=True)
    ends = (
        round(100 * abs(value)) for value in (effect.first.left_rudder_share_low, effect.first.left_rudder_share_high)
    )
    assert "rudder ({} % left to {} % left)".format(*ends) in text
    for one in effect.conclusions:
        way = {"rudder": ("left rudder", "right rudder"), "elevator": ("stick forward", "stick back")}[one.control]
        told = f"{abs(one.more_share):.0%} more {way[one.more_share < 0.0]} ({one.probability:.0%})"
        assert told.replace("%", " %") in text


def test_rotor_mass_and_doubling_carry_their_bands(run, answered):
    asked = ("handling", "--bands", "--bank", "30 deg")
    text, found = " ".join(run("--units", "si", *asked).stdout.split()), answered(*asked)
    rotary, mass = found["powerplants"]["rotary"], found["masses"]["rotary"]
    low, high = (rotary[f"spin_{end}_rad_s"] * 30.0 / math.pi for end in ("low", "high"))
    assert f"rpm clockwise ({low:.0f} to {high:.0f}) as seen from the cockpit" in text
    assert f"kg ({mass['mass_low_kg']:.0f} to {mass['mass_high_kg']:.0f}), CG" in text
    doubling = rotor_effect(model(BIPLANE), bands=True).doubling
    assert f"m/s ({doubling.speed_low_m_s:.1f} to {doubling.speed_high_m_s:.1f})" in text
    assert f"a limit is met in {100.0 * doubling.doubles_probability:.0f} % of the airplanes drawn" in text


def test_a_seed_that_is_no_number_is_refused(run):
    result = run("handling", "--bands", "--seed", "many")
    assert (result.exit_code, result.stderr) == (2, '--seed: must be a number without a unit, as in "1", got "many"\n')
    result = run("handling", "--bands", "--seed", "2.5")
    assert (result.exit_code, result.stderr) == (2, '--seed: must be a whole number, got "2.5"\n')


def test_a_seed_without_draws_is_refused(run):
    result = run("handling", "--seed", "3")
    assert (result.exit_code, result.stderr) == (
        2,
        "--seed: belongs to --bands; give --bands as well, or leave it out\n",
    )
