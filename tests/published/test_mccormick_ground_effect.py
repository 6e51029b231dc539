"""Induced drag near the ground.

B. W. McCormick, Aerodynamics, Aeronautics and Flight Mechanics, Wiley 1979: (16 h/b)² / (1 + (16 h/b)²) of the induced
drag is left at a height h of the wing. Mark: X.
"""

import pytest

from sim.flight.on_wheels import ground_share


@pytest.mark.parametrize(("height", "left"), [(0.05, ".390"), (0.1, ".719"), (0.2, ".911"), (0.3, ".958")])
def test_share_left(printed, height, left):
    printed(ground_share(height), left, row=f"height over span {height}")
