"""The propeller stands where shaft and arm put it: ahead of the centre of gravity, higher where the shaft tilts up."""

import math
from dataclasses import replace

import pytest
from airplanes import LOPSIDED
from shared import built

from sim.model.slipstream import propeller_disc


@pytest.mark.parametrize(("tilt_deg", "below_m", "up_m"), [(0.0, 0.1, -0.1), (0.0, -0.2, 0.2), (2.0, 0.03, 0.0223811)])
def test_the_disc_stands_ahead_and_above(tilt_deg, below_m, up_m):
    """A shaft 3 cm below the CG that rises by 2° is 1.5 m ahead 1.5 tan 2° = 5.24 cm higher: 2.24 cm above."""
    engine = built(LOPSIDED).powerplants["rotary"].about(thrust_arm_m=below_m, propeller_arm_m=1.5)
    disc = propeller_disc(replace(engine, shaft_tilt_rad=math.radians(tilt_deg)))
    assert (disc.arm_m, disc.height_m, disc.share) == pytest.approx((1.5, up_m, 1.0), abs=1e-6)
