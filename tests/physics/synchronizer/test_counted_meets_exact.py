"""Counted bursts of many guns, behind any cam and with any scatter, against the exact ones."""

import math
import random
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from sim.errors import NoAnswerError
from sim.synchronizer.cam import Cam, Opening, even
from sim.synchronizer.counted_burst import fire_bursts
from sim.synchronizer.exact_burst import exact_burst, settled
from sim.synchronizer.ripple import STEADY, Ripple
from sim.synchronizer.timed_gun import TimedGun

CALM = {"delay_sd_s": 0.0, "cycle_sd_s": 0.0, "hang_share": 0.0}
FEW = 20
"""Strikes, or misses, below which a count is held against Poisson's law instead of the normal one."""


def any_gun(dice, random_gun, changed):
    """Return a gun whose scatter of each kind may be nothing, little or much, behind any cam, rippling or not."""
    gun = random_gun(
        dice,
        delay_sd_s=dice.choice([0.0, dice.uniform(1e-4, 8e-4)]),
        delay_sd_rad=dice.choice([0.0, 0.0, dice.uniform(0.01, 0.08)]),
        cycle_sd_s=dice.choice([0.0, dice.uniform(1e-3, 6e-3), dice.uniform(6e-3, 6e-2)]),
        hang_share=dice.choice([0.0, 0.0, 0.002, 0.05]),
        speed_sd=dice.choice([0.0, 0.0, 0.02]),
        drift_per_s=dice.choice([0.0, 0.0, -0.03]),
    )
    clear = math.tau / gun.line.blades - gun.line.blocked_rad - 2.0 * gun.line.margin_rad
    gun = changed(
        gun,
        dwell_rad=dice.choice([0.0, dice.uniform(0.1, 1.0), 1.0]) * clear,
        opens_rad=gun.opens_rad + dice.choice([0.0, 0.0, dice.uniform(-0.5, 0.5)]),
    )
    cam = dice.choice([gun.cam, gun.cam, gun.cam, any_cam(dice)])
    ripple = dice.choice(
        [STEADY, STEADY, Ripple(dice.uniform(0.01, 0.3), dice.randrange(1, 5), dice.uniform(0.0, 6.0))]
    )
    line = replace(gun.line, cam=cam, delay_rad=dice.choice([0.0, dice.uniform(0.0, 0.4)]))
    return replace(gun, line=line, ripple=ripple)


def any_cam(dice):
    """Return a cam of even windows, any number in any number of turns, or of uneven ones."""
    if dice.random() < 0.5:
        turns, count = dice.randrange(1, 4), dice.randrange(1, 6)
        dwell = dice.uniform(0.0, 0.9) * turns * math.tau / count
        return even(dice.uniform(-1.0, 1.0), dice.choice([0.0, dwell]), count, turns=turns)
    turns = dice.randrange(1, 3)
    ends = sorted(dice.uniform(0.0, turns * math.tau) for _ in range(6))
    return Cam(tuple(Opening(*pair) for pair in zip(ends[::2], ends[1::2], strict=True)), period_turns=turns)


def off(gun, exact, rounds, *, seed, bursts=25_000):
    """Return strikes and mean interval of counted bursts, in standard errors from the exact ones.

    None for strikes that are too few, or rounds that are too few without: then their number is held here.
    """
    found = fire_bursts(gun, bursts=bursts, rounds_per_burst=rounds, seed=seed)
    pairs = found.rounds - found.bursts
    mean = found.interval_sum / pairs
    spread = max(found.interval_squares / pairs - mean**2, 0.0)
    error = math.sqrt(spread / found.bursts) + 1.0 / pairs  # a single round that waits a period more
    interval = (mean - exact.mean.interval_s / gun.interval_s) / error
    expected = exact.mean.strike_share * found.rounds
    for counted, likely in ((found.strikes, expected), (found.rounds - found.strikes, found.rounds - expected)):
        if counted < FEW:
            assert likely < FEW + 6.0 * math.sqrt(FEW)
            return None, interval
    between = found.strikes_squared / found.bursts - (found.strikes / found.bursts) ** 2
    if between < 1e-9:  # every burst strikes alike, but for what is rarer than one of them all
        assert found.strikes == pytest.approx(expected, abs=1.0)
        return None, interval
    return (found.strikes - expected) / (math.sqrt(between / found.bursts) * found.bursts), interval


