"""The weighing on the sheet of ``whirlgate balance``: scales beside list, suspects, and who was aboard."""

import re

import pytest

TAIL_HEAVY = ("--set", "weighing.reading.3.scale=122 lb ± 1/2 lb", "--set", "weighing.reading.6.scale=181 lb ± 1/2 lb")
NOBODY = ("--set", "weighing.aboard=[]")
EVERYTHING = ("--set", 'weighing.aboard=["pilot", "fuel"]')


def shown(run, *words):
    result = run(*words)
    assert (result.exit_code, result.stderr) == (0, "")
    text = result.stdout
    return " ".join(text[text.index("Weighed with") :].split())


def test_scales_list_and_difference_carry_their_errors(run, answered):
    text, found = shown(run, "balance"), answered("balance")["weighing"]
    pounds, inches = 1.0 / 0.45359237, 1.0 / 0.0254
    scales = found["weighed"]
    assert f"± of the scales {scales['mass_error_kg'] * pounds:.1f} lb {scales['cg_error_m'] * inches:.2f} in" in text
    assert f"± of the list {found['estimate_error_kg'] * pounds:.0f} lb" in text
    assert f"difference / ± {found['mass_z_score']:.1f} {found['station_z_score']:.1f}" in text


def test_errors_that_were_not_given_are_said(run):
    text = shown(run, "balance")
    assert (
        "Standard errors assumed where the scenario gives no ±: stations, waterlines and buttlines of supports "
        "0.062 in, attitudes 0.10°. Items without ± count with 5 % of their mass, 0.50 in of station and 2.0 in of "
        "waterline; those of pilot and fuel as exact."
    ) in text
    assert "scale readings" not in text
    assert "scale readings 1.0 lb" in shown(run, "balance", "--set", "weighing.reading.6.scale=166 lb")


def test_one_attitude_says_whose_height_it_takes(run):
    settings = [
        f"weighing.reading.{number}.scale={scale} lb ± 1 lb" for number, scale in ((4, 556), (5, 554), (6, 98.5))
    ]
    words = [word for one in ["weighing.attitude.tail_low=0 °", *settings] for word in ("--set", one)]
    text = shown(run, "--units", "si", "balance", *words)
    assert "One attitude does not determine the height: that of the item list, ± 30 mm, is used." in text


def test_within_the_errors_no_group_is_suspect(run, answered):
    text = shown(run, "balance")
    share = answered("balance")["weighing"]["gap_probability"]
    assert (
        "In weight, CG station and height the scales agree with the list within the errors of both: with a probability "
        f"of {100.0 * share:.0f} % errors alone make a difference at least so large. No group is suspect."
    ) in text
    assert "Probability" not in text


@pytest.mark.parametrize(("units", "factor", "unit"), [("us", 1.0 / 0.45359237, "lb"), ("si", 1.0, "kg")])
def test_suspects_stand_with_their_probabilities(run, answered, units, factor, unit):
    text = shown(run, "--units", units, "balance", *TAIL_HEAVY)
    found = answered("balance", *TAIL_HEAVY)["weighing"]
    first = found["suspicions"][0]
    assert first["group"] == "tail"
    listed = 100.0 * found["cause_kinds"]["listed_mass_probability"]
    given = 100.0 * first["probability"] / (0.01 * listed)
    assert (
        f"tail {first['estimate_kg'] * factor:.1f} {unit} {first['estimate_error_kg'] * factor:.1f} {unit} "
        f"{first['correction_kg'] * factor:.2g} {unit} heavier {first['correction_error_kg'] * factor:.1f} {unit} "
        f"{given:.0f} %"
    ) in text
    assert re.search(rf"a mass in the item list +{listed:.0f} %", text)
    assert (
        f"The weighing suggests that a mass in the item list is wrong (probability {listed:.0f} %); if so, first that "
        f"the group tail is heavier than listed ({given:.0f} %): check it first."
    ) in text
    kinds = found["cause_kinds"]
    assert sum(kinds.values()) == pytest.approx(1.0)
    groups = sum(one["probability"] for one in found["suspicions"])
    assert 0.95 < groups / kinds["listed_mass_probability"] <= 1.0  # the rest: a mass in the other unit
    assert "A hint where to look, not a finding." in text


