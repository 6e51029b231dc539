"""ISO 13857, tables 4 and 5: reaching through openings of a guard.

Table 4, age 14 and over: mark P. Table 5, age 3 and over: mark M; the standard must be looked at before cutting.
Opening in mm, then the safety distance for a slot, a square and a round hole.
"""

import pytest

from sim.exhibit.guard import safety_distance

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
def test_a_row(place, row):
    found = [safety_distance(row[0] / 1e3, shape, place) * 1e3 for shape in ("slot", "square", "round")]
    assert found == pytest.approx(list(row[1:]))


def test_the_footnote_of_table_4_on_short_slots():
    assert safety_distance(0.030, "slot", "workshop", 0.065) == 0.200
    assert safety_distance(0.040, "slot", "workshop", 0.065) == 0.850
