"""What a balance refuses: parts that are missing, and scales that cannot be right."""

from math import cos, radians, sin

import pytest
from airplanes import BIPLANE

from sim.errors import InputError
from sim.model.model import Model
from sim.model.scales_and_list import contradiction
from sim.scenario.reading import load
from sim.studies.balance import balance


@pytest.fixture(scope="module")
def biplane():
    return load(BIPLANE)


def balanced(scenario, powerplant=None):
    return balance(Model(scenario), powerplant=powerplant)


def refusal(*settings):
    with pytest.raises(InputError) as caught:
        balanced(load(BIPLANE, settings))
    return str(caught.value)


def test_what_is_missing_is_named_at_once(biplane):
    bare = biplane.model_copy(update={"item": []})
    with pytest.raises(InputError) as caught:
        balanced(bare)
    assert str(caught.value) == "item: is missing: give what weighs something, one [[item]] each"
    with pytest.raises(InputError) as caught:
        balanced(biplane.model_copy(update={"balance": None}))
    assert str(caught.value) == ("balance: is missing: the table with forward_limit and aft_limit is needed to balance")
    with pytest.raises(InputError) as caught:
        balanced(biplane.model_copy(update={"layout": None}))
    assert str(caught.value) == (
        'layout.leading_edge: is missing: the station of the lowest leading edge, as in "40 in", is needed for the '
        "mean chord"
    )


def test_an_engine_without_a_place(biplane):
    engine = biplane.powerplant["flat_four"]
    nowhere = engine.model_copy(
        update={"station_m": None, "propeller": engine.propeller.model_copy(update={"station_m": None})}
    )
    with pytest.raises(InputError) as caught:
        balanced(biplane.model_copy(update={"powerplant": {**biplane.powerplant, "flat_four": nowhere}}))
    assert str(caught.value) == (
        'powerplant.flat_four.station: is missing: its CG aft of the datum, as in "18 in", is needed to balance\n'
        'powerplant.flat_four.propeller.station: is missing: its disc aft of the datum, as in "0 in", is needed to '
        "balance"
    )


def test_an_unknown_powerplant(biplane):
    with pytest.raises(InputError) as caught:
        balanced(biplane, "flat_for")
    assert str(caught.value) == (
        'powerplant: must be one of rotary, flat_four, got "flat_for"; did you mean flat_four?'
    )


def test_a_pilot_without_a_weight(biplane):
    items = [item.model_copy(update={"mass_kg": None}) if item.name == "pilot" else item for item in biplane.item]
    with pytest.raises(InputError) as caught:
        balanced(biplane.model_copy(update={"item": items}))
    assert str(caught.value) == "item.pilot.mass: is missing: past builds serve only for the empty airplane"


def test_a_weighing_that_does_not_balance():
    """502 lb under right would balance it as well, and push the airplane to one side at one attitude."""
    assert refusal("weighing.reading.6.scale=186 lb ± 1/2 lb") == (
        "weighing.reading: the readings do not balance: tail_low adds up to 557.0 kg (1228.0 lb), level to 548.2 kg "
        "(1208.5 lb); they may differ by 2.9 kg (6.4 lb), three standard errors; they would with 76.2 kg (168.0 lb) "
        "under tail at tail_low (two digits exchanged); else check tares and what was aboard"
    )


@pytest.mark.parametrize(
    ("key", "wrong", "right"),
    [
        ("4", "252 lb", "236.8 kg (522.0 lb) under left at tail_low (two digits exchanged)"),
        ("2", "554 kg", "251.3 kg (554.0 lb) under right at level (pounds, not kilograms)"),
        ("1", "252.2 lb", "252.2 kg (556.0 lb) under left at level (kilograms, not pounds)"),
        ("3", "98.5 lb", "48.5 kg (107.0 lb) under tail at level (its tare taken off twice)"),
    ],
)
def test_a_slip_that_makes_readings_balance_is_named(key, wrong, right):
    said = refusal(f"weighing.reading.{key}.scale={wrong} ± 1 lb")
    assert f"{right}" in said
    assert said.endswith("; else check tares and what was aboard")


def test_an_engine_set_to_another_station_is_told_how_it_moves_since_the_weighing():
    first, last = refusal("powerplant.flat_four.station=40 in").split("\n")
    assert first == (
        "powerplant.flat_four.station: was set, of what stood on the scales: a correction of the list. If it moved "
        "since, set powerplant.flat_four.move"
    )
    assert last.startswith("weighing: cannot be of the airplane in the item list, 548 kg (1208 lb) on the scales and ")


