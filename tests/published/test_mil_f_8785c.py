"""MIL-F-8785C, Flying Qualities of Piloted Airplanes, 5 November 1980: requirements on modes, Class I.

Marks: Dutch roll (3.3.1.1), roll (3.3.1.2) and spiral (3.3.1.3) P; short period (3.2.2.1.2) and phugoid (3.2.1.2) M;
coupled roll and spiral (3.3.1.4) M, not repeated here. The B edition has other numbers for the spiral.
Each row stands on its requirement, and next to it on the bad side by a thousandth.
"""

import math

import pytest

from sim.flight.modes import Mode
from sim.flight.quality import level


def oscillation(name, damping, frequency):
    double = math.log(2.0) / (-damping * frequency) if damping < 0.0 else None
    return Mode(name, -damping * frequency, frequency, damping, frequency, None, double, 0.0)


DUTCH_ROLL = [
    *(("A", 1, 0.19, 0.35, 1.0), ("B", 1, 0.08, 0.15, 0.4), ("C", 1, 0.08, 0.15, 1.0)),
    *((category, 2, 0.02, 0.05, 0.4) for category in "ABC"),
]


@pytest.mark.parametrize(("category", "row", "damping", "product", "frequency"), DUTCH_ROLL)
def test_dutch_roll(category, row, damping, product, frequency):
    grade = lambda zeta, omega: level(oscillation("Dutch roll", zeta, omega), (), category)  # noqa: E731
    fast, more = 1.001 * product / damping, max(damping, product / frequency) * 1.001
    assert grade(damping, max(fast, frequency)) == row
    assert grade(0.999 * damping, 10.0) > row
    assert grade(more, frequency) == row
    assert grade(more, 0.999 * frequency) > row
    slow = max(frequency, 0.5 * product / damping)
    assert grade(0.999 * product / slow, slow) > row


@pytest.mark.parametrize("category", "ABC")
def test_dutch_roll_level_3(category):
    assert level(oscillation("Dutch roll", 0.0, 0.4), (), category) == 3
    assert level(oscillation("Dutch roll", -0.001, 0.4), (), category) == 4
    assert level(oscillation("Dutch roll", 0.0, 0.399), (), category) == 4


@pytest.mark.parametrize(
    ("category", "constants_s"), [("A", (1.0, 1.4, 10.0)), ("B", (1.4, 3.0, 10.0)), ("C", (1.0, 1.4, 10.0))]
)
def test_roll_constant(category, constants_s):
    for row, constant in enumerate(constants_s, 1):
        mode = [Mode("roll", -1.0 / (share * constant), 0.0, None, None, 1.0, None, 0.0) for share in (0.999, 1.001)]
        assert [level(one, (), category) for one in mode] == [row, row + 1]


@pytest.mark.parametrize(
    ("category", "doubling_s"), [("A", (12.0, 8.0, 4.0)), ("B", (20.0, 8.0, 4.0)), ("C", (12.0, 8.0, 4.0))]
)
def test_spiral_doubling(category, doubling_s):
    for row, double in enumerate(doubling_s, 1):
        mode = [Mode("spiral", 1.0, 0.0, None, None, None, share * double, 0.0) for share in (1.0, 0.999)]
        assert [level(one, (), category) for one in mode] == [row, row + 1]


@pytest.mark.parametrize(
    ("category", "row", "low", "high", "at_high"),
    [("A", 1, 0.35, 1.30, 1), ("B", 1, 0.30, 2.00, 1), ("A", 2, 0.25, 2.00, 2), ("B", 2, 0.20, 2.00, 1)],
)
def test_short_period_damping(category, row, low, high, at_high):
    grade = lambda zeta: level(oscillation("short period", zeta, 3.0), (), category)  # noqa: E731
    assert (grade(low), grade(high)) == (row, at_high)
    assert grade(0.999 * low) == row + 1
    assert grade(1.001 * high) > row


def test_short_period_level_3():
    assert level(oscillation("short period", 0.15, 3.0)) == 3
    assert level(oscillation("short period", 0.149, 3.0)) == 4


@pytest.mark.parametrize(("damping", "row"), [(0.04, 1), (0.0399, 2), (0.0, 2)])
def test_phugoid(damping, row):
    mode = oscillation("phugoid", damping, 0.2)
    assert level(mode, (mode,)) == row


@pytest.mark.parametrize(("double_s", "row"), [(55.0, 3), (54.9, 4)])
def test_phugoid_level_3(double_s, row):
    mode = Mode("phugoid", math.log(2.0) / double_s, 0.2, -0.06, 0.2, None, double_s, 0.0)
    assert level(mode, (mode,)) == row
