"""A sheet is data until it is shown."""

from viz.sheets.table import Table, show, table


def test_a_table_takes_any_rows():
    made = table("Title", ["What", "m"], (row for row in [["a", "1"]]), "True.")
    assert made == Table("Title", ("What", "m"), (("a", "1"),), "True.")


def test_a_sheet_is_printed_in_order(capsys):
    show([table("First", ["What", "m"], [["a", "1"]], "Note."), "Then a sentence."])
    said = capsys.readouterr().out.split()
    assert said[:3] == ["First", "What", "m"]
    assert said[-4:] == ["Note.", "Then", "a", "sentence."]


def test_a_short_first_column_is_never_broken(capsys):
    show([table("T", ["Mode", *("a long head" for _ in range(9))], [["short period", *"123456789"]])])
    assert "short period" in capsys.readouterr().out
