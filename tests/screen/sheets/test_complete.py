"""What forbids the use of an answer stands at the head of its sheet, wherever it was told."""

from viz.sheets.blocks import Sentence, Table, rows
from viz.sheets.complete import complete
from viz.sheets.from_sim import remarks

FORBIDS = "weighing: DO NOT USE before the cause is found: scales and item list disagree by 7.0 times their ±."


def test_it_is_lifted_from_any_remarks_once():
    body = rows("Speeds", ("", "Stall"), [("rotary", "42")])
    whole = complete((body, remarks((FORBIDS, "another thing")), remarks((FORBIDS,))))
    assert isinstance(whole[0], Sentence)
    assert whole[0].slots == {"warning": FORBIDS}
    assert whole[1] == body
    assert [block.columns[0].cells for block in whole[2:] if isinstance(block, Table)] == [("another thing",)]


def test_a_sheet_without_one_stays_as_it_is():
    body = rows("Speeds", ("", "Stall"), [("rotary", "42")])
    assert complete((body, remarks(("another thing",)))) == (body, remarks(("another thing",)))
