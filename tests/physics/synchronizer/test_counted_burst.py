"""Bursts: without scatter the closed form, with it the exact density and an event simulation of another make."""

import math
import random
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest

from sim.synchronizer.burst_batch import BurstBlock
from sim.synchronizer.cam import Cam, Opening, even
from sim.synchronizer.counted_burst import BLOCK, fire_bursts
from sim.synchronizer.leak import TIGHT, Leak
from sim.synchronizer.rate import interrupter_rate
from sim.synchronizer.steady import steady
from sim.synchronizer.strike_chance import meets

CALM = {"delay_sd_s": 0.0, "cycle_sd_s": 0.0, "hang_share": 0.0}


def generator(seed=0):
    return np.random.Generator(np.random.SFC64(seed))


def release_times(gun, rounds):
    """Return when the rounds of one burst are released, in openings, the first as the cam opens."""
    block = BurstBlock(gun, 1, rounds, generator())
    block.ready[:] = 0.0
    times = [0.0]
    for number in range(rounds):
        block.fire()
        if number:
            times.append(times[-1] + float(block.interval[0]))
    return times


def test_a_thousand_guns_without_scatter_have_the_closed_rate(random_gun):
    """Over whole patterns the mean interval is the closed form's, to rounding."""
    dice, compared = random.Random(4), 0
    while compared < 1000:
        gun = random_gun(dice, **CALM)
        openings_per_min = 60.0 / gun.interval_s
        found = interrupter_rate(openings_per_min, 60.0 / gun.line.cycle_s, blocked=1.0 - gun.open_share)
        rounds = int(found.rounds_per_pattern)
        if not 0 < rounds <= 60:
            continue
        span = release_times(gun, 2 * rounds + 1)[-1]
        assert 2 * rounds * openings_per_min / span == pytest.approx(float(found.rounds_per_min), rel=1e-9)
        compared += 1


def test_an_impulse_gun_fires_as_the_cam_opens(random_gun):
    gun = random_gun(random.Random(2), **CALM, dwell_rad=0.0)
    times = release_times(gun, 20)
    assert np.diff(times) == pytest.approx([math.ceil(gun.line.cycle_s / gun.interval_s)] * 19)


def test_strikes_meet_the_integral_of_a_normal_delay(random_gun):
    """The releases spread over the window as they do, each struck with the chance of its own normal law."""
    dice = random.Random(11)
    for number in range(100):
        gun = random_gun(dice, hang_share=0.0, delay_sd_s=dice.uniform(1e-3, 3e-3))
        block = BurstBlock(gun, 4000, 3, generator(number))
        chance = struck = 0.0
        for _ in range(3):
            block.fire()
            chance += meets(gun, block.release).sum()
            off = np.abs(block.passage() - 0.5)
            struck += np.count_nonzero(off > 0.5 - gun.half_blocked())
        assert abs(struck - chance) <= 4.0 * math.sqrt(chance * (1.0 - chance / 12000.0)) + 1e-9


@pytest.mark.parametrize("case", range(12))
def test_bursts_meet_the_exact_density(random_gun, case):
    gun = random_gun(random.Random(case), cycle_sd_s=0.003 + 0.0002 * case)
    found = fire_bursts(gun, bursts=40_000, rounds_per_burst=6, seed=case)
    exact = steady(gun, 6)
    share = found.strikes / found.rounds
    between = found.strikes_squared / found.bursts - (found.strikes / found.bursts) ** 2
    assert abs(share - exact.strike_share) <= 4.5 * math.sqrt(between / found.bursts) / 6 + 1e-6
    pairs = found.rounds - found.bursts
    mean = found.interval_sum / pairs
    error = math.sqrt((found.interval_squares / pairs - mean**2) / pairs)
    assert abs(mean - exact.interval_s / gun.interval_s) <= 6.0 * error


@pytest.mark.slow
def test_the_passages_of_events_have_the_same_distribution(random_gun, event_gun):
    """Kolmogorov-Smirnov over 20 scenarios: passages and intervals of the fourth round, each burst by itself."""
    from scipy.stats import ks_2samp

    chances = []
    for case in range(20):
        gun = random_gun(random.Random(100 + case))
        told = event_gun.fire(gun, bursts=300, rounds=4, seed=case)
        block = BurstBlock(gun, 20_000, 4, generator(case))
        for _ in range(4):
            block.fire()
        intervals = block.interval.copy()
        chances.append(ks_2samp(np.round([burst[0][2] for burst in told], 6), np.round(intervals, 6)).pvalue)
        chances.append(ks_2samp([burst[1][3] for burst in told], block.passage()).pvalue)
    assert min(chances) > 1e-4
    assert np.mean(chances) > 0.3


