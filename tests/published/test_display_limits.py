"""Single limits of standards on guards, reach and touch. Mark P.

ISO 13854: finger 25 mm. ISO 14120 and EN 953: 75 N and 4 J, 10 J with a reopening device. ADA Standards 2010: 308
reach 380 to 1220 mm, 309.4 one hand and 22.2 N. IEC 61140: touchable 25 V ac, 60 V dc. WCAG 2.x 2.3.1: three flashes
a second.
"""

import math

import pytest

from sim.display import guard


@pytest.mark.parametrize(
    ("row", "ours", "value", "unit"),
    [
        ("ISO 13854: gap for a finger", guard.FINGER_GAP_M * 1e3, "25", "mm"),
        ("ISO 14120: force of what moves", guard.TIP_FORCE_LIMIT_N, "75", "N"),
        ("ISO 14120: energy of what moves", guard.ENERGY_LIMIT_J, "4", "J"),
        ("ISO 14120: energy, with a reopening device", guard.ENERGY_LIMIT_INTERLOCKED_J, "10", "J"),
        ("ADA 308: lowest reach", guard.REACH_LOW_M * 1e3, "380", "mm"),
        ("ADA 308: highest reach", guard.REACH_HIGH_M * 1e3, "1220", "mm"),
        ("ADA 309.4: force to operate", guard.OPERATING_FORCE_LIMIT_N, "22.2", "N"),
        ("IEC 61140: touchable, ac", guard.TOUCHABLE_V["ac"], "25", "V"),
        ("IEC 61140: touchable, dc", guard.TOUCHABLE_V["dc"], "60", "V"),
        ("WCAG 2.3.1: flashes", guard.most_crank_speed(1.0) / math.tau, "3", "a second"),
    ],
)
def test_a_limit(row, ours, value, unit, printed):
    printed(ours, value, unit, row=row, exact=True)
