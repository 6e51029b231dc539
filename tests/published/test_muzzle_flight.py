"""Flight from the muzzle to the disc at 744 m/s, 11.27 g: 3120 J, 2440 ft/s. Mark: P (1918 service data, recomputed).

1, 2 and 3 m take 1.344, 2.688 and 4.032 ms, which are 9.68, 19.35 and 29.03° of a propeller at 1200 rpm.
"""

import math

import pytest

from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.windows import release_windows

ROWS = [(1, "1.344", "9.68"), (2, "2.688", "19.35"), (3, "4.032", "29.03")]


@pytest.mark.parametrize(("metres", "ms", "degrees"), ROWS)
def test_flight_and_angle(metres, ms, degrees, printed):
    flight_s = metres / 744.0
    printed(flight_s * 1e3, ms, "ms", row=f"flight over {metres} m")
    (found,) = release_windows(GunLine((40.0 * math.pi,), 2, 0.1, delay_s=flight_s))
    printed(math.degrees(found.lead_rad), degrees, "°", row=f"turn at 1200 rpm over {metres} m")