def test_an_engine_that_stood_elsewhere_is_told_with_the_way(run, answered):
    """Weighed at 4 1/2 in, listed at -2 in: 6 1/2 in aft of where it is written."""
    ends = (
        "--set",
        "powerplant.flat_four.station=-2 in ± 1/4 in",
        "--set",
        "powerplant.flat_four.propeller.station=-16 in",
    )
    text, found = shown(run, "balance", *ends), answered("balance", *ends)["weighing"]
    engine, first = found["engine_elsewhere"], found["suspicions"][0]
    assert engine["move_m"] == pytest.approx(6.5 * 0.0254, abs=2.0 * engine["move_error_m"])
    assert engine["probability"] > first["probability"]
    odds = f"{100.0 * engine['probability']:.0f} %"
    inches, error = (engine[name] / 0.0254 for name in ("move_m", "move_error_m"))
    assert f"{inches:.2f} in aft {error:.1f} in {odds} " in text
    assert "engine at another station" in text.replace(f" {inches:.2f} in aft {error:.1f} in {odds}", "")
    assert (
        f"The weighing suggests that the engine stood {inches:.1f} in aft of where "
        f"it is written (probability {odds}): measure its station, and write weighing.engine_move if it was moved."
    ) in text


def test_more_than_one_error_is_said(run):
    """The engine is listed too light and the tail skid too heavy."""
    ends = ("--set", "powerplant.flat_four.mass=220 lb ± 3 lb", "--set", "item.tail skid.mass=40 lb ± 1/2 lb")
    text = shown(run, "balance", *ends)
    assert "No single cause explains the difference: more than one thing is wrong." in text
    assert (
        "Scales and item list disagree by more than their errors, and no single cause explains it: check stations of "
        "the supports, attitudes, readings and tares, then several groups." in text
    )
    assert "The weighing suggests" not in text


def test_a_weighing_that_contradicts_the_list_is_the_first_thing_said(run, answered):
    full = ("balance", "--set", "weighing.aboard=['pilot', 'fuel']")
    found = answered(*full)["weighing"]
    worst = max(abs(found[f"{name}_z_score"]) for name in ("mass", "station", "waterline"))
    assert worst > 3.0
    assert " ".join(run(*full).stdout.split()).startswith(
        f"DO NOT USE before the cause is found: scales and item list disagree by {worst:.1f} times their ±. "
        "The scales suggest: fuel left out. Balance of "
    )
    assert "instead" not in shown(run, *full).partition("Next:")[2]
    assert run("balance").stdout.startswith("Balance of ")


def test_a_centre_beside_the_plane_of_symmetry_is_told(run, answered):
    """Left reads 122 lb more than right, 33 in out, of 1208.3 lb: 3.33 in."""
    ends = [("1", 616), ("2", 494), ("4", 582), ("5", 460)]
    words = [word for n, kg in ends for word in ("--set", f"weighing.reading.{n}.scale={kg} lb ± 1 lb")]
    off_m = answered("balance", *words)["weighing"]["weighed"]["cg_buttline_m"]
    assert off_m == pytest.approx(-122.0 * 33.0 / 1208.3 * 0.0254, rel=0.01)
    assert (
        f"By the scales the CG lies {-off_m / 0.0254:.4g} in left of the plane of symmetry: check buttlines of the "
        "supports and the readings of both sides."
    ) in shown(run, "balance", *words)
    assert f"the CG lies {-1000.0 * off_m:.4g} mm left of" in shown(run, "--units", "si", "balance", *words)


@pytest.mark.parametrize(
    ("words", "cause", "cure", "way"),
    [(NOBODY, "pilot aboard", '["pilot"]', "more"), (EVERYTHING, "fuel left out", '["pilot"]', "less")],
    ids=["pilot", "fuel"],
)
def test_who_was_aboard_is_asked_in_one_sentence(run, answered, words, cause, cure, way):
    text, found = shown(run, "balance", *words), answered("balance", *words)["weighing"]
    pounds, inches = abs(found["over_kg"]) / 0.45359237, found["gap_station_m"] / 0.0254
    assert (
        f"The scales read {pounds:.0f} lb {way} at station {inches:.1f} in than the list: was the {cause} (probability "
        f"99 %)? If so, write weighing.aboard = {cure}."
    ) in text
    assert f"The weighing suggests that the {cause.replace(' ', ' was ', 1)}: if so, every number here is wrong" in text


