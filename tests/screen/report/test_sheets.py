"""Tables of a command's sheet as parts of a report."""

from viz.report.sheets import tables
from viz.sheets.blocks import Points, rows, say


def sheet(title):
    yield rows(title, ["What", "Elevator"], [["a", "1"]], "True.")
    yield say("Text is the terminal's.")
    yield rows("Remarks", ["What to know"], [["one"], ["two"]])


def test_tables_alone_are_taken_and_lists_are_lists():
    first, second = tables(sheet("Title"))
    assert [column.head for column in first.columns] == ["What", "Elevator"]
    assert second == Points(("one", "two"))
