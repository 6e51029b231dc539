"""Exact steady rates, worked by hand from the gun's cycle and the blades' passage; no source is needed."""

import pytest

from sim.synchronizer.rate import impulse_rate, interrupter_rate


@pytest.mark.parametrize(
    ("impulses", "rate"),
    [(600, 600.0), (601, 300.5), (900, 450.0), (1201, 400.33), (1400, 466.67), (2400, 600.0), (2401, 480.2)],
)
def test_impulse_gun_of_600_a_minute(impulses, rate):
    assert float(impulse_rate(float(impulses), 600.0).rounds_per_min) == pytest.approx(rate, abs=0.005)


@pytest.mark.parametrize(
    ("gun", "passages", "blocked", "rate"),
    [(500, 2400, 0.25, 480.0), (450, 2500, 0.2, 448.7179), (500, 1200, 1.0, 400.0)],
)
def test_interrupter(gun, passages, blocked, rate):
    found = interrupter_rate(float(passages), float(gun), blocked=blocked)
    assert float(found.rounds_per_min) == pytest.approx(rate, abs=5e-5)
