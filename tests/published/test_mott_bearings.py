"""R. L. Mott, Machine Elements in Mechanical Design, ball bearings of chapter 14, in a published solution. Mark P.

Loads of 6351 and 5122 N, 480 rpm for 10,000 h: 2.88e8 turns. (The solution prints 3.4e8 under the root; its results
go with 2.88e8.)
"""

import pytest

from sim.display.assembly.shaft import rating_life


@pytest.mark.parametrize(("dynamic_n", "load_n"), [(41941.0, 6351.0), (33825.0, 5122.0)])
def test_the_life(printed, dynamic_n, load_n):
    life = rating_life(dynamic_n, load_n) / 1e8
    printed(life, "2.88", "1e8 turns", row=f"life under {load_n:g} N", misprint="3.4")
