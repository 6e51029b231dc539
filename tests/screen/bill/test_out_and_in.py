"""``balance --bill``, ``--bill-from`` and ``--write-items``: the items out to a spreadsheet and in again."""

import csv
import io

import pytest
import tomli
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.scenario.reading import load

AIRPLANES = pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)


def changed(before, after):
    """Return the rows that were taken away and those that were put in."""
    was, now = before.split("\n"), after.split("\n")
    return [row for row in was if row not in now], [row for row in now if row not in was]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"], ids=["lf", "crlf"])
@AIRPLANES
def test_what_was_written_changes_no_byte(done, tmp_path, airplane, units, ending):
    mine, bill = tmp_path / "mine.toml", tmp_path / "items.csv"
    before = airplane.read_text(encoding="utf-8").replace("\n", ending).encode()
    mine.write_bytes(before)
    said = done("--units", units, "balance", mine, "--bill", bill)
    assert f"Bill of items written to {bill}: {len(load(mine).item)} items." in said.replace("- ", "-")
    said = done("balance", mine, "--bill-from", bill, "--write-items", mine, "--remove-others")
    assert "Nothing to change in" in said
    assert mine.read_bytes() == before


@pytest.mark.parametrize(("mark", "ending"), [("\ufeff", "\r\n"), ("", "\r\n"), ("\ufeff", "\n")])
def test_a_mark_at_the_beginning_and_the_ends_of_rows_stay(done, scenario, bill, mark, ending, edited):
    before = mark + scenario.read_text(encoding="utf-8").replace("\n", ending)
    scenario.write_bytes(before.encode())
    edited(bill, name="pilot", mass="201")
    done("balance", scenario, "--bill-from", bill, "--write-items", scenario)
    assert scenario.read_bytes().decode() == before.replace('mass = "190 lb"', 'mass = "201 lb"')


def test_fifteen_digits_of_a_spreadsheet_change_nothing(done, tmp_path):
    mine, bill = tmp_path / "mine.toml", tmp_path / "items.csv"
    mine.write_bytes(PARASOL.read_bytes())
    done("balance", mine, "--bill", bill)
    rows = list(csv.reader(io.StringIO(bill.read_text(encoding="utf-8"))))
    short = [[f"{float(cell):.15g}" if cell[-1:].isdigit() else cell for cell in row] for row in rows]
    assert short != rows
    bill.write_text("\n".join(";".join(row).replace(".", ",") for row in short), encoding="utf-8-sig")
    done("balance", mine, "--bill-from", bill, "--write-items", mine)
    assert mine.read_bytes() == PARASOL.read_bytes()


def test_a_changed_cell_changes_its_row_alone(done, scenario, bill, edited):
    text = scenario.read_text(encoding="utf-8").replace('mass = "190 lb"', 'mass = "190 lb"          # dressed')
    scenario.write_text(text, encoding="utf-8")
    edited(bill, name="pilot", mass="201.5")
    edited(bill, name="cowl", mass_error="3", station="2.25", buttline="-1")
    edited(bill, name="oil", moves_with_engine="", powerplant="rotary")
    edited(bill, name="tail skid", station_error="")
    said = done("balance", scenario, "--bill-from", bill, "--write-items", scenario)
    after = scenario.read_text(encoding="utf-8")
    assert changed(text, after) == (
        [
            'station = "206 in ± 1 in"',
            'mass = "26 lb ± 2 lb"',
            'station = "2 in ± 1 in"',
            'mass = "190 lb"          # dressed',
        ],
        [
            'station = "206 in"',
            'mass = "26 lb ± 3 lb"',
            'station = "2.25 in ± 1 in"',
            'buttline = "-1 in"',
            'mass = "201.5 lb"        # dressed',
        ],
    )
    assert "changed tail skid (station), cowl (mass, station, buttline), oil (moves_with_engine, powerplant)" in said
    items = {item.name: item for item in load(scenario).item}
    assert (items["oil"].moves_with_engine, items["oil"].powerplant) == (False, "rotary")
    cowl = after[after.index('name = "cowl"') :].split("\n\n")[0].split("\n")
    assert [row.partition(" ")[0] for row in cowl][4:7] == ["waterline", "buttline", "length"]


def test_columns_that_are_not_there_leave_their_keys_alone(done, scenario, tmp_path):
    bill, before = tmp_path / "few.csv", scenario.read_text(encoding="utf-8")
    bill.write_text("name,mass [kg]\ncowl,13\nmain gear,\n", encoding="utf-8")
    done("balance", scenario, "--bill-from", bill, "--set", "item.main gear.mass=66 lb", "--write-items", scenario)
    gone, new = changed(before, scenario.read_text(encoding="utf-8"))
    assert gone == ['mass = "66 lb ± 2 lb"', 'mass = "26 lb ± 2 lb"']
    assert new == ['mass = "13 kg ± 0.90718474 kg"']


