"""Single limits of standards on guards, reach and touch. Mark P.

ISO 13854: finger 25 mm. ISO 14120 and EN 953: 75 N and 4 J, 10 J with a reopening device. ADA Standards 2010: 308
reach 380 to 1220 mm, 309.4 one hand and 22.2 N. IEC 61140: touchable 25 V ac, 60 V dc. WCAG 2.x 2.3.1: three flashes
a second.
"""

import math

import pytest

from sim.exhibit import guard


@pytest.mark.parametrize(
    ("ours", "printed"),
    [
        (guard.FINGER_GAP_M * 1e3, 25.0),
        (guard.TIP_FORCE_LIMIT_N, 75.0),
        (guard.ENERGY_LIMIT_J, 4.0),
        (guard.ENERGY_LIMIT_INTERLOCKED_J, 10.0),
        (guard.REACH_LOW_M * 1e3, 380.0),
        (guard.REACH_HIGH_M * 1e3, 1220.0),
        (guard.OPERATING_FORCE_LIMIT_N, 22.2),
        (guard.TOUCHABLE_V["ac"], 25.0),
        (guard.TOUCHABLE_V["dc"], 60.0),
        (guard.most_crank_speed(1.0) / math.tau, 3.0),
    ],
)
def test_a_limit(ours, printed):
    assert ours == pytest.approx(printed)
