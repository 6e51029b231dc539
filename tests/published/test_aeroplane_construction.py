""" "Aeroplane Construction and Operation", 1918. Mark: P.

One bullet in 18 meets a two-bladed propeller when the gun is not timed.
"""

import math

from sim.synchronizer.blade import untimed_strike_share


def test_one_bullet_in_eighteen_is_ten_degrees_a_blade(printed):
    share = untimed_strike_share(2, math.radians(10.0))
    printed(1.0 / share, "18", "bullets", row="bullets for one strike, two blades of 10° each", exact=True)