def test_new_items_stand_behind_the_last_and_others_are_removed_only_when_asked(done, scenario, bill, edited):
    before = scenario.read_text(encoding="utf-8")
    text = before.replace('[[item]]\nname = "cowl"', '# sheet metal\n[[item]]\nname = "cowl"')
    scenario.write_text(text, encoding="utf-8")
    edited(bill, name="'=bag", group="cockpit", mass="3", mass_error="0.5", station="120")
    rows = bill.read_text(encoding="utf-8").splitlines()
    bill.write_text("\n".join(row for row in rows if not row.startswith(("cowl,", "fuel,"))), encoding="utf-8")
    done("balance", scenario, "--bill-from", bill, "--write-items", scenario)
    added = '\n[[item]]\nname = "=bag"\ngroup = "cockpit"\nmass = "3 lb ± 0.5 lb"\nstation = "120 in"\n'
    end = text.index("\n[[past]]")
    assert scenario.read_text(encoding="utf-8") == text[:end] + added + text[end:]
    said = done("balance", scenario, "--bill-from", bill, "--write-items", scenario, "--remove-others")
    assert "removed cowl, fuel." in said
    left = tomli.loads(scenario.read_text(encoding="utf-8"))["item"]
    wanted = [item for item in tomli.loads(text)["item"] if item["name"] not in ("cowl", "fuel")]
    assert left[:-1] == wanted
    assert "# sheet metal\n[[item]]\nname = " in scenario.read_text(encoding="utf-8")


def test_a_scenario_without_items_gets_them(done, scenario, bill, tmp_path):
    text = scenario.read_text(encoding="utf-8")
    bare, first, end = tmp_path / "bare.toml", text.index("\n[[item]]"), text.index("\n[[past]]")
    bare.write_text(text[:first] + text[end:], encoding="utf-8")
    done("balance", scenario, "--bill-from", bill, "--write-items", bare)
    assert load(bare).item == load(scenario).item
    assert bare.read_text(encoding="utf-8").startswith(text[:first] + text[end:].rstrip("\n"))


def test_any_way_of_writing_an_item_is_kept(done, scenario, bill, edited):
    before = scenario.read_text(encoding="utf-8")
    first = before.index('[[item]]\nname = "pilot"')
    odd = """  [[ item ]]  # who flies
  "name" = 'pilot'
\tgroup   =   "pilot"
  mass="190 lb"   # 190 "dressed" = 180 bare
  'station' = '85 in' # seat

  # eyes
  waterline = "52 in"
  length = "1 ft"
  width = "1 ft 6 in"
  height = "3 ft"
"""
    end = before.index("\n[[item]]", first)
    apart = (
        before[:first]
        + "[[past]]\nname = 'x'\nempty_mass = '700 lb'\ngroup = {tail = '20 lb'}\n\n"
        + odd
        + before[end:]
    )
    scenario.write_text(apart, encoding="utf-8")
    done("balance", scenario, "--bill-from", bill, "--write-items", scenario)
    assert scenario.read_text(encoding="utf-8") == apart
    edited(bill, name="pilot", mass="95.25", station="85.125", buttline="2")
    done("balance", scenario, "--bill-from", bill, "--write-items", scenario)
    assert changed(apart, scenario.read_text(encoding="utf-8")) == (
        ['  mass="190 lb"   # 190 "dressed" = 180 bare', "  'station' = '85 in' # seat"],
        ['  mass="95.25 lb"   # 190 "dressed" = 180 bare', "  'station' = \"85.125 in\" # seat", '  buttline = "2 in"'],
    )


def test_a_bill_can_be_tried_without_writing(answered, scenario, bill, edited):
    before, text = answered("balance", scenario), scenario.read_text(encoding="utf-8")
    edited(bill, name="fuel", mass="142")
    tried = answered("balance", scenario, "--bill-from", bill)
    assert tried == answered("balance", scenario, "--set", "item.fuel.mass=142 lb")
    assert tried["mass_kg"] - before["mass_kg"] == pytest.approx(10 * 0.45359237)
    assert scenario.read_text(encoding="utf-8") == text
    lighter = answered("balance", scenario, "--bill-from", bill, "--set", "item.fuel.mass=100 lb")
    assert lighter["mass_kg"] < before["mass_kg"]


def test_what_comes_next_is_about_the_file_that_was_written(done, bill, scenario, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "other.toml").write_bytes(scenario.read_bytes())
    said = done("balance", "mine.toml", "--bill-from", bill, "--write-items", "other.toml")
    assert "whirlgate mount other.toml" in said


def test_items_in_a_file_of_their_own_give_the_same_balance(answered, scenario, bill, tmp_path):
    text = scenario.read_text(encoding="utf-8")
    first, end = text.index("[[item]]"), text.index("[[past]]")
    parted = tmp_path / "parted.toml"
    parted.write_text(f'{text[:first]}[[item]]\nfile = "items.csv"\n\n{text[end:]}', encoding="utf-8")
    assert answered("balance", parted) == answered("balance", scenario)
    heavy = ("--set", "item.pilot.mass=230 lb")
    assert answered("balance", parted, *heavy) == answered("balance", scenario, *heavy)


def test_what_a_setting_changes_is_written_too(done, scenario, tmp_path):
    path = tmp_path / "items.csv"
    done("balance", scenario, "--set", "item.pilot.mass=201 lb ± 3 lb", "--bill", path)
    row = next(row for row in csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"))) if row["name"] == "pilot")
    assert (row["mass [lb]"], row["mass ± [lb]"]) == ("201", "3")


def test_what_is_counted_with_a_bill_and_not_written_is_said(done, scenario, bill, edited):
    before = scenario.read_bytes()
    edited(bill, name="pilot", mass="201")
    said = " ".join(done("balance", scenario, "--bill-from", bill).split())
    told = "changed pilot (mass). Nothing is written; --write-items SCENARIO.toml sets them in a file."
    assert f"Items counted as in {bill}: {told}" in said.replace("- ", "-")
    assert scenario.read_bytes() == before
