"""ISO 13857, tables 4 and 5: reaching through openings of a guard.

Table 4, age 14 and over: mark P. Table 5, age 3 and over: mark M; the standard must be looked at before cutting.
Opening in mm, then the safety distance for a slot, a square and a round hole.
"""

import pytest

from sim.display.guard import safety_distance

TABLE_4 = """
4 2 2 2
6 10 5 5
8 20 15 5
10 80 25 20
12 100 80 80
20 120 120 120
30 850 120 120
40 850 200 120
120 850 850 850
"""
TABLE_5 = """
4 2 2 2
6 20 10 10
8 40 30 20
10 80 60 60
12 100 80 80
20 900 120 120
30 900 550 120
100 900 900 900
"""


def rows(table):
    return [tuple(map(float, line.split())) for line in table.strip().splitlines()]


@pytest.mark.parametrize(
    ("place", "row"), [*(("workshop", r) for r in rows(TABLE_4)), *(("public", r) for r in rows(TABLE_5))]
)
def test_a_row(place, row, printed):
    table, mark = ("4", "P") if place == "workshop" else ("5", "M")
    for shape, distance in zip(("slot", "square", "round"), row[1:], strict=True):
        ours = safety_distance(row[0] / 1e3, shape, place) * 1e3
        what = f"Table {table}: {shape} opening of {row[0]:g} mm"
        printed(ours, f"{distance:.0f}", "mm", row=what, exact=True, mark=mark)


def test_the_footnote_of_table_4_on_short_slots(printed):
    for opening, distance in (("30", "200"), ("40", "850")):
        ours = safety_distance(float(opening) / 1e3, "slot", "workshop", 0.065) * 1e3
        printed(ours, distance, "mm", row=f"Table 4, footnote: slot of {opening} mm, 65 mm long", exact=True)
