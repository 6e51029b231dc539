"""The gun fired round by round in exact fractions: what the closed forms are held against."""

import math
import random
from fractions import Fraction

import event_gun as event_gun_of_the_bench
import pytest
import timed_guns


def fire(cycle: Fraction, shut_share: Fraction) -> tuple[int, Fraction]:
    """Return rounds and intervals of the pattern that a gun falls into; time counts in intervals.

    The window is open from each whole number on for 1 − `shut_share`.
    """
    seen: dict[Fraction, tuple[int, Fraction]] = {}
    ready, rounds = Fraction(0), 0
    while True:
        phase = ready % 1
        if phase >= 1 - shut_share:
            ready, phase = ready - phase + 1, Fraction(0)
        if phase in seen:
            earlier, then = seen[phase]
            return rounds - earlier, ready - then
        seen[phase] = rounds, ready
        rounds += 1
        ready += cycle


@pytest.fixture(scope="session")
def round_by_round():
    return fire


@pytest.fixture(scope="session")
def event_gun():
    """The gun as an event simulation, shared with the bench."""
    return event_gun_of_the_bench


@pytest.fixture(scope="session")
def random_gun():
    """Return a timed gun drawn at random; named values stand in the place of the drawn ones."""

    def draw(dice: random.Random, **fixed):
        spin_rad_s, blades = dice.uniform(60.0, 260.0), dice.choice([2, 2, 3, 4])
        openings = dice.choice([number for number in (1, 2, 3, 4) if blades % number == 0])
        blocked_rad, delay_s = math.radians(dice.uniform(10.0, 25.0)), dice.uniform(2e-3, 12e-3)
        margin_rad = math.radians(dice.uniform(0.0, 4.0))
        drawn = {
            "spin_rad_s": spin_rad_s,
            "blades": blades,
            "impulses_per_rev": openings,
            "opens_rad": blocked_rad / 2.0 + margin_rad - spin_rad_s * delay_s,
            "dwell_rad": dice.uniform(0.1, 1.0) * (math.tau / blades - blocked_rad - 2.0 * margin_rad),
            "blocked_rad": blocked_rad,
            "margin_rad": margin_rad,
            "delay_s": delay_s,
            "cycle_s": dice.uniform(0.07, 0.15),
            "delay_sd_s": dice.uniform(1e-4, 8e-4),
            "cycle_sd_s": dice.uniform(1e-3, 6e-3),
            "hang_share": dice.choice([0.0, 0.002, 0.02]),
            "hang_s": dice.uniform(5e-3, 30e-3),
        }
        return timed_guns.timed_gun(**{**drawn, **fixed})

    return draw


@pytest.fixture(scope="session")
def changed():
    """Return a timed gun with some of its values changed."""
    return timed_guns.changed
