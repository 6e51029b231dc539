"""Exact bursts: their limits, their edges, continuous fire, and where there are none."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest

from sim.errors import NoAnswerError
from sim.synchronizer.cam import even
from sim.synchronizer.counted_burst import fire_bursts
from sim.synchronizer.exact_burst import exact_burst, settled
from sim.synchronizer.gun_line import untimed_strike_share
from sim.synchronizer.pace import pace_s
from sim.synchronizer.steady import steady

CALM = {"delay_sd_s": 0.0, "cycle_sd_s": 0.0, "hang_share": 0.0}


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


@pytest.mark.parametrize(
    ("scatter", "speeds", "slack"),
    [
        ({"delay_sd_s": 4e-4}, 200, 1e-10),
        pytest.param({"delay_sd_s": 5e-5, "hang_share": 0.02}, 1500, 1e-10, marks=pytest.mark.slow),
        pytest.param({"delay_sd_s": 0.0}, 1500, 2e-3, marks=pytest.mark.slow),  # the plain sum is blind to the jump
    ],
)
def test_the_integral_over_the_speed_is_as_good_as_its_bound(random_gun, scatter, speeds, slack):
    """Against a sum over many speeds of the normal law cut at four standard deviations, without any splitting."""
    gun = random_gun(random.Random(12), cycle_sd_s=4e-3, speed_sd=0.03, spin_rad_s=160.0, hang_s=0.01, **scatter)
    places, weights = np.polynomial.legendre.leggauss(speeds)
    shares = weights * np.exp(-8.0 * places**2)
    each = [steady(gun.at_speed(1.0 + 0.12 * place), 4) for place in places.tolist()]
    found = exact_burst(gun, 4)
    summed = sum(share * one.strike_share for share, one in zip(shares, each, strict=True)) / shares.sum()
    assert abs(found.mean.strike_share - summed) < found.error_share + slack
    time_s = sum(share * one.interval_s for share, one in zip(shares, each, strict=True)) / shares.sum()
    assert found.mean.interval_s == pytest.approx(time_s, rel=1e-7)


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