CAMS = {
    "uneven lobes": Cam((Opening(0.3, 1.0), Opening(2.4, 2.9), Opening(4.0, 5.6))),
    "one trip in two turns": even(0.4, 1.5, 1, turns=2),
    "uneven lobes of a cam that turns once in two turns": Cam((Opening(0.3, 1.5), Opening(5.0, 8.0)), period_turns=2),
}


@pytest.mark.parametrize(
    "link",
    [(4e-3, 0.25, 0.06, TIGHT), (9e-3, 0.6, 0.0, TIGHT), (9e-3, 0.3, 0.02, Leak(35.0, 0.08, 0.15))],
    ids=["shaft", "oil", "oil that leaks"],
)
@pytest.mark.parametrize("cam", CAMS.values(), ids=CAMS)
def test_the_passages_of_events_behind_any_cam_and_link_have_the_same_distribution(random_gun, event_gun, cam, link):
    """A link of which a part is a time, an angle and a leak, with scatter of the first two; two and four blades."""
    from scipy.stats import ks_2samp

    delay_s, delay_rad, sd_rad, leak = link
    chances = []
    for case, blades in enumerate((2, 4)):
        gun = random_gun(random.Random(300 + case), blades=blades, delay_s=delay_s, delay_sd_rad=sd_rad)
        gun = replace(gun, line=replace(gun.line, cam=cam, delay_rad=delay_rad, leak=leak))
        told = event_gun.fire(gun, bursts=600, rounds=4, seed=case)
        block = BurstBlock(gun, 20_000, 4, generator(case))
        for _ in range(4):
            block.fire()
        intervals = block.interval.copy()
        chances.append(ks_2samp(np.round([burst[0][2] for burst in told], 6), np.round(intervals, 6)).pvalue)
        chances.append(ks_2samp([burst[1][3] for burst in told], block.passage() % 1.0).pvalue)
    assert min(chances) > 1e-4


def test_the_same_seed_gives_the_same_numbers_however_the_blocks_are_taken(random_gun):
    gun = random_gun(random.Random(3))
    first, again = (fire_bursts(gun, bursts=BLOCK + 5, rounds_per_burst=3, seed=9, bins=20) for _ in range(2))
    assert all(np.array_equal(getattr(first, name), getattr(again, name)) for name in first.__slots__)
    other = fire_bursts(gun, bursts=BLOCK + 5, rounds_per_burst=3, seed=10)
    assert other.interval_sum != first.interval_sum


def test_blocks_add_up(random_gun):
    gun = random_gun(random.Random(3))
    found = fire_bursts(gun, bursts=2 * BLOCK + 7, rounds_per_burst=3, seed=1, bins=12)
    assert found.rounds == 3 * (2 * BLOCK + 7) == found.passages.sum()
    assert found.interval_least <= found.interval_sum / (found.rounds - found.bursts) <= found.interval_most


def test_the_share_of_hanging_rounds_is_the_share_asked_for(random_gun, changed):
    gun = random_gun(random.Random(5), hang_share=0.01, hang_s=10.0, cycle_sd_s=0.0)
    found = fire_bursts(gun, bursts=20_000, rounds_per_burst=5, seed=2)
    mean = found.interval_sum / (found.rounds - found.bursts) * gun.interval_s
    assert mean == pytest.approx(0.1 + gun.line.cycle_s, rel=0.3)
    calm = fire_bursts(changed(gun, hang_share=0.0), bursts=2000, rounds_per_burst=5, seed=2)
    assert calm.interval_most * gun.interval_s < gun.line.cycle_s + gun.interval_s + 1e-9


def test_a_slowing_propeller_stretches_the_time_between_openings(random_gun):
    gun = random_gun(random.Random(8), **CALM, dwell_rad=0.0, drift_per_s=-0.1)
    block = BurstBlock(gun, 10, 30, generator())
    taken = 0.0
    for number in range(30):
        block.fire()
        taken += block.interval[0] * gun.interval_s if number else 0.0
    assert 1.0 - block.speed[0] == pytest.approx(0.1 * taken, rel=0.01)
    assert float(Fraction(block.interval[0] * block.speed[0]).limit_denominator(10**6)) > 0.0
