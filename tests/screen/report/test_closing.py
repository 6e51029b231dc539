"""What it takes to make the report again."""

from types import SimpleNamespace

from airplanes import PARASOL

from sim.scenario.bill_text import bill_text
from sim.scenario.reading import load
from viz.report.sections.closing import again


def test_files_of_items_are_part_of_what_it_takes(tmp_path):
    text, bill = PARASOL.read_text(encoding="utf-8"), bill_text(load(PARASOL), "si")
    path = tmp_path / "mine.toml"
    path.write_text(text[: text.index("[[item]]")] + '[[item]]\nfile = "items.csv"\n', encoding="utf-8")
    (tmp_path / "items.csv").write_text(bill, encoding="utf-8")
    found = SimpleNamespace(units="us", called=str(path), settings=(), scenario=load(path), other=None)
    *_, scenario, items = again(found)
    assert (scenario.title, scenario.file) == ("Scenario", "mine.toml")
    assert (items.title, items.file, items.text) == ("Items of the scenario", "items.csv", bill)
