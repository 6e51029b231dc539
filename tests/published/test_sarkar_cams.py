"""B. K. Sarkar, Theory of Machines, Illustrations 9.2 and 9.3; the second also in Khurmi & Gupta. Mark P.

Simple harmonic rise and fall of a follower.
"""

import math

import pytest

from sim.display.rise_laws import LAWS

LAW = LAWS["simple harmonic"]


def peaks(lift_mm, angle_deg, rpm):
    pace = rpm * math.pi / 30.0 / math.radians(angle_deg)
    return lift_mm / 1e3 * LAW.velocity_peak * pace, lift_mm / 1e3 * LAW.acceleration_peak * pace**2


@pytest.mark.parametrize(
    ("angle_deg", "velocity_m_s", "acceleration_m_s2"), [(120.0, "0.3927", "6.17"), (60.0, "0.7854", "24.67")]
)
def test_illustration_9_3_lift_50_mm_at_100_rpm(angle_deg, velocity_m_s, acceleration_m_s2, printed):
    velocity, acceleration = peaks(50.0, angle_deg, 100.0)
    printed(velocity, velocity_m_s, "m/s", row=f"Illustration 9.3: velocity over {angle_deg:g}°")
    printed(acceleration, acceleration_m_s2, "m/s²", row=f"Illustration 9.3: acceleration over {angle_deg:g}°")


@pytest.mark.parametrize(("angle_deg", "acceleration_m_s2"), [(60.0, "177.6"), (90.0, "78.9")])
def test_illustration_9_2_lift_40_mm_at_300_rpm(angle_deg, acceleration_m_s2, printed):
    """The book cuts its digits off: 177.65 and 78.96 are printed 177.6 and 78.9."""
    row, why = f"Illustration 9.2: acceleration over {angle_deg:g}°", "the book cuts its digits off"
    printed(peaks(40.0, angle_deg, 300.0)[1], acceleration_m_s2, "m/s²", row=row, within=0.1, why=why)
