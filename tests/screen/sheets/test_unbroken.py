"""On paper and on a page a quantity has no-break spaces, a command line has plain ones."""

import pytest

from sim.units.text import NO_BREAK
from viz.sheets import csv, html
from viz.sheets.blocks import Points, Run, Value, next_steps, rows, say
from viz.sheets.typst import Pages

MOVE = Value("engine_move_m", -0.01284, error=0.00781, signed=True)
HELD = "12.8_mm ±_7.8_mm forward".replace("_", NO_BREAK)
BLOCKS = (
    say("Move it {move}, {share} % of the way.", move=MOVE, share="27.5"),
    Points((say("By {move}.", move=MOVE), "it stands 25.4 mm above the ground")),
    rows("Moves", ["What", "Move"], [["engine", MOVE]], say("As {move}.", move=MOVE)),
    next_steps(say("{run}, there", run=Run("balance", "--move '12.8 mm forward'"))),
)


@pytest.mark.parametrize(
    "write", [html.write, lambda blocks, units: Pages(units).markup(blocks)], ids=["html", "typst"]
)
def test_quantities_are_held_together(write):
    text = write(BLOCKS, "si")
    assert text.count(HELD) == 4
    assert f"27.5{NO_BREAK}% of" in text
    assert f"25.4{NO_BREAK}mm above" in text
    assert "12.8 mm forward&#39;" in text or "'12.8 mm forward'" in text


def test_a_table_for_a_spreadsheet_has_plain_spaces():
    assert NO_BREAK not in csv.write(BLOCKS, "si")
