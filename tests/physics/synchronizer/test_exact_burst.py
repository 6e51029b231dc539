"""Exact bursts, with and without scatter of each kind: against bursts counted, and against each other's limits."""

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
from sim.synchronizer.gun_line import untimed_strike_share
from sim.synchronizer.pace import pace_s
from sim.synchronizer.timed_gun import TimedGun

CALM = {"delay_sd_s": 0.0, "cycle_sd_s": 0.0, "hang_share": 0.0}
FEW = 20
"""Strikes, or misses, below which a count is held against Poisson's law instead of the normal one."""


def any_gun(dice, random_gun, changed):
    """Return a gun whose scatter of each kind may be nothing, little or much, its cam anywhere and of any length."""
    gun = random_gun(
        dice,
        delay_sd_s=dice.choice([0.0, dice.uniform(1e-4, 8e-4)]),
        cycle_sd_s=dice.choice([0.0, dice.uniform(1e-3, 6e-3), dice.uniform(6e-3, 6e-2)]),
        hang_share=dice.choice([0.0, 0.0, 0.002, 0.05]),
        speed_sd=dice.choice([0.0, 0.0, 0.02]),
        drift_per_s=dice.choice([0.0, 0.0, -0.03]),
    )
    clear = math.tau / gun.line.blades - gun.line.blocked_rad - 2.0 * gun.line.margin_rad
    return changed(
        gun,
        dwell_rad=dice.choice([0.0, dice.uniform(0.1, 1.0), 1.0]) * clear,
        opens_rad=gun.opens_rad + dice.choice([0.0, 0.0, dice.uniform(-0.5, 0.5)]),
    )


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
    if between < 1e-9:  # every burst strikes alike
        assert found.strikes == pytest.approx(expected, rel=1e-9)
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


@pytest.mark.parametrize("scatter", ["delay_sd_s", "hang_share", "drift_per_s"])
def test_a_little_scatter_comes_to_none(random_gun, changed, scatter):
    gun = random_gun(random.Random(21), cycle_sd_s=3e-3, delay_sd_s=3e-4, hang_share=0.01, hang_s=0.01)
    without, little = (exact_burst(changed(gun, **{scatter: value}), 6).mean for value in (0.0, 1e-7))
    assert little.strike_share == pytest.approx(without.strike_share, rel=1e-3, abs=1e-6)
    assert little.interval_s == pytest.approx(without.interval_s, rel=1e-6)


def test_a_little_scatter_of_the_cycle_comes_to_none(random_gun, changed):
    """Two forms that share nothing but the delay: waves of a density, and pieces turned on a circle."""
    gun = random_gun(random.Random(23), **CALM, spin_rad_s=200.0, blades=2, impulses_per_rev=2)
    gun = changed(gun, delay_sd_s=1e-3)
    far = [
        abs(exact_burst(changed(gun, cycle_sd_s=sd), 6).mean.strike_share - exact_burst(gun, 6).mean.strike_share)
        for sd in (4e-4, 1e-4, 4e-5)
    ]
    assert far[2] < 0.3 * far[0]
    assert far[2] < 2e-4


def test_a_little_scatter_of_the_speed_comes_to_none(random_gun, changed):
    gun = random_gun(random.Random(22), cycle_sd_s=3e-3, hang_share=0.0)
    without, little = exact_burst(gun, 6), exact_burst(changed(gun, speed_sd=1e-5), 6)
    assert little.mean.strike_share == pytest.approx(without.mean.strike_share, rel=1e-5)


@pytest.mark.parametrize(("delay_sd_s", "within"), [(0.0, 1e-6), (1e-5, 1e-4)])
def test_a_speed_that_scatters_past_the_edge_of_a_blade(random_gun, changed, delay_sd_s, within):
    """An impulse aimed at the edge: half of the speeds carry the round into the blade, half past it.

    Where the delay scatters, its angle grows with the speed, and the halves are not quite alike.
    """
    gun = random_gun(random.Random(5), **CALM, dwell_rad=0.0, blades=2, impulses_per_rev=2, margin_rad=0.02)
    at_edge_rad = gun.line.blocked_rad / 2.0 - gun.spin_rad_s * gun.line.delay_s
    gun = changed(gun, cycle_sd_s=2e-3, delay_sd_s=delay_sd_s, opens_rad=at_edge_rad, speed_sd=0.01)
    found = exact_burst(gun, 4)
    assert found.mean.strike_share == pytest.approx(0.5, abs=within)
    assert found.error_share < 1e-5


