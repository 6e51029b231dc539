"""Tables are kept instead of printed while a report asks for them, and only then."""

from viz.format import Table, table, tables_of
from viz.report.blocks import Points
from viz.report.sheets import tables


def sheet(title: str) -> None:
    table(title, ["What", "Elev"], [["a", "1"]], "True.\nEstimates, not approved data: a licensed engineer or")
    table("Remarks", ["What to know"], [["one"], ["two"]])


def test_tables_are_kept_and_nothing_is_printed(capsys):
    first, second = tables_of(sheet, "Title")
    assert first == Table(
        "Title", ("What", "Elev"), (("a", "1"),), "True.\nEstimates, not approved data: a licensed engineer or"
    )
    assert second.rows == (("one",), ("two",))
    assert capsys.readouterr().out == ""


def test_afterwards_tables_are_printed_again(capsys):
    tables_of(sheet, "Title")
    sheet("Shown")
    assert "Shown" in capsys.readouterr().out


def test_heads_are_whole_words_and_lists_are_lists():
    first, second = tables(sheet, "Title")
    assert first.heads == ("What", "Elevator")
    assert second == Points(("one", "two"))
