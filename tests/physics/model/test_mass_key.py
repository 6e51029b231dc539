"""The mass in the file beside the item list: which one flies is said where they differ."""

import pytest
from airplanes import BIPLANE

from sim.model.check import check
from sim.model.model import model
from sim.studies.speeds import speeds


def changed(tmp_path, mass):
    head, table, rest = BIPLANE.read_text(encoding="utf-8").partition("[airplane]")
    before, _, after = rest.partition("mass = ")
    file = tmp_path / "heavier.toml"
    file.write_text(f'{head}{table}{before}mass = "{mass}"\n{after.partition(chr(10))[2]}', encoding="utf-8")
    return file


def test_a_mass_that_the_items_contradict_does_not_fly_and_is_told(tmp_path):
    file = changed(tmp_path, "2600 lb")
    own, heavier = speeds(model(BIPLANE)), speeds(model(file))
    assert heavier.stall_m_s == pytest.approx(own.stall_m_s, rel=1e-12)
    (told,) = (remark.text for remark in check([str(file)]).remarks if remark.key == "airplane.mass")
    assert "the mass is 1179 kg (2600 lb), and the items with " in told
    assert "which is what flies" in told
    assert told in heavier.remarks


@pytest.mark.parametrize("settings", [["airplane.mass=1500 lb"], []])
def test_a_setting_flies_and_is_not_questioned(settings):
    found = model(BIPLANE, settings)
    assert not [remark for remark in found.remarks("speeds") if remark.key == "airplane.mass"]
