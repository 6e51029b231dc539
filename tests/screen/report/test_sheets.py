"""Tables of a command's sheet, made ready for paper."""

from viz.report.sheets import tables
from viz.sheets.blocks import Points
from viz.sheets.table import table


def sheet(title):
    yield table(title, ["What", "Elev"], [["a", "1"]], "True.\nEstimates, not approved data")
    yield "Text is the terminal's."
    yield table("Remarks", ["What to know"], [["one"], ["two"]])


def test_tables_alone_are_taken_and_lists_are_lists():
    first, second = tables(sheet("Title"))
    assert [column.head for column in first.columns] == ["What", "Elev"]
    assert second == Points(("one", "two"))
