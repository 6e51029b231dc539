""" "Aeroplane Construction and Operation", 1918. Mark: P.

One bullet in 18 meets a two-bladed propeller when the gun is not timed.
"""

import math

import pytest

from sim.synchronizer.blade import untimed_strike_share


def test_one_bullet_in_eighteen_is_ten_degrees_a_blade():
    assert 1.0 / untimed_strike_share(2, math.radians(10.0)) == pytest.approx(18.0, abs=1e-9)
