"""What changed since an airplane was weighed: items moved or added count in full, a corrected list does not."""

import pytest
from airplanes import BIPLANE, PARASOL, TWO_SEATER

from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.balance import balance

INCH_M, POUND_KG = 0.0254, 0.45359237
ADDED = """
[[item]]
name = "radio"
group = "electrics"
mass = "12 lb"
station = "150 in"
waterline = "50 in"
"""


def of(tmp_path, text, settings=()):
    file = tmp_path / "changed.toml"
    file.write_text(text, encoding="utf-8")
    return balance(model(load(file, settings)))


@pytest.fixture(scope="module")
def found():
    return balance(model(BIPLANE))


def test_an_item_moved_since_the_weighing_shifts_the_moment_by_its_weight(found):
    """Weight shifted over weight total is CG moved over distance shifted: FAA-H-8083-1."""
    moved = balance(model(BIPLANE, ["item.battery.move=-30 in"]))
    battery = next(item for item in found.items if item.name == "battery")
    shift_m = -30.0 * INCH_M * battery.mass_kg / found.mass_kg
    assert abs(shift_m) > 1e-3
    assert moved.cg_station_m - found.cg_station_m == pytest.approx(shift_m, rel=1e-9)
    assert moved.mass_kg == pytest.approx(found.mass_kg, rel=1e-12)
    assert moved.weighing.estimate_cg_station_m == pytest.approx(found.weighing.estimate_cg_station_m, rel=1e-12)


def test_the_move_that_balance_names_brings_the_target(found):
    shift = min(found.shifts, key=lambda one: abs(one.shift_m))
    moved = balance(model(BIPLANE, [f"item.{shift.item}.move={shift.move_m!r} m"]))
    assert abs(shift.move_m) > INCH_M
    assert moved.cg_station_m == pytest.approx(found.target_station_m, abs=1e-9)


def test_a_move_given_already_counts_in_the_next(found):
    half = balance(model(BIPLANE, ["item.fuel.move=-1 in"]))
    whole = next(one for one in found.shifts if one.item == "fuel")
    rest = next(one for one in half.shifts if one.item == "fuel")
    assert rest.shift_m == pytest.approx(whole.shift_m + INCH_M, rel=1e-6)
    assert rest.move_m == pytest.approx(whole.move_m, rel=1e-6)


def test_an_item_added_since_the_weighing_counts_with_its_listed_mass(tmp_path, found):
    text = BIPLANE.read_text(encoding="utf-8")
    added = of(tmp_path, text + ADDED + "added = true\n")
    mass_kg = found.mass_kg + 12.0 * POUND_KG
    station_m = (found.mass_kg * found.cg_station_m + 12.0 * POUND_KG * 150.0 * INCH_M) / mass_kg
    assert added.mass_kg == pytest.approx(mass_kg, rel=1e-12)
    assert added.cg_station_m == pytest.approx(station_m, rel=1e-12)
    assert added.empty_mass_kg == pytest.approx(found.empty_mass_kg + 12.0 * POUND_KG, rel=1e-12)
    assert added.weighing.over_kg == pytest.approx(found.weighing.over_kg, rel=1e-12)
    forgotten = of(tmp_path, text + ADDED)
    assert forgotten.mass_kg == pytest.approx(found.mass_kg, abs=0.5)
    assert forgotten.weighing.over_kg == pytest.approx(found.weighing.over_kg - 12.0 * POUND_KG, abs=0.5)


@pytest.mark.parametrize("powerplant", ["rotary", "flat_four"])
def test_every_engine_flies_with_the_change(powerplant):
    first, moved = (model(BIPLANE, settings) for settings in ((), ["item.instruments.move=-30 in"]))
    before, after = (one.flown_mass(powerplant) for one in (first, moved))
    assert after.cg_station_m < before.cg_station_m - 0.5e-3
    panel = next(item for item in first.mass_state(powerplant).items if item.name == "instruments")
    shift_m = -30.0 * INCH_M * panel.mass_kg / before.body.mass_kg
    assert after.cg_station_m - before.cg_station_m == pytest.approx(shift_m, rel=1e-9)


def test_an_airplane_that_was_not_weighed_is_moved_too():
    first, moved = (model(PARASOL, settings) for settings in ((), ["item.fuel.move=50 mm"]))
    assert first.weighing is None
    name = first.usual_powerplant().name
    fuel_kg = next(item.mass_kg for item in first.mass_state(name).items if item.name == "fuel")
    whole = first.mass_state(name).whole()
    shift_m = 0.05 * fuel_kg / whole.mass_kg
    assert moved.mass_state(name).whole().cg_station_m - whole.cg_station_m == pytest.approx(shift_m, rel=1e-9)


@pytest.mark.parametrize("key", ["item.battery.station=60 in", "item.main gear.mass=20 lb", "item.pilot.mass=230 lb"])
def test_a_setting_of_what_stood_on_the_scales_is_said_to_be_a_correction(key):
    name = key.partition("=")[0]
    told = [text for text in balance(model(BIPLANE, [key])).remarks if text.startswith(f"{name} was set")]
    (text,) = told
    assert text == (
        f"{name} was set, of what stood on the scales: a correction of the list, and the scales still decide weight "
        "and CG together. For a change since the weighing set the item's move, or list what joined with added = "
        "true; for another pilot than was weighed give weighing.pilot."
    )


@pytest.mark.parametrize("key", ["item.battery.move=-2 in", "item.fuel.mass=20 lb", "powerplant.rotary.mass=300 lb"])
def test_nothing_is_said_of_settings_that_the_scales_do_not_overrule(key):
    assert not [text for text in balance(model(BIPLANE, [key])).remarks if "was set" in text]


def test_engine_settings_are_told_as_well():
    said = balance(model(BIPLANE, ["powerplant.flat_four.mass=300 lb"])).remarks
    assert any(text.startswith("powerplant.flat_four.mass was set, of what stood on the scales") for text in said)


def test_ballast_at_a_place_of_one_s_own(found):
    """b (s - x_target) = M (x_target - x): by hand, at a place on the side that serves."""
    ahead = balance(model(BIPLANE, ["balance.ballast.nose=-10 in"]))
    by_place = {one.place: one for one in ahead.ballast}
    assert set(by_place) == {"tail", "nose"}
    needed = found.mass_kg * (found.cg_station_m - found.target_station_m) / (found.target_station_m + 10.0 * INCH_M)
    assert needed > 0.0
    assert by_place["nose"].to_target_kg == pytest.approx(needed, rel=1e-9)
    assert ahead.ballast[0].place == "nose"
    assert by_place["tail"].to_target_kg is None


def test_ballast_that_serves_is_put_in_and_serves(tmp_path):
    text = TWO_SEATER.read_text(encoding="utf-8")
    found = of(tmp_path, text, ["balance.ballast.nose=200 mm", "balance.ballast.aft=5 m"])
    one = found.ballast[0]
    assert one.to_target_kg is not None
    assert one.to_target_kg > 0.1
    row = (
        f'\n[[item]]\nname = "lead"\ngroup = "ballast"\nmass = "{one.to_target_kg!r} kg"\n'
        f'station = "{one.station_m!r} m"\nadded = true\n'
    )
    assert of(tmp_path, text + row).cg_station_m == pytest.approx(found.target_station_m, abs=1e-9)
