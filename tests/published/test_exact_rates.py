"""Exact steady rates, worked by hand from the gun's cycle and the blades' passage; no source is needed. Mark: X."""

import pytest

from sim.synchronizer.rate import impulse_rate, interrupter_rate


@pytest.mark.parametrize(
    ("impulses", "rate"),
    [
        *((600, "600.00"), (601, "300.50"), (900, "450.00"), (1201, "400.33")),
        *((1400, "466.67"), (2400, "600.00"), (2401, "480.20")),
    ],
)
def test_impulse_gun_of_600_a_minute(impulses, rate, printed):
    ours = float(impulse_rate(float(impulses), 600.0).rounds_per_min)
    printed(ours, rate, "a minute", row=f"gun of 600 a minute, {impulses} impulses a minute")


@pytest.mark.parametrize(
    ("gun", "passages", "blocked", "rate"),
    [(500, 2400, 0.25, "480.0000"), (450, 2500, 0.2, "448.7179"), (500, 1200, 1.0, "400.0000")],
)
def test_interrupter(gun, passages, blocked, rate, printed):
    found = interrupter_rate(float(passages), float(gun), blocked=blocked)
    row = f"gun of {gun} a minute, {passages} passages a minute, {blocked:.0%} blocked"
    printed(float(found.rounds_per_min), rate, "a minute", row=row)
