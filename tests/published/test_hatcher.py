"""J. S. Hatcher, Hatcher's Notebook, pp. 396-398: lock time read from a smoked disc. Mark: P (angle recomputed)."""

import math

from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.windows import release_windows


def test_lock_time_of_5_7_ms_at_3057_rpm(printed):
    """The disc turns 104.55° while the lock works."""
    (found,) = release_windows(GunLine((3057.0 * math.pi / 30.0,), 1, 0.1, delay_s=5.7e-3))
    printed(math.degrees(found.lead_rad), "104.55", "°", row="turn of the disc while the lock works, 5.7 ms")
