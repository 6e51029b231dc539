"""The gun fired round by round in exact fractions: what the closed forms are held against."""

from fractions import Fraction

import pytest


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
