"""EASA central question bank, principles of flight: gyroscopic effect of a propeller, clockwise from the cockpit.

Mark P: read in a reproduction of the source. Two public web pages state the effects of a turn the other way round;
they are wrong for a clockwise engine.
"""

import pytest

from sim.rotor.couple import couple

CLOCKWISE = 100.0


@pytest.mark.parametrize(
    ("swung", "pitch_rate_rad_s", "yaw_rate_rad_s", "effect"),
    [
        ("up", 1.0, 0.0, "nose right"),
        ("down", -1.0, 0.0, "nose left"),
        ("right", 0.0, 1.0, "nose down"),
        ("left", 0.0, -1.0, "nose up"),
    ],
)
def test_effect(swung, pitch_rate_rad_s, yaw_rate_rad_s, effect, printed):
    rates = {"pitch_rate_rad_s": pitch_rate_rad_s, "yaw_rate_rad_s": yaw_rate_rad_s}
    printed(couple(CLOCKWISE, **rates).effect, effect, row=f"nose swung {swung}")
