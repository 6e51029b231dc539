"""What a balance refuses: parts that are missing, and scales that cannot be right."""

import pytest
from airplanes import BIPLANE

from sim.errors import InputError
from sim.model.model import Model
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
    assert refusal("weighing.reading.6.scale=186 lb ± 1/2 lb") == (
        "weighing.reading: the readings do not balance: tail_low adds up to 557.0 kg (1228.0 lb), level to 548.2 kg "
        "(1208.5 lb); they may differ by 2.9 kg (6.4 lb), three standard errors; check tares and what was aboard"
    )


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


def test_a_list_of_another_airplane_than_was_weighed():
    place, weighing = refusal("item.pilot.station=-400 in").splitlines()
    assert place == (
        "item.pilot.station: the station is -10160 mm (-400 in); usual is from -741.3 mm (-29.19 in) to 6675 mm "
        "(262.8 in) (from ahead of the propeller to behind the tail). Check the station and its unit."
    )
    assert weighing == (
        "weighing: cannot be of the airplane in the item list: cowl would have to weigh less than nothing; check "
        "tares, attitudes (nose up positive), places of the supports, weighing.aboard and the items"
    )
