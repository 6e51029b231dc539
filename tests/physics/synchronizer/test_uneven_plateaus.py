"""Plateaus behind uneven windows: their ends against a gun followed round by round, and the even closed form."""

import random
from fractions import Fraction
from itertools import pairwise
from math import gcd

import pytest

from sim.synchronizer.plateaus import impulse_plateaus, interrupter_plateaus
from sim.synchronizer.uneven_plateaus import advances, count_of_advances, uneven_plateaus

PERIOD = Fraction(360)


def followed(windows, advance):
    """Return rounds and turns of the pattern that a gun falls into whose trigger is pulled at 0."""
    ready, seen, rounds, turned = Fraction(0), {}, 0, Fraction(0)
    while ready not in seen:
        seen[ready] = rounds, turned
        after = [((ready - opens) % PERIOD, closes - opens) for opens, closes in windows]
        wait = Fraction(0) if any(a < dwell or a == 0 for a, dwell in after) else min(PERIOD - a for a, _ in after)
        turned, rounds = turned + wait + advance, rounds + 1
        ready = (ready + wait + advance) % PERIOD
    before = seen[ready]
    return rounds - before[0], (turned - before[1]) / PERIOD


def drawn(dice):
    edges = sorted(dice.sample(range(0, 360, 5), 2 * dice.choice([1, 2, 2, 3])))
    windows = [(Fraction(start), Fraction(end)) for start, end in zip(edges[::2], edges[1::2], strict=True)]
    return [(start, start) for start, _ in windows] if dice.random() < 0.2 else windows


def test_a_pattern_holds_from_its_first_speed_to_its_last_and_no_further():
    dice, ends = random.Random(12), 0
    for _ in range(40):
        windows, start = drawn(dice), Fraction(dice.randint(1, 8), 4)
        mean = PERIOD / len(windows)
        impulses = windows[0][0] == windows[0][1]
        steps = uneven_plateaus(windows, PERIOD, start, start + 1, most_rounds=5)
        for step in steps:
            pattern = step.rounds / Fraction(step.intervals, len(windows))
            width = step.end - step.start
            within = [step.start + width / 2, step.start + width / 997, step.end - width / 997]
            for cycle in (*within, step.end if impulses else step.start):
                rounds, turns = followed(windows, cycle * mean)
                assert rounds / turns == pattern
            for cycle in (step.start - width / 997, step.end + width / 997):
                if start < cycle < start + 1:
                    ends += 1
                    rounds, turns = followed(windows, cycle * mean)
                    assert rounds / turns != pattern
    assert ends > 100


def test_what_is_not_listed_has_a_longer_pattern():
    dice, beyond = random.Random(5), 0
    for _ in range(60):
        windows, start = drawn(dice), Fraction(dice.randint(1, 8), 4)
        mean = PERIOD / len(windows)
        steps = uneven_plateaus(windows, PERIOD, start, start + 1, most_rounds=3)
        for low, high in pairwise([start, *(edge for step in steps for edge in (step.start, step.end)), start + 1]):
            if low < high and not any(step.start <= low < step.end for step in steps):
                beyond += 1
                cycle = low + (high - low) * Fraction(dice.randint(1, 996), 997)
                assert followed(windows, cycle * mean)[0] > 3
    assert beyond > 20


@pytest.mark.parametrize("count", [1, 2, 3])
@pytest.mark.parametrize("shut", [Fraction(1, 10), Fraction(1, 3), Fraction(3, 4)])
def test_at_even_angles_they_are_those_of_the_closed_form(count, shut):
    mean = PERIOD / count
    windows = [(number * mean, (number + 1 - shut) * mean) for number in range(count)]
    found = uneven_plateaus(windows, PERIOD, Fraction(19, 10), Fraction(41, 10), most_rounds=6)
    closed = interrupter_plateaus(shut, Fraction(19, 10), Fraction(41, 10), most_rounds=6)
    in_periods = [(step, count // gcd(step.intervals, count)) for step in closed]  # so often until whole periods passed
    assert [(step.rounds, step.intervals, step.start, step.end) for step in found] == [
        (step.rounds * times, step.intervals * times, step.start, step.end)
        for step, times in in_periods
        if step.rounds * times <= 6
    ]


def test_impulses_at_even_angles_lose_one_more_at_each_step():
    windows = [(Fraction(0), Fraction(0)), (Fraction(180), Fraction(180))]
    found = uneven_plateaus(windows, PERIOD, Fraction(1, 2), Fraction(7, 2), most_rounds=2)
    closed = impulse_plateaus(Fraction(1, 2), Fraction(7, 2))
    assert [(step.start, step.end, Fraction(step.intervals, step.rounds)) for step in found] == [
        (step.start, step.end, step.intervals) for step in closed
    ]


def test_the_count_foretells_how_many_edges_are_tried():
    windows = [(Fraction(0), Fraction(61)), (Fraction(150), Fraction(217))]
    every = set(advances(windows, PERIOD, Fraction(360), Fraction(1800), most_rounds=9))
    told = count_of_advances(2, 4.0, 9)
    assert 0.3 * told < len(every) <= 1.05 * told
