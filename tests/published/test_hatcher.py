"""J. S. Hatcher, Hatcher's Notebook, pp. 396-398: lock time read from a smoked disc. Mark: P (angle recomputed)."""

import math

import pytest

from sim.synchronizer.windows import release_windows


def test_lock_time_of_5_7_ms_at_3057_rpm():
    """The disc turns 104.55° while the lock works."""
    found = release_windows(3057.0 * math.pi / 30.0, blades=1, blocked_rad=0.1, delay_s=5.7e-3)
    assert math.degrees(found.lead_rad[0]) == pytest.approx(104.55, abs=0.005)
