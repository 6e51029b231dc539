"""The closed form is the gun fired round by round, exactly; and it behaves as a held gun must."""

import math
import random
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.rate import impulse_rate, interrupter_rate, steady_rate

WHOLE = st.integers(200, 6000)
GUN = st.integers(300, 900)


def test_two_thousand_random_guns_equal_the_events(round_by_round):
    dice = random.Random(20)
    for _ in range(2000):
        openings, gun, blocked = dice.randint(200, 6000), dice.randint(300, 900), dice.randint(1, 359)
        rounds, intervals = round_by_round(Fraction(openings, gun), Fraction(blocked, 360))
        found = interrupter_rate(float(openings), float(gun), blocked=blocked, interval=360)
        assert (found.rounds_per_pattern, found.intervals_per_pattern) == (rounds, intervals)
        assert found.rounds_per_min == float(rounds * openings / intervals)


@given(openings=st.fractions(1, 6000, max_denominator=64), gun=GUN, share=st.integers(1, 99))
def test_speeds_that_are_no_whole_numbers(round_by_round, openings, gun, share):
    """Away from a plateau's edge, where a rounding decides, the rate is right to the last digits."""
    rounds, intervals = round_by_round(openings / gun, Fraction(share, 100))
    found = interrupter_rate(float(openings), float(gun), blocked=share / 100)
    nudged = {round_by_round(openings / gun, Fraction(share, 100) + tiny)[0] for tiny in (0, Fraction(1, 10**9))}
    if nudged == {rounds}:
        assert found.rounds_per_min == pytest.approx(float(rounds * openings / intervals), rel=1e-12)


@given(openings=WHOLE, gun=GUN, less=st.integers(0, 360), more=st.integers(0, 360))
def test_a_larger_blocked_share_never_raises_the_rate(openings, gun, less, more):
    less, more = sorted((less, more))
    rates = [float(interrupter_rate(openings, gun, blocked=b, interval=360).rounds_per_min) for b in (less, more)]
    assert rates[1] <= rates[0] * (1.0 + 1e-12)


@given(openings=WHOLE, gun=GUN, blocked=st.integers(0, 360))
def test_the_gun_never_outruns_itself(openings, gun, blocked):
    assert interrupter_rate(openings, gun, blocked=blocked, interval=360).rounds_per_min <= gun * (1.0 + 1e-12)


def test_nothing_blocked_is_the_gun_alone_and_all_blocked_is_silence():
    assert interrupter_rate(2401.0, 500.0, blocked=0.0).rounds_per_min == 500.0
    silent = interrupter_rate(2401.0, 500.0, blocked=1.01)
    assert (silent.rounds_per_min, silent.rounds_per_pattern, silent.intervals_per_pattern) == (0.0, 0, 0)


def test_an_instant_of_a_window_is_an_impulse():
    openings = np.arange(300.0, 6000.0, 7.0)
    shrunk = interrupter_rate(openings, 510.0, blocked=1.0)
    assert shrunk.rounds_per_min == pytest.approx(impulse_rate(openings, 510.0).rounds_per_min, rel=1e-14)


def test_many_speeds_at_once_are_each_speed_alone():
    openings = np.linspace(1800.0, 3000.0, 997)
    together = interrupter_rate(openings, 575.0, blocked=45.0, interval=180.0).rounds_per_min
    alone = [float(interrupter_rate(each, 575.0, blocked=45.0, interval=180.0).rounds_per_min) for each in openings]
    assert together.tolist() == alone


def test_one_window_a_turn_is_a_longer_interval():
    """A cam with one lobe, two blades, 60° of each half turn blocked: the window is 120° of 360°."""
    found = interrupter_rate(1200.0, 500.0, blocked=240.0, interval=360.0)
    assert float(found.rounds_per_min) == pytest.approx(400.0)
    assert (found.rounds_per_pattern, found.intervals_per_pattern) == (1, 3)


@pytest.mark.parametrize("action", ["interrupter", "impulse"])
def test_a_gun_as_fast_as_the_openings_fires_at_every_one(action):
    """Speeds with a decimal, 2596.3 rpm among them: no rounding error makes the gun late for the next opening."""
    dice = random.Random(2)
    for tenths in (25963, *(dice.randrange(4000, 30000) for _ in range(300))):
        blades, openings = dice.choice([1, 2, 3, 4]), dice.choice([1, 2])
        rpm = tenths / 10
        gun = float(Fraction(tenths * blades, 10 * openings))
        line = GunLine((rpm * math.pi / 30.0,), blades, 0.5, 0.01, natural_rate_per_s=gun / 60.0, action=action)
        found = steady_rate(line)
        assert (int(found.rounds_per_pattern[0]), int(found.intervals_per_pattern[0])) == (1, openings)
        assert found.rounds_per_min[0] == pytest.approx(gun, rel=1e-15)