def test_a_round_on_the_edge_is_clear(random_gun, changed):
    """The cam opens just as the blade has passed: with no scatter of the delay none is struck, at either edge."""
    for side in (1.0, -1.0):
        gun = random_gun(random.Random(6), **CALM, dwell_rad=0.0, margin_rad=0.0)
        on_edge_rad = side * gun.line.blocked_rad / 2.0 - gun.spin_rad_s * gun.line.delay_s
        for cycle_sd_s in (0.0, 4e-3):
            gun = changed(gun, opens_rad=on_edge_rad, cycle_sd_s=cycle_sd_s)
            assert exact_burst(gun, 20).mean.strike_share == 0.0
            assert fire_bursts(gun, bursts=500, rounds_per_burst=20, seed=1).strikes == 0
            inside = changed(gun, opens_rad=on_edge_rad - side * 1e-6)
            assert exact_burst(inside, 20).mean.strike_share == pytest.approx(1.0, abs=1e-9)
            assert fire_bursts(inside, bursts=500, rounds_per_burst=20, seed=1).strikes == 10_000


def test_continuous_fire_is_what_long_bursts_come_to(random_gun):
    for seed in range(12):
        gun = random_gun(random.Random(seed), **CALM)
        endless, long = settled(gun).mean, exact_burst(gun, 1000).mean
        assert endless.interval_s == pytest.approx(long.interval_s, rel=2e-3)
        assert endless.held_share == pytest.approx(long.held_share, abs=3e-3)
        assert endless.strike_share == pytest.approx(long.strike_share, abs=3e-3)


def test_continuous_fire_with_hang_fires_is_what_long_bursts_come_to(random_gun, changed):
    gun = changed(random_gun(random.Random(31), **CALM), hang_share=0.05, hang_s=0.01)
    endless, long = settled(gun).mean, exact_burst(gun, 200).mean
    assert endless.interval_s == pytest.approx(long.interval_s, rel=1e-3)
    assert endless.strike_share == pytest.approx(long.strike_share, abs=1e-3)


def test_a_gun_in_step_with_the_cam_fires_freely_where_it_began_in_a_window(random_gun, changed):
    """Cycle and openings in step: what began in the window stays there, what did not fires at the opening for ever."""
    gun = random_gun(random.Random(3), **CALM)
    gun = changed(gun, cycle_s=5.0 * gun.interval_s)
    endless, begun = settled(gun).mean, exact_burst(gun, 2).mean
    assert endless.interval_s == pytest.approx(5.0 * gun.interval_s, rel=1e-12)
    assert endless.held_share == pytest.approx(0.0, abs=1e-12)
    assert endless.strike_share == pytest.approx(begun.strike_share, abs=1e-12)


def test_without_the_gear_the_blocked_share_is_struck(random_gun, changed):
    for seed in range(6):
        gun = random_gun(random.Random(seed), speed_sd=0.05)
        free = replace(gun, line=replace(gun.line, cam=even(0.0, math.tau, 1)))
        found = exact_burst(free, 9).mean
        assert found.strike_share == pytest.approx(untimed_strike_share(gun.line), rel=1e-8)
        assert found.interval_s == pytest.approx(
            gun.line.cycle_s + gun.scatter.hang_share * gun.scatter.hang_s, rel=1e-12
        )
        counted = fire_bursts(free, bursts=20_000, rounds_per_burst=9, seed=seed)
        share = untimed_strike_share(gun.line)
        assert abs(counted.strikes / counted.rounds - share) < 4.5 * math.sqrt(share / counted.rounds)


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


def test_what_the_drift_counts_by_is_the_mean_interval(random_gun):
    gun = random_gun(random.Random(12), cycle_sd_s=3e-3)
    found = fire_bursts(gun, bursts=3000, rounds_per_burst=60, seed=2)
    assert pace_s(gun) == pytest.approx(found.interval_sum / (found.rounds - found.bursts) * gun.interval_s, rel=2e-3)


@pytest.mark.parametrize(
    ("scatter", "told"),
    [
        (
            {"speed_sd": 0.02},
            (
                "no exact form: the speed scatters and the cycle does not, so that the pattern jumps with the speed; "
                "give the cycle some scatter, or the speed none"
            ),
        ),
        (
            {"speed_sd": 0.02, "cycle_sd_s": 1e-4},
            (
                "no exact form: the speed scatters, and the cycle too little beside the time between openings; "
                "give the cycle more scatter, or the speed none"
            ),
        ),
        (
            {"speed_sd": 0.02, "drift_per_s": -0.02, "cycle_sd_s": 3e-3},
            (
                "no exact form: the speed scatters and drifts, and the delay too little; "
                "give the delay more scatter, or the speed no drift"
            ),
        ),
        (
            {"hang_share": 0.1, "hang_s": 1e-5},
            "no exact form: hang-fires are shorter than a thousandth of the time between openings; leave them out",
        ),
    ],
)
def test_where_there_is_no_exact_form(random_gun, changed, scatter, told):
    gun = changed(random_gun(random.Random(1), **CALM), **scatter)
    with pytest.raises(NoAnswerError) as refused:
        exact_burst(gun, 20)
    assert str(refused.value) == told
