"""The exact density: its limits, and chances too rare to count."""

import math
import random

import numpy as np
import pytest

from sim.errors import NoAnswerError
from sim.synchronizer.rate import interrupter_rate
from sim.synchronizer.steady import steady


def test_wide_scatter_makes_ready_uniform(random_gun):
    """Then a round waits with the chance of the shut share, half its length on the average."""
    gun = random_gun(random.Random(1), cycle_sd_s=0.02, cycle_s=0.12, spin_rad_s=250.0, hang_share=0.0)
    found, shut = steady(gun), 1.0 - gun.open_share
    assert found.held_share == pytest.approx(shut, rel=2e-4)
    assert found.interval_s == pytest.approx(0.12 + gun.interval_s * shut**2 / 2.0, rel=1e-4)


def test_little_scatter_comes_near_the_rate_without_any(random_gun, changed):
    gun = random_gun(random.Random(6), hang_share=0.0)
    far = []
    for scatter in (4e-3, 1e-3, 2.5e-4):
        exact = interrupter_rate(60.0 / gun.interval_s, 60.0 / gun.line.cycle_s, blocked=1.0 - gun.open_share)
        far.append(abs(60.0 / steady(changed(gun, cycle_sd_s=scatter)).interval_s - float(exact.rounds_per_min)))
    assert far[2] < far[0]
    assert far[2] < 0.02 * 60.0 / gun.line.cycle_s


def test_a_burst_grows_into_the_steady_state(random_gun):
    gun = random_gun(random.Random(9), cycle_sd_s=0.004)
    long, endless = steady(gun, 4000), steady(gun)
    assert long.strike_share == pytest.approx(endless.strike_share, rel=2e-3)
    assert long.interval_s == pytest.approx(endless.interval_s, rel=1e-5)


def test_a_single_round_at_random_is_the_untimed_share_when_the_window_never_shuts(random_gun):
    """Nothing held: passages are uniform, and the blocked share is struck."""
    gun = random_gun(random.Random(2), blades=2, impulses_per_rev=2, dwell_rad=math.pi, blocked_rad=math.radians(20.0))
    assert steady(gun).strike_share == pytest.approx(20.0 / 180.0, rel=1e-9)


def test_a_rare_strike_is_the_tail_of_the_normal_law(random_gun, changed):
    """An impulse gun aimed 6 standard deviations from the blade: one round in a thousand million."""
    gun = random_gun(random.Random(4), dwell_rad=0.0, hang_share=0.0, blades=2, impulses_per_rev=2, margin_rad=0.0)
    away_s = 6.0 * 4e-4
    gun = changed(
        gun,
        delay_sd_s=4e-4,
        opens_rad=gun.line.blocked_rad / 2.0 + gun.spin_rad_s * (away_s - gun.line.delay_s),
    )
    assert steady(gun).strike_share == pytest.approx(9.8659e-10, rel=1e-4)


def test_too_little_scatter_is_refused(random_gun, changed):
    gun = changed(random_gun(random.Random(4)), cycle_sd_s=1e-6, spin_rad_s=math.tau, impulses_per_rev=1)
    with pytest.raises(NoAnswerError) as refused:
        steady(gun)
    assert str(refused.value) == (
        "no smooth density: the cycle scatters by 0.001 ms, too little beside the 1e+03 ms between openings; "
        "take more, or none at all"
    )


def test_the_density_is_a_chance(random_gun):
    for case in range(30):
        found = steady(random_gun(random.Random(case)))
        assert 0.0 <= found.strike_share <= 1.0
        assert 0.0 <= found.near_share <= 1.0 - found.strike_share + 1e-12
        assert 0.0 <= found.held_share <= 1.0
        assert np.isfinite(found.interval_s)


def test_a_delay_that_strays_over_many_blades_is_struck_as_if_untimed(random_gun, changed):
    gun = random_gun(random.Random(3), delay_sd_s=0.1)
    assert steady(gun).strike_share == pytest.approx(2.0 * gun.half_blocked(), rel=1e-12)
    near = changed(gun, delay_sd_s=1.9 * gun.blade_s)
    assert steady(near).strike_share == pytest.approx(2.0 * gun.half_blocked(), rel=1e-9)
