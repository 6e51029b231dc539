"""Exact bursts at speeds that scatter and drift, and patterns without scatter, against bursts counted."""

import math
import random

import pytest

from sim.errors import NoAnswerError
from sim.synchronizer.counted_burst import fire_bursts
from sim.synchronizer.exact_burst import exact_burst, settled


def off(gun, exact, rounds, seed=0):
    """Return strikes and mean interval of counted bursts, in standard errors from the exact ones."""
    found = fire_bursts(gun, bursts=40_000, rounds_per_burst=rounds, seed=seed)
    between = found.strikes_squared / found.bursts - (found.strikes / found.bursts) ** 2
    strikes = (found.strikes / found.rounds - exact.strike_share) * rounds / math.sqrt(between / found.bursts)
    pairs = found.rounds - found.bursts
    mean = found.interval_sum / pairs
    error = math.sqrt((found.interval_squares / pairs - mean**2) / found.bursts)
    return strikes, (mean - exact.interval_s / gun.interval_s) / error


@pytest.mark.parametrize(("speed_sd", "drift"), [(0.02, 0.0), (0.0, -0.05), (0.01, 0.03)])
def test_speeds_that_scatter_and_drift(random_gun, speed_sd, drift):
    gun = random_gun(random.Random(17), cycle_sd_s=0.003, speed_sd=speed_sd, drift_per_s=drift, hang_share=0.0)
    assert max(map(abs, off(gun, exact_burst(gun, 12), 12))) < 4.5


def test_without_scatter_the_pattern_is_the_answer(random_gun):
    gun = random_gun(random.Random(21), cycle_sd_s=0.0, hang_share=0.0, delay_sd_s=2e-3)
    exact = settled(gun)
    found = fire_bursts(gun, bursts=2000, rounds_per_burst=900, seed=3)
    assert found.strikes / found.rounds == pytest.approx(exact.strike_share, abs=3e-3)
    mean_s = found.interval_sum / (found.rounds - found.bursts) * gun.interval_s
    assert mean_s == pytest.approx(exact.interval_s, rel=2e-3)


def test_an_impulse_gun_without_scatter_is_struck_as_its_normal_law_says(random_gun):
    gun = random_gun(random.Random(2), cycle_sd_s=0.0, hang_share=0.0, dwell_rad=0.0, delay_sd_s=2e-3)
    counted = fire_bursts(gun, bursts=20_000, rounds_per_burst=5, seed=1)
    assert counted.strikes / counted.rounds == pytest.approx(settled(gun).strike_share, abs=6e-3)


def test_hanging_primers_without_scatter_have_no_exact_form(random_gun, changed):
    gun = changed(random_gun(random.Random(1), hang_share=0.01), cycle_sd_s=0.0)
    with pytest.raises(NoAnswerError) as refused:
        settled(gun)
    assert str(refused.value) == ("no exact form: primers hang, and the cycle does not scatter; give it some scatter")