def test_supports_and_scales_are_causes_and_where_nothing_is_nearly_certain_they_come_first(run, answered):
    """Main supports written 3 in too far aft."""
    words = [w for name in ("left", "right") for w in ("--set", f"weighing.support.{name}.station=39 in")]
    found, whole = answered("balance", *words)["weighing"], " ".join(run("balance", *words).stdout.split())
    mains = next(one for one in found["supports_elsewhere"] if one["supports"] == ["left", "right"])
    inches, error = (mains[f"support_move_{name}"] / 0.0254 for name in ("m", "error_m"))
    assert inches == pytest.approx(-3.0, abs=2.0 * error)
    assert whole.startswith("DO NOT USE before the cause is found")
    assert (
        "times their ±. No one cause stands out: check stations of the supports, scales, tares and what was aboard "
        "first." in whole
    )
    assert "The scales suggest" not in whole
    odds = f"{100.0 * mains['probability']:.0f} %"
    assert f"{-inches:.2f} in forward {error:.2g} in {odds}" in whole


def test_a_scale_that_reads_too_much_at_both_attitudes_is_named_with_the_pounds(run, answered):
    ends = (("1", 496), ("4", 462))
    words = [w for n, pounds in ends for w in ("--set", f"weighing.reading.{n}.scale={pounds} lb ± 1 lb")]
    found, whole = answered("balance", *words)["weighing"], " ".join(run("balance", *words).stdout.split())
    scale, other = found["scales_misread"][:2]
    assert (scale["support"], other["support"]) == ("left", "right")
    assert scale["probability"] > 100.0 * other["probability"]  # the CG lies to the right
    pounds, error = (scale[f"misread_{name}"] / 0.45359237 for name in ("kg", "error_kg"))
    assert pounds == pytest.approx(-60.0, abs=2.0 * error)
    best = max(one["probability"] for one in (*found["suspicions"], *found["scales_misread"]))
    assert scale["probability"] == best
    assert (
        f"The weighing suggests that the scale under left reads {-pounds:.2g} lb "
        f"too low (probability {min(100.0 * best, 99.0):.0f} %): check it and its tare." in whole
    )


def test_a_mass_that_the_list_lacks_is_told_with_its_place(run, answered):
    """The fuselage frame counted 28 lb light, besides what the invented weighing holds."""
    light = ("--set", "item.fuselage frame.mass=84 lb ± 2 lb")
    found = answered("balance", *light)["weighing"]
    assert found["over_kg"] / 0.45359237 == pytest.approx(40.0, abs=10.0)
    assert (
        f"The scales read {found['over_kg'] / 0.45359237:.3g} lb more than the list, as if it sat at station "
        f"{found['gap_station_m'] / 0.0254:.1f} in: is an item missing from the list there?"
    ) in shown(run, "balance", *light)


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (["item.fuselage frame.mass=40 lb"], "Most probable is: a mass in the item list (99 %)."),
        (
            ["weighing.attitude.tail_low=9 °"],
            "One cause would explain weight, CG station and height: attitude tail_low at 12.0° or waterlines and radii",
        ),
    ],
    ids=["list", "height"],
)
def test_what_forbids_use_says_where_to_look(keys, said, run):
    whole = " ".join(run("balance", *(word for key in keys for word in ("--set", key))).stdout.split())
    head, _, _ = whole.partition("Balance of")
    assert head.startswith("DO NOT USE before the cause is found: scales and item list disagree by ")
    assert said.rstrip() in head


def test_a_wheel_elsewhere_along_its_axle_is_a_difference_of_buttlines(run, answered):
    """The left wheel stood 4 in farther in than it is written; it bears 43 to 47 % of the weight, by the attitude."""
    words = ("--set", "weighing.support.left.buttline=-29 in")
    right, found = answered("balance")["weighing"], answered("balance", *words)["weighing"]
    share = (found["over_cg_buttline_m"] - right["over_cg_buttline_m"]) / (4 * 0.0254)
    assert 525.5 / 1210.0 < share < 563.5 / 1210.0
    whole = " ".join(run("balance", *words).stdout.split())
    assert "right of the plane of symmetry: check buttlines of the supports and the readings of both sides." in whole
    assert "Across the airplane they disagree: check the scales of both sides, their tares, and buttlines of" in whole
    score = found["buttline_z_score"]
    assert f"Across the airplane scales and list differ by {score:.1f} times the ± of both, the scales to the" in whole


def test_a_gap_beyond_the_airplane_asks_for_no_item_there(run, answered):
    """Main supports written 3 in too far forward: a few pounds more that would have to sit 3 m ahead of the nose."""
    words = [w for name in ("left", "right") for w in ("--set", f"weighing.support.{name}.station=33 in")]
    found = answered("balance", *words)["weighing"]
    assert abs(found["over_cg_m"] * found["weighed"]["mass_kg"] / found["over_kg"]) > 4.0
    assert found["gap_station_m"] is None
    assert "as if it sat at station" not in run("balance", *words).stdout
