"""The plateaus have edges in closed form: inside one its pattern holds, and together they leave nothing out."""

import random
from fractions import Fraction
from itertools import pairwise

import pytest

from sim.synchronizer.plateaus import impulse_plateaus, interrupter_plateaus
from sim.synchronizer.rate import impulse_rate, interrupter_rate


@pytest.mark.parametrize(
    ("shut", "covered"), [(Fraction(1, 10), 0.9924), (Fraction(1, 4), 0.9971), (Fraction(1, 2), 0.99875)]
)
@pytest.mark.parametrize("start", [1, 4])
def test_patterns_of_400_rounds_cover_almost_all(shut, covered, start):
    steps = interrupter_plateaus(shut, Fraction(start), Fraction(start + 1), most_rounds=400)
    assert float(sum(step.end - step.start for step in steps)) == pytest.approx(covered, abs=5e-5)
    assert all(low.end <= high.start for low, high in pairwise(steps))


@pytest.mark.parametrize("shut", [Fraction(1, 10), Fraction(1, 3), Fraction(3, 4)])
def test_the_pattern_holds_from_its_first_speed_to_its_last(shut, round_by_round):
    steps = interrupter_plateaus(shut, Fraction(2), Fraction(4), most_rounds=40)
    for step in random.Random(1).sample(steps, min(60, len(steps))):
        width = step.end - step.start
        for cycle in (step.start, step.start + width / 2, step.end - width / 1000):
            assert round_by_round(cycle, shut) == (step.rounds, step.intervals)
        assert round_by_round(step.start - width / 1000, shut) != (step.rounds, step.intervals)


def test_the_gap_between_two_plateaus_holds_a_free_speed(round_by_round):
    """At T/τ = 5/2 with a quarter blocked every second round finds the window half open: the gun runs free."""
    steps = interrupter_plateaus(Fraction(1, 4), Fraction(9, 4), Fraction(11, 4), most_rounds=200)
    assert not any(step.start <= Fraction(5, 2) < step.end for step in steps)
    assert round_by_round(Fraction(5, 2), Fraction(1, 4)) == (2, 5)
    assert interrupter_rate(5.0, 2.0, blocked=0.25).rounds_per_min == 2.0


def test_the_list_is_cut_to_the_range_asked_for():
    steps = interrupter_plateaus(Fraction(1, 4), Fraction(39, 10), Fraction(49, 10), most_rounds=3)
    assert steps[0].start == Fraction(39, 10)
    assert steps[-1].end == Fraction(49, 10)


def test_impulse_steps_change_where_one_more_impulse_is_lost():
    steps = impulse_plateaus(Fraction(1, 2), Fraction(7, 2))
    assert [(step.intervals, step.start, step.end) for step in steps] == [
        (1, Fraction(1, 2), 1),
        (2, 1, 2),
        (3, 2, 3),
        (4, 3, Fraction(7, 2)),
    ]
    assert [int(impulse_rate(float(step.end), 1.0).intervals_per_pattern) for step in steps] == [1, 2, 3, 4]
