"""A scenario is read into SI, tolerances and settings with it; every fault is told at its place."""

from pathlib import Path

import pytest
from airplanes import BIPLANE

from sim.errors import InputError
from sim.scenario.reading import load, read_text
from sim.scenario.toml_text import parse
from sim.units.parsing import Allowed, read

LEAST = (Path(__file__).parents[2] / "scenarios" / "valid" / "least.toml").read_text(encoding="utf-8")


def faults(text: str = LEAST, *settings: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        read_text(text, called="least.toml", settings=settings)
    return [str(fault) for fault in caught.value.faults]


def test_quantities_come_in_si_under_names_that_hold_the_unit():
    scenario = load(BIPLANE)
    assert scenario.wing.span_m == read("28 ft 1 in", Allowed("m"), key="").value
    assert scenario.powerplant["rotary"].speed_rad_s == read("1250 rpm", Allowed("rad/s"), key="").value
    assert scenario.gun.natural_rate_per_s == 550 / 60
    assert scenario.powerplant["flat_four"].gear_ratio == 1.0


def test_each_kind_of_engine_has_parts_of_its_own():
    engines = load(BIPLANE).powerplant
    assert engines["rotary"].parts.cylinder_mass_kg == pytest.approx(15.5 * 0.45359237)
    assert engines["flat_four"].parts.crankshaft_mass_kg == pytest.approx(38 * 0.45359237)


def test_tolerances_are_gathered_by_place():
    text = LEAST.replace('"8.56 m"', '"8.56 m ± 1 cm"').replace('"123 kg"', '"123 kg +/- 2 %"')
    text = text.replace("chord_share = 0.45", 'chord_share = "45 % ± 1 %"')
    assert dict(read_text(text).tolerances) == {
        "wing.span": 0.01,
        "powerplant.four.mass": pytest.approx(2.46),
        "elevator.chord_share": 0.01,
    }


def test_tolerances_of_a_table_of_quantities_are_gathered_too():
    found = load(BIPLANE, ["weighing.attitude.tail_low=12 ° ± 0.2 °", "past.2.group.tail=30 lb ± 1 lb"]).tolerances
    assert found["weighing.attitude.tail_low"] == pytest.approx(0.2 * 3.14159265 / 180.0)
    assert found["past.2.group.tail"] == pytest.approx(0.45359237)


def test_a_setting_is_read_as_if_it_stood_in_the_file():
    changed = read_text(
        LEAST,
        settings=[
            "wing.span = 27 ft 6 in ± 1 in",
            "powerplant.four.cylinders=6",
            'title="Other"',
            "derivatives.roll_p=-0.5",
        ],
    )
    assert changed.wing.span_m == pytest.approx(8.382)
    assert changed.tolerances == {"wing.span": pytest.approx(0.0254)}
    assert (changed.powerplant["four"].cylinders, changed.title) == (6, "Other")
    assert changed.derivatives.given() == {"roll_p": -0.5}


def test_the_last_of_two_settings_counts():
    assert read_text(LEAST, settings=["wing.taper=0.9", "wing.taper=0.8"]).wing.taper == 0.8


def test_a_wrong_setting_is_told_with_its_option_and_all_at_once():
    assert faults(
        LEAST,
        *(
            "wing.span=27",
            "wing.spam=27 ft",
            "wings.span=27 ft",
            "wing.planes=2",
            "wing.span.tip=1 m",
            "field.surface=ice",
        ),
        *("gun", "=3", "powerplant.four.mass.x.y=2", "lift.max=inf"),
    ) == [
        'least.toml:10: wing.gap: is missing: 2 planes need the gap between them, as in "4 ft 8 in"',
        'set wing.span: must have a unit, as in "28 ft 1 in", got "27"',
        "set wing.spam: unknown key; did you mean span?",
        'set lift.max: must be a finite number, got "inf"',
        "set wings: unknown table; did you mean wing?",
        "set field: is no table of a scenario; the ground is an option of whirlgate field: --surface 'long grass'",
        'set wing.span.tip: must lie in a table; "tip" is asked of "27", which is none',
        'set: must be table.key=value, got "gun"',
        'set: must be table.key=value, got "=3"',
        'set powerplant.four.mass.x.y: must lie in a table; "x" is asked of "123 kg", which is none',
    ]


def test_faults_of_the_file_stand_before_those_of_settings():
    said = faults(LEAST.replace('"635 kg"', '"635"'), "wing.chord=9")
    assert said == [
        'least.toml:5: airplane.mass: must have a unit, as in "1400 lb", got "635"',
        'set wing.chord: must have a unit, as in "4 ft 6 in", got "9"',
    ]


def test_an_item_of_a_list_is_set_by_number_or_name():
    data = {"item": [{"name": "pilot"}, {"name": "fuel"}]}
    from sim.scenario.settings import apply

    wrong: list = []
    paths = list(apply(data, ["item.fuel.mass=1", "item.1.mass=2", "item.feul.mass=3", "item.0.mass=4"], wrong))
    assert paths == [(("item", 1, "mass"), ("item", "fuel", "mass")), (("item", 0, "mass"), ("item", "1", "mass"))]
    assert data == {"item": [{"name": "pilot", "mass": "2"}, {"name": "fuel", "mass": "1"}]}
    assert [str(fault) for fault in wrong] == [
        'set item.feul.mass: must name an item, 1 to 2 or by its name, got "feul"; did you mean fuel?',
        'set item.0.mass: must name an item, 1 to 2 or by its name, got "0"',
    ]


@pytest.mark.parametrize(
    ("setting", "wanted"),
    [
        ("item.pilot.mass=abc", 'set item.pilot.mass: must be a mass, as in "92 lb ± 3 lb", got "abc"'),
        ("item.2.mass=abc", 'set item.2.mass: must be a mass, as in "92 lb ± 3 lb", got "abc"'),
        ("item.pilot.mas=3 kg", "set item.pilot.mas: unknown key; did you mean mass?"),
        (
            'item.pilot={name="pilot", group="pilot", mass="80"}',
            'set item.pilot.mass: must have a unit, as in "92 lb ± 3 lb", got "80"',
        ),
    ],
)
def test_a_fault_of_a_setting_names_the_item_as_the_setting_does(setting, wanted):
    items = "".join(
        f'[[item]]\nname = "{name}"\ngroup = "{name}"\nmass = "70 kg"\nstation = "2 m"\n' for name in ("fuel", "pilot")
    )
    assert wanted in faults(LEAST + items, setting)


@pytest.mark.parametrize("ending", ["\r\n", "\n"])
def test_lines_may_end_either_way_and_a_mark_may_stand_first(ending, tmp_path):
    path = tmp_path / "camp.toml"
    path.write_bytes(b"\xef\xbb\xbf" + LEAST.replace("\n", ending).encode())
    assert load(path).title == "Least"


def test_a_line_that_cannot_be_read_does_not_hide_the_rest():
    source = parse("a = 1 ft\n[b]\nc = \nd = 4\n", "x")
    assert source.data == {"b": {"d": 4}}
    assert [fault.line for fault in source.faults] == [1, 3]
    assert source.unread == {("a",), ("b", "c")}