def test_a_tail_that_lifts_off_its_scale():
    assert refusal("weighing.reading.3.scale=6 lb ± 1/2 lb") == (
        'weighing.reading: tail at level must be above 0 after tare, got "-1.1 kg (-2.5 lb)": the centre of gravity '
        "would lie outside the wheels; check the reading and its tare"
    )


def test_a_wheel_that_stood_on_no_scale(biplane):
    table = biplane.weighing
    short = table.model_copy(update={"reading": table.reading[:-1]})
    with pytest.raises(InputError) as caught:
        balanced(biplane.model_copy(update={"weighing": short}))
    assert str(caught.value) == ("weighing.reading: tail is missing at tail_low; every support must stand on a scale")


def test_a_group_aboard_that_is_no_group():
    assert refusal("weighing.aboard=['pilott']") == (
        "weighing.aboard: must be one of cockpit, cover, electrics, engine, fuel, fuselage, gear, oil, pilot, tail, "
        'wings, got "pilott"; did you mean pilot?'
    )


def test_an_item_aboard_is_told_its_group():
    """By its letters it is nearest to the cover."""
    assert refusal("item.pilot.name=observer", "weighing.aboard=['observer']").endswith(
        'got "observer"; did you mean pilot?'
    )


def test_a_list_of_another_airplane_than_was_weighed():
    place, weighing = refusal("item.pilot.station=-400 in").splitlines()
    assert place == (
        "item.pilot.station: the station is -10160 mm (-400 in); usual is from -741.3 mm (-29.19 in) to 6675 mm "
        "(262.8 in) (from ahead of the propeller to behind the tail). Check the station and its unit."
    )
    assert weighing == (
        "weighing: cannot be of the airplane in the item list, 548 kg (1208 lb) on the scales and 543 kg (1197 lb) in "
        "the list: cowl would have to weigh less than nothing; check the items of pilot and wings first, then tares, "
        "attitudes (nose up positive), places of the supports, weighing.aboard and the items"
    )


POUND_KG = 0.45359237
JACKS, TAIL = (36.0, 0.0), (210.0, 37.0)
"""Station and waterline of the main jacks and of that under the tail. [in]"""
UNSURE = "item.tail surfaces.mass=33 lb ± 9 lb"


def without(pounds, station, waterline):
    """Return settings of the scales when a load is not aboard, by the statics of a lever at each attitude."""
    scales = [row.scale_kg / POUND_KG for row in load(BIPLANE).weighing.reading]  # left, right, tail; level, tail low
    for first, pitch in ((0, 0.0), (3, radians(12.0))):
        main, tail, seat = (x * cos(pitch) + z * sin(pitch) for x, z in (JACKS, TAIL, (station, waterline)))
        on_tail = pounds * (seat - main) / (tail - main)
        scales[first] -= 0.5 * (pounds - on_tail)
        scales[first + 1] -= 0.5 * (pounds - on_tail)
        scales[first + 2] -= on_tail
    ends = (1, 1, 0.5) * 2
    return [
        f"weighing.reading.{n}.scale={scale:.2f} lb ± {end} lb"
        for n, (scale, end) in enumerate(zip(scales, ends, strict=True), 1)
    ]


def test_a_pilot_listed_aboard_who_was_not_is_named_and_takes_nothing_from_the_items():
    """The tail, known within 9 lb, would go below nothing before the pilot, whose mass counts as exact."""
    found = balanced(load(BIPLANE, [UNSURE, *without(190.0, 85.0, 52.0)]))
    guess = found.weighing.aboard_guess
    assert (guess.group, guess.left_out, guess.nearly_certain) == ("pilot", True, True)
    assert contradiction(found.weighing).endswith("The scales suggest: pilot left out.")
    right = balanced(load(BIPLANE, [UNSURE]))
    assert found.mass_kg == pytest.approx(right.mass_kg, abs=2.0 * found.mass_error_kg)
    assert found.cg_station_m == pytest.approx(right.cg_station_m, abs=2.0 * found.cg_error_m)


def test_the_cure_of_the_refusal_cures_it():
    settings = without(190.0, 85.0, 52.0)
    found = balanced(load(BIPLANE, [UNSURE, *settings, "weighing.aboard=[]"])).weighing
    assert found.suspicions == ()
    assert found.aboard_guess is None
