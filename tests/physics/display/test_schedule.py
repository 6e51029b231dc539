"""The lamp is lit from half lift to half lift: the window, whatever the law."""

import numpy as np
import pytest

from sim.display.rise_laws import LAWS
from sim.display.schedule import Schedule, lift_fraction


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize("lobes", [1, 2, 3, 4])
def test_half_lift_stands_at_both_ends_of_every_window(law, lobes):
    plan = Schedule(law, lobes, rise_rad=0.3, window_rad=0.9, start_rad=0.2)
    starts = 0.2 + np.arange(lobes) * plan.period_rad
    share, slope, _ = lift_fraction(plan, np.concatenate([starts, starts + 0.9]))
    assert share == pytest.approx(np.full(2 * lobes, 0.5), abs=1e-12)
    assert slope[:lobes] == pytest.approx(-slope[lobes:])
    assert slope[0] == pytest.approx(LAWS[law].velocity_peak / 0.3)


def test_dwells_fill_what_rise_and_fall_leave(schedule):
    total = schedule.high_dwell_rad + schedule.low_dwell_rad + 2.0 * schedule.rise_rad
    assert total == pytest.approx(schedule.period_rad)
    first, second, third, fourth = schedule.breaks()[:4]
    middle = np.array([(second + third) / 2.0, (fourth + first + schedule.period_rad) / 2.0])
    assert lift_fraction(schedule, middle)[0] == pytest.approx([1.0, 0.0])


def test_the_slope_is_the_derivative_of_the_lift(schedule):
    angle = np.linspace(0.0, 2.0 * np.pi, 20_001)
    share, slope, bend = lift_fraction(schedule, angle)
    assert np.abs(np.gradient(share, angle) - slope)[2:-2].max() < 1e-4
    assert np.abs(np.gradient(slope, angle) - bend)[2:-2].max() < 0.05
