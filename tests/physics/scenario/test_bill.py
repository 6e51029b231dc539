"""A bill of items says the same as the tables it was made of, to the last bit; a wrong cell is told at its place."""

import csv
import io
import re
from pathlib import Path

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from hypothesis import given
from hypothesis import strategies as st

from sim.errors import InputError
from sim.scenario.bill import read_bill
from sim.scenario.bill_cells import defused, number, plain
from sim.scenario.bill_text import bill_text
from sim.scenario.bundled import File
from sim.scenario.reading import load, read_text

AIRPLANES = pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
UNITS = pytest.mark.parametrize("units", ["us", "si"])
LEAST = (Path(__file__).parents[2] / "scenarios" / "valid" / "least.toml").read_text(encoding="utf-8")
NAMED = f'{LEAST}\n[[item]]\nfile = "items.csv"\n'


def without_items(text: str) -> str:
    """Return a scenario's text with its items, which stand together, in the place of one that names a file."""
    rows = text.split("\n")
    first = rows.index("[[item]]")
    last = max(number for number, row in enumerate(rows) if row == "[[item]]")
    end = next((number for number in range(last + 1, len(rows)) if rows[number].startswith("[")), len(rows))
    return "\n".join([*rows[:first], "[[item]]", 'file = "items.csv"', "", *rows[end:]])


def from_csv(text: str, scenario: str = NAMED, *settings: str):
    return read_text(scenario, called="mine.toml", settings=settings, files=[("items.csv", text)])


