"""Forces at the controls that 14 CFR 23.143(c), 2014 text, allows: a stick, for temporary and prolonged application.

Mark P: pitch and roll by a stick read there [faraim.org, far-2014-title14-vol1, page 206]; the pedal and the prolonged
forces in 14 CFR 25.143(c), which has the same [pilotfriend.com].
"""

import pytest

from sim.flight.force_limits import MINUTES, MOMENT

LBF_N = 4.4482216152605


@pytest.mark.parametrize(
    ("limits", "how", "stick", "side", "pedal"),
    [(MOMENT, "temporary", "60", "30", "150"), (MINUTES, "prolonged", "10", "5", "20")],
)
def test_limits(limits, how, stick, side, pedal, printed):
    printed(limits.stick_n / LBF_N, stick, "lbf", row=f"{how}, pitch, stick")
    printed(limits.stick_side_n / LBF_N, side, "lbf", row=f"{how}, roll, stick")
    printed(limits.pedal_n / LBF_N, pedal, "lbf", row=f"{how}, yaw, pedal")
