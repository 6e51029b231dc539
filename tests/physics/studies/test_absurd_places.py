"""An item list that scales make absurd: what stands where nothing can is named first, then what else to check."""

import pytest
from airplanes import BIPLANE

from sim.errors import InputError
from sim.model.check import check
from sim.model.model import model
from sim.studies.balance import balance

LESS_THAN_NOTHING = (
    "would have to weigh less than nothing; check the items of pilot and wings first, then tares, attitudes (nose up "
    "positive), places of the supports, weighing.aboard and the items"
)


def test_a_pilot_behind_the_tail_is_named_before_the_item_that_pays_for_it():
    with pytest.raises(InputError) as caught:
        balance(model(BIPLANE, ["item.pilot.station=850 in"]))
    first, *_, last = caught.value.faults
    assert first.where == "item.pilot.station"
    assert first.what.startswith("the station is 21590 mm (850 in); usual is from ")
    assert last.where == "weighing"
    assert last.what.endswith(LESS_THAN_NOTHING)


def test_an_attitude_of_the_wrong_sign_is_among_what_to_check():
    found = balance(model(BIPLANE, ["weighing.attitude.tail_low=-20 °"]))
    assert any("They agree with attitude tail_low at 12." in remark for remark in found.remarks)
    assert found.cg_station_m == pytest.approx(balance(model(BIPLANE)).cg_station_m, abs=0.01)


def test_a_check_names_the_impossible_place_with_its_line(tmp_path):
    text = BIPLANE.read_text(encoding="utf-8")
    head, pilot, rest = text.partition('name = "pilot"')
    station = next(line for line in rest.splitlines() if line.startswith("station"))
    file = tmp_path / "far.toml"
    file.write_text(head + pilot + rest.replace(station, 'station = "850 in"', 1), encoding="utf-8")
    (checked,) = check([str(file)]).files
    line = 1 + (head + pilot + rest.partition(station)[0]).count("\n")
    assert not checked.fine
    assert checked.faults[0].where == "item.pilot.station"
    assert checked.faults[0].line == line
