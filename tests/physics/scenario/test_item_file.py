"""A file of items is found beside its scenario, read once, and goes with it to the workers of a sweep."""

import os

import pytest
from airplanes import PARASOL

from sim.errors import InputError
from sim.model.model import model
from sim.scenario.bill_text import bill_text
from sim.scenario.bundled import MOST_BYTES
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.sweeps.grid import question_of, sweep
from sim.sweeps.runner import outcomes

CG = "balance.cg_station_m"


@pytest.fixture
def parted(tmp_path):
    """Return the parasol, whose items come last, with the items in a file beside it."""
    text = PARASOL.read_text(encoding="utf-8")
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "items.csv").write_text(bill_text(load(PARASOL), "us"), encoding="utf-8")
    path = tmp_path / "mine.toml"
    path.write_text(f'{text[: text.index("[[item]]")]}[[item]]\nfile = "shop/items.csv"\n', encoding="utf-8")
    return path


def told(path):
    with pytest.raises(InputError) as caught:
        load(path)
    return str(caught.value)


def test_the_balance_is_that_of_the_tables(parted):
    assert balance(model(parted)).to_json() == balance(model(PARASOL)).to_json()


def test_it_is_found_from_the_folder_of_the_scenario(parted, monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path / "shop")
    assert load("../mine.toml").item == load(PARASOL).item


def test_a_sweep_takes_the_file_along(parted):
    asked = {"vary": ["item.pilot.mass=70kg,90kg"], "collect": [CG]}
    wanted = sweep(PARASOL, **asked).rows
    scenario = load(parted)
    (parted.parent / "shop" / "items.csv").unlink()
    assert sweep(scenario, **asked).rows == wanted
    assert sweep(scenario, settings=["item.fuel.mass=0 kg"], **asked).rows[0].results[0] != wanted[0].results[0]


def test_another_file_of_items_is_another_question_to_the_journal(parted):
    class Noted:
        def __init__(self):
            self.keys = []

        def known(self, key):
            self.keys.append(key)

        def keep(self, key, outcome):
            pass

    from sim.sweeps.runner import Outcome, silent
    from sim.sweeps.workers import Workers

    def keys():
        job = question_of(str(parted), (), ["item.pilot.mass=70kg,90kg"], [CG]).job
        noted = Noted()
        outcomes(lambda *_: Outcome(()), job, [()], workers=Workers(), journal=noted, progress=silent)
        return noted.keys

    before = keys()
    assert keys() == before
    bill = parted.parent / "shop" / "items.csv"
    bill.write_text(bill.read_text(encoding="utf-8").replace("pilot,pilot,", "pilot,pilot,1"), encoding="utf-8")
    assert keys() != before


def test_what_cannot_be_read(parted):
    bill, place = parted.parent / "shop" / "items.csv", parted.read_text(encoding="utf-8").count("\n")
    shown = f"{parted}:{place}: item.1.file: {bill}"
    bill.rename(bill.with_name("itms.csv"))
    assert told(parted) == f"{shown} cannot be read: no such file; did you mean itms.csv?"
    bill.mkdir()
    assert told(parted) == f"{shown} cannot be read: it is no regular file"
    bill.rmdir()
    os.mkfifo(bill)
    assert told(parted) == f"{shown} cannot be read: it is no regular file"
    bill.unlink()
    bill.symlink_to("/dev/zero")
    assert told(parted) == f"{shown} cannot be read: it is no regular file"
    bill.unlink()
    bill.write_bytes(b"name\n" * (MOST_BYTES // 5) + b"x")
    assert told(parted) == f"{shown} is not a bill of items: it is larger than 1 MB"
    bill.write_bytes("name,group,mass ± [kg]\n".encode("cp1252"))
    assert (
        told(parted)
        == f"{bill}:1: is not UTF-8 text: byte 0xb1 belongs to no letter; save it as CSV with the encoding UTF-8"
    )