def refused(text: str, scenario: str = NAMED, *settings: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        from_csv(text, scenario, *settings)
    return [str(fault) for fault in caught.value.faults]


@AIRPLANES
@UNITS
def test_out_and_in_again_is_the_same_to_the_last_bit(airplane, units):
    scenario = load(airplane)
    text = bill_text(scenario, units)
    again = from_csv(text, without_items(scenario.source.text))
    assert len(again.item) >= 10
    assert again.item == scenario.item
    assert again.tolerances == scenario.tolerances
    assert bill_text(again, units) == text


@pytest.mark.parametrize(("airplane", "units", "unit"), [(BIPLANE, "us", "lb"), (PARASOL, "si", "kg")])
def test_a_shop_finds_the_numbers_that_it_wrote(airplane, units, unit):
    scenario = load(airplane)
    rows = {row["name"]: row for row in csv.DictReader(io.StringIO(bill_text(scenario, units)))}
    plain_texts = re.compile(rf'name = "(.*)"\ngroup = .*\nmass = "([0-9.]+) {unit}(?: ± ([0-9.]+) {unit})?"')
    written = plain_texts.findall(scenario.source.text)
    assert len(written) >= 10
    assert [(name, rows[name][f"mass [{unit}]"], rows[name][f"mass ± [{unit}]"]) for name, *_ in written] == written


def test_station_and_error_stand_in_cells_of_their_own():
    head, first, *_ = csv.reader(io.StringIO(bill_text(load(BIPLANE), "us")))
    row = dict(zip(head, first, strict=True))
    assert (row["station [in]"], row["station ± [in]"], row["buttline [in]"]) == ("47.5", "1", "")
    assert head[:4] == ["name", "group", "mass [lb]", "mass ± [lb]"]
    assert "waterline ± [in]" not in head


@given(
    st.just(0.0) | st.floats(0.001, 1e5),
    st.floats(-100.0, 100.0),
    st.floats(1e-9, 10.0),
    st.sampled_from(["us", "si"]),
)
def test_any_value_comes_back_to_the_last_bit(mass, station, error, units):
    item = f'[[item]]\nname = "x"\ngroup = "y"\nmass = "{mass!r} kg ± {error!r} kg"\nstation = "{station!r} m"\n'
    scenario = read_text(f'{LEAST}\n{item}height = "0.3 m ± {error!r} m"\n')
    again = from_csv(bill_text(scenario, units))
    assert again.item == scenario.item
    assert again.tolerances == scenario.tolerances


HOSTILE = [
    "=1+1",
    "+1",
    "-x",
    "@sum",
    "'=1",
    "''@",
    " =1",
    "'tis",
    'a "b", c',
    "a;b",
    "a;=b",
    "a; '-b",
    "ü ± Ж",
    "TRUE",
    "1e5",
    "\\",
    "{0}",
]


@pytest.mark.parametrize("name", HOSTILE)
@UNITS
def test_no_text_is_a_formula_and_each_comes_back(name, units):
    item = f"name = '''{name}'''\ngroup = '''{name}'''\nstation = '1 m'\n"
    scenario = read_text(f"{LEAST}\n[[item]]\n{item}")
    assert scenario.item[0].name == name
    text = bill_text(scenario, units)
    cells = next(csv.DictReader(io.StringIO(text)))
    assert not any(part.lstrip().startswith(tuple("=+-@\t\r")) for part in cells["name"].split(";"))
    assert from_csv(text).item == scenario.item


@given(st.text(alphabet="'=+-@;\t\r x", max_size=8))
def test_what_was_defused_is_plain_again(text):
    assert plain(defused(text)) == text
    assert not any(part.lstrip(" ").startswith(tuple("=+-@\t\r")) for part in defused(text).split(";"))


def test_a_minus_of_a_number_stays():
    text = bill_text(read_text(f'{LEAST}\n[[item]]\nname = "x"\ngroup = "y"\nstation = "-3 m"\n'), "si")
    assert text.splitlines()[1] == "x,y,,,-3,,,,,,,,,,"


def test_what_is_not_given_is_not_made_up():
    scenario = from_csv("name,group,station [m],waterline [m]\nx,y,1,\n")
    assert scenario.item[0].model_fields_set == {"name", "group", "station_m"}
    assert scenario.item[0].mass_kg is None


SAME = "name,group,mass [kg],mass ± [kg],station [m],moves_with_engine\na,b,1.5,0.25,-0.75,true\n"


@pytest.mark.parametrize(
    "text",
    [
        SAME.replace(",", ";"),
        SAME.replace(",", ";").replace(".", ","),
        SAME.replace(",", "\t"),
        SAME.replace("\n", "\r\n"),
        SAME.replace("\n", "\r"),
        SAME.replace("a,", '"a",').replace("1.5", '"1.5"'),
        f"\n,,,,,\n{SAME}\n,,,,,\n\n",
        SAME.replace("\n", ",,\n"),
        SAME.replace("mass ± [kg]", "Mass +/- [g]").replace("0.25", "250"),
        SAME.replace("moves_with_engine", "Moves with engine").replace("true", "YES"),
        SAME.replace(" [kg]", "").replace(" [m]", "").replace("1.5,0.25,-0.75", "1.5 kg,250 g,-75 cm"),
        SAME.replace("mass ± [kg],", "").replace("mass [kg]", "mass").replace("1.5,0.25", "1.5 kg ± 0.25 kg"),
        SAME.replace("1.5", "1 1/2").replace("0.25", "1/4").replace("-0.75", "−3/4"),
        SAME.replace("1.5", "15e-1").replace("-0.75", " - .75 "),
    ],
)
def test_the_ways_of_spreadsheets(text):
    found, wanted = from_csv(text), from_csv(SAME)
    assert found.item == wanted.item
    assert found.tolerances == wanted.tolerances == {"item.1.mass": 0.25}


def test_a_setting_finds_an_item_of_the_file_by_its_name():
    changed = from_csv(SAME, NAMED, "item.a.mass=2 kg ± 1 kg")
    assert changed.item[0].mass_kg == 2.0
    assert changed.tolerances == {"item.1.mass": 1.0}
    assert refused(SAME, NAMED, "item.a.mass=-2 kg", "item.b.mass=2 kg") == [
        'set item.a.mass: must be 0 to 100000 kg, got "-2 kg"',
        'set item.b.mass: must name an item, 1 to 1 or by its name, got "b"',
    ]


def test_a_file_stands_where_it_is_named():
    table = '\n[[item]]\nname = "{0}"\ngroup = "y"\nstation = "1 m"\n'
    scenario = LEAST + table.format("first") + '\n[[item]]\nfile = "items.csv"\n' + table.format("last")
    found = from_csv("name,group,station [m]\nb,y,1\na,y,1\n", scenario)
    assert [item.name for item in found.item] == ["first", "b", "a", "last"]
    late = scenario.replace('"last"\ngroup', '"last"\nmass = "2"\ngroup')
    line = late.split("\n").index('mass = "2"') + 1
    assert refused("name,group,station [m]\nb,y,1\na,y,1\n", late) == [
        f'mine.toml:{line}: item.4.mass: must have a unit, as in "92 lb ± 3 lb", got "2"'
    ]


LENGTH = 'must have a unit of a length in brackets, as in "station [in]"'
POINT = 'must be a number with a decimal point and no other mark, as in "45.5"'


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", ["items.csv:1: is empty: its first row names the columns, as in name, group"]),
        (
            "group,station [m]\na,1\n",
            ["items.csv:1: name: is missing: a column of that name, which each item needs"],
        ),
        (
            "name\na\n",
            [
                "items.csv:1: group: is missing: a column of that name, which each item needs",
                "items.csv:1: station: is missing: a column of that name, which each item needs",
            ],
        ),
        ('name,group,station [m]\n"a,b,1\n', ["items.csv:2: is not CSV from here on: unexpected end of data"]),
        (
            "name,group,station [m],mass ± [kg],station [in],name\na,b,1\n",
            [
                'items.csv:1: mass ± [kg]: must stand beside a column "mass [kg]"',
                "items.csv:1: station [in]: must not stand in the first row twice",
                "items.csv:1: name: must not stand in the first row twice",
            ],
        ),
        (
            "name,group [x],station [kg],mass [ld]\na,b,1,1\n",
            [
                'items.csv:1: group [x]: must be without ± and without a unit, as in "group"',
                f'items.csv:1: station [kg]: {LENGTH}, got "station [kg]"',
                'items.csv:1: mass [ld]: must have a unit of a mass in brackets, as in "mass [lb]", got "mass [ld]"',
            ],
        ),
        (
            "name,group,station []\na,b,1\n",
            [f'items.csv:1: station []: {LENGTH}, got "station []"'],
        ),
        (
            "name;group;station [m];mass [kg]\na;b;1,5;1.400\nc;d;2,5;3\n",
            ['items.csv:2: mass [kg]: must have a decimal comma, as most numbers of the file have, got "1.400"'],
        ),
        (
            "name;group;station [m];mass [kg]\na;b;1.5;1,400\nc;d;2.5;3\n",
            ['items.csv:2: mass [kg]: must have a decimal point, as most numbers of the file have, got "1,400"'],
        ),
        (
            'name,group,station [m]\na,b,"1,400"\n',
            [f'items.csv:2: station [m]: {POINT}, got "1,400"'],
        ),
        (
            "name,group,station [m]\na,b,=1+1\n",
            ['items.csv:2: station [m]: must be a number without a unit, as in "45.5", got "=1+1"'],
        ),
        (
            "name,group,station [m]\n,b,1\n",
            ["items.csv:2: name: is missing: each item needs one of its own"],
        ),
        (
            f"name,group,station [m]\n{'x' * 61},b,1\n",
            [f'items.csv:2: name: must be text of 1 to 60 letters on one line, got "{"x" * 57}…"'],
        ),
        (
            'name,group,station [m]\n"a\nb",b,1\nc,d,e\n',
            [
                'items.csv:2: name: must be text of 1 to 60 letters on one line, got "a\\u000ab"',
                'items.csv:3: station [m]: must be a number without a unit, as in "45.5", got "e"',
            ],
        ),
    ],
)
def test_what_is_wrong_is_told_at_row_and_column(text, said):
    assert refused(text) == said


