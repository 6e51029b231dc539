"""Which engine stood on the scales: what is asked for later does not move it."""

import pytest
from airplanes import BIPLANE

from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.balance import balance

TEXT = BIPLANE.read_text(encoding="utf-8")
ON_SCALES = 'powerplant = "flat_four"            # engine on the scales, whichever is balanced\n'
ASKED = ["balance.powerplant=rotary"]


@pytest.fixture
def unnamed(tmp_path):
    """The biplane weighed without a word of its engine."""
    assert ON_SCALES in TEXT
    file = tmp_path / "unnamed.toml"
    file.write_text(TEXT.replace(ON_SCALES, ""), encoding="utf-8")
    return file


def remarks(found):
    return [one.text for one in found.remarks() if one.key == "weighing.powerplant"]


@pytest.mark.parametrize("named", [True, False], ids=["named", "unnamed"])
def test_the_engine_that_is_balanced_by_a_setting_was_not_on_the_scales(named, unnamed):
    file = BIPLANE if named else unnamed
    option, setting = balance(model(file), powerplant="rotary"), balance(model(file, ASKED))
    assert setting.weighing.powerplant == option.weighing.powerplant == "flat_four"
    assert setting.powerplant == "rotary"
    for key in ("mass_kg", "mass_error_kg", "cg_station_m", "cg_error_m", "engine_move_m", "engine_move_error_m"):
        assert getattr(setting, key) == pytest.approx(getattr(option, key), rel=1e-12)
    own, beside = (balance(model(file, settings), powerplant="flat_four") for settings in ((), ASKED))
    assert own.mass_kg == pytest.approx(beside.mass_kg, rel=1e-12)
    assert own.cg_station_m == pytest.approx(beside.cg_station_m, rel=1e-12)


def test_with_the_other_engine_on_them_the_scales_say_something_else(unnamed):
    """What the file's own key says of the weighing counts: 1 lb and more of another airplane."""
    file = unnamed.with_name("other.toml")
    text = unnamed.read_text(encoding="utf-8")
    assert text.count('[balance]\npowerplant = "flat_four"') == 1
    file.write_text(text.replace('[balance]\npowerplant = "flat_four"', '[balance]\npowerplant = "rotary"'), "utf-8")
    assert model(file).weighing.powerplant == "rotary"
    assert abs(balance(model(file)).mass_kg - balance(model(unnamed, ASKED)).mass_kg) > 0.45


def test_without_any_key_the_first_engine_of_the_file_was_on_them(unnamed):
    text = unnamed.read_text(encoding="utf-8").replace('[balance]\npowerplant = "flat_four"\n', "[balance]\n")
    unnamed.write_text(text, encoding="utf-8")
    assert model(unnamed, ["balance.powerplant=flat_four"]).weighing.powerplant == "rotary"
    assert model(unnamed).weighing.powerplant == "rotary"


def test_a_weighing_of_several_engines_that_names_none_is_remarked_on(unnamed):
    said = (
        "weighing.powerplant: is not given, and the scenario has 2 engines; flat_four is taken to have been on the "
        "scales. Write the one that was."
    )
    assert remarks(model(unnamed)) == remarks(model(unnamed, ASKED)) == [said]
    assert said in balance(model(unnamed)).remarks
    assert remarks(model(BIPLANE)) == remarks(model("tollgate")) == []


def test_one_engine_needs_no_name(unnamed):
    scenario = load(unnamed)
    alone = scenario.model_copy(update={"powerplant": {"flat_four": scenario.powerplant["flat_four"]}})
    assert remarks(model(alone)) == []
