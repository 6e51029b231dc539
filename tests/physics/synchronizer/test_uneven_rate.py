"""The rate behind windows at uneven angles, against a gun that is followed round by round on a lattice of angles."""

import random
from fractions import Fraction

import pytest

from sim.synchronizer.uneven_rate import Ring, first_within, uneven_pattern


def followed(windows, period, advance, ready):
    """Return rounds and turned angle of the pattern that a gun ready there falls into."""
    seen, rounds, turned = {}, 0, 0
    while True:
        after = [((ready - opens) % period, closes - opens) for opens, closes in windows]
        wait = 0 if any(a < dwell or a == 0 for a, dwell in after) else min(period - a for a, _ in after)
        turned += wait
        ready = (ready + wait) % period
        if ready in seen:
            first_rounds, first_turned = seen[ready]
            return rounds - first_rounds, turned - first_turned
        seen[ready] = rounds, turned
        rounds += 1
        turned += advance
        ready = (ready + advance) % period


def drawn(dice):
    period = dice.randint(12, 48)
    edges = sorted(dice.sample(range(period), 2 * dice.choice([2, 3])))
    windows = list(zip(edges[::2], edges[1::2], strict=True))
    if dice.random() < 0.2:
        windows = [(start, start) for start, _ in windows]
    return windows, period, dice.randint(1, 3 * period)


def test_the_first_step_within_bounds_is_that_of_counting():
    dice = random.Random(3)
    for _ in range(5000):
        whole = dice.randint(1, 60)
        low = dice.randint(0, whole - 1)
        high, advance = dice.randint(low, whole - 1), dice.randint(0, 90)
        counted = next((n for n in range(whole + 1) if low <= n * advance % whole <= high), None)
        assert first_within(advance, whole, low, high) == counted


def test_the_pattern_is_the_same_from_wherever_the_trigger_is_pulled():
    dice, free, longest = random.Random(8), 0, 0
    for _ in range(400):
        windows, period, advance = drawn(dice)
        patterns = [followed(windows, period, advance, start) for start in range(period)]
        (rate,) = {Fraction(rounds * advance, turned) for rounds, turned in patterns}
        found = uneven_pattern([tuple(map(Fraction, each)) for each in windows], Fraction(period), Fraction(advance))
        if found is None:
            free += 1
            assert rate == 1
        else:
            longest = max(longest, found.rounds)
            assert rate == Fraction(found.rounds * advance, found.periods * period)
    assert free > 10
    assert longest > 6


@pytest.mark.parametrize("scale", [Fraction(1, 7), Fraction(5, 3)])
def test_the_unit_of_the_angles_does_not_matter(scale):
    windows = [(Fraction(0), Fraction(60)), (Fraction(150), Fraction(210))]
    assert uneven_pattern(windows, Fraction(360), Fraction(100)) == Ring(2, 1)
    scaled = [(start * scale, end * scale) for start, end in windows]
    assert uneven_pattern(scaled, 360 * scale, 100 * scale) == Ring(2, 1)