@given(st.text(alphabet='name,group;station [m]\n\r\t"±x1.-=\0ß', max_size=60))
def test_whatever_the_file_holds_it_ends_in_sentences(text):
    bill = read_bill(File("items.csv", text, Path()))
    assert all(fault.file == "items.csv" and fault.line for fault in bill.faults)
    assert bill.faults or all(row.name for row in bill.rows)


@pytest.mark.parametrize(("cell", "text"), [("1,5", "1.5"), ("1.5", "1.5"), ("-1,5e3", "-1.5e3"), (" 7 ", "7")])
def test_a_comma_is_a_decimal_mark_where_semicolons_part_the_cells(cell, text):
    assert number(cell, comma=True) == text


def test_what_changed_since_the_weighing_has_columns_too():
    (item,) = from_csv("name,group,mass [kg],station [m],move [in],added\nlead,ballast,5,1,-6,yes\n").item
    assert item.move_m == pytest.approx(-0.1524)
    assert item.added is True
    text = bill_text(read_text(f'{LEAST}\n[[item]]\nname = "x"\ngroup = "y"\nstation = "3 m"\nmove = "-6 in"\n'), "us")
    cells = dict(zip(text.splitlines()[0].split(","), text.splitlines()[1].split(","), strict=True))
    assert (cells["move [in]"], cells["added"]) == ("-6", "")
