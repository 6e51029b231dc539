""" "Aeroplane Construction and Operation", 1918. Mark: P.

One bullet in 18 meets a two-bladed propeller when the gun is not timed.
"""

import math

from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.windows import release_windows


def test_one_bullet_in_eighteen_is_ten_degrees_a_blade(printed):
    (found,) = release_windows(GunLine((100.0,), 2, math.radians(10.0)))
    window = found.windows[0]
    blocked = 1.0 - 2.0 * (window.to_rad - window.from_rad) / math.tau
    printed(1.0 / blocked, "18", "bullets", row="bullets for one strike, two blades of 10° each", exact=True)