def many(random_gun, changed, seeds):
    """Return how far counted strikes and intervals are off over many guns, and how often each refusal was met."""
    strikes, intervals, refused = [], [], Counter()
    for seed in seeds:
        dice = random.Random(seed)
        gun = any_gun(dice, random_gun, changed)
        rounds = dice.choice([2, 5, 12])
        try:
            exact = exact_burst(gun, rounds)
        except NoAnswerError as error:
            refused[str(error).split(";")[0]] += 1
            continue
        struck, interval = off(gun, exact, rounds, seed=seed)
        strikes += [] if struck is None else [struck]
        intervals.append(interval)
    return np.array(strikes), np.array(intervals), refused


def test_counted_bursts_of_many_guns_meet_the_exact_ones(random_gun, changed):
    strikes, intervals, refused = many(random_gun, changed, range(80))
    assert np.abs(strikes).max() < 4.5
    assert 0.8 < np.sqrt(np.mean(strikes**2)) < 1.2
    assert np.abs(intervals).max() < 5.0
    assert refused.total() < 20


@pytest.mark.slow
def test_counted_bursts_of_a_thousand_guns_meet_the_exact_ones(random_gun, changed):
    strikes, intervals, refused = many(random_gun, changed, range(1000, 2000))
    assert np.abs(strikes).max() < 4.5
    assert 0.9 < np.sqrt(np.mean(strikes**2)) < 1.1
    assert np.abs(intervals).max() < 5.0
    assert refused.total() < 200


class TwiceOver(TimedGun):
    """The same cam described over two of its openings, so that it has two windows in a step."""

    interval_s = property(lambda self: 2.0 * TimedGun.interval_s.fget(self))
    blades_per_opening = property(lambda self: 2.0 * TimedGun.blades_per_opening.fget(self))
    opens = property(lambda self: (0.0, 0.5))
    shuts = property(lambda self: tuple(0.5 * (each + TimedGun.shuts.fget(self)[0]) for each in (0.0, 1.0)))


@pytest.mark.parametrize("cycle_sd_s", [0.0, 3e-3])
@pytest.mark.parametrize("hang_share", [0.0, 0.02])
def test_two_windows_in_a_period_are_one_in_half_of_it(random_gun, changed, cycle_sd_s, hang_share):
    gun = changed(random_gun(random.Random(8), **CALM), cycle_sd_s=cycle_sd_s, hang_share=hang_share)
    twice = TwiceOver(gun.line, gun.spin_rad_s, gun.scatter)
    for way in (lambda each: exact_burst(each, 7).mean, lambda each: settled(each).mean):
        one, two = way(gun), way(twice)
        assert two.strike_share == pytest.approx(one.strike_share, abs=1e-9)
        assert two.held_share == pytest.approx(one.held_share, abs=1e-8)
        assert two.interval_s == pytest.approx(one.interval_s, rel=1e-9)


CAMS = {
    "uneven": Cam((Opening(0.2, 0.9), Opening(2.5, 2.9), Opening(3.6, 5.5))),
    "one trip in two turns": even(0.3, 1.1, 1, turns=2),
    "three windows to two blades": even(0.3, 1.1, 3),
    "five windows in three turns": even(-0.4, 1.6, 5, turns=3),
    "uneven impulses": Cam((Opening(0.2, 0.2), Opening(2.5, 2.5)), period_turns=2),
}


@pytest.mark.parametrize(
    "scatter",
    [
        {},
        {"cycle_sd_s": 3e-3},
        {"hang_share": 0.05},
        {"cycle_sd_s": 3e-3, "speed_sd": 0.01},
        {"cycle_sd_s": 2e-3, "delay_sd_s": 1e-3, "drift_per_s": -0.05},
    ],
    ids=lambda scatter: ", ".join(scatter) or "calm",
)
@pytest.mark.parametrize("cam", CAMS.values(), ids=CAMS)
def test_any_cam(random_gun, changed, cam, scatter):
    gun = changed(random_gun(random.Random(9), **CALM, blades=2, impulses_per_rev=2, spin_rad_s=150.0), **scatter)
    gun = replace(gun, line=replace(gun.line, cam=cam))
    struck, interval = off(gun, exact_burst(gun, 7), 7, seed=4)
    assert struck is None or abs(struck) < 4.0
    assert abs(interval) < 4.0
