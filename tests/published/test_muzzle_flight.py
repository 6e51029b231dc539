"""Flight from the muzzle to the disc at 744 m/s, 11.27 g: 3120 J, 2440 ft/s. Mark: P (1918 service data, recomputed).

1, 2 and 3 m take 1.344, 2.688 and 4.032 ms, which are 9.68, 19.35 and 29.03° of a propeller at 1200 rpm.
"""

import math

import pytest

from sim.synchronizer.windows import release_windows


@pytest.mark.parametrize(("metres", "ms", "degrees"), [(1, 1.344, 9.68), (2, 2.688, 19.35), (3, 4.032, 29.03)])
def test_flight_and_angle(metres, ms, degrees):
    flight_s = metres / 744.0
    assert flight_s * 1e3 == pytest.approx(ms, abs=5e-4)
    found = release_windows(40.0 * math.pi, blades=2, blocked_rad=0.1, delay_s=flight_s)
    assert math.degrees(found.lead_rad[0]) == pytest.approx(degrees, abs=0.005)
