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


def edge(meets, low, high):
    """Return where a requirement begins to be met, or to be failed, between two values; by halving."""
    at_low = meets(low)
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if meets(middle) == at_low else (low, middle)
    return high


READ, RECALLED = {"exact": True, "mark": "P"}, {"exact": True, "mark": "M"}
DUTCH_ROLL = [
    *(("A", 1, 0.19, 0.35, 1.0), ("B", 1, 0.08, 0.15, 0.4), ("C", 1, 0.08, 0.15, 1.0)),
    *((category, 2, 0.02, 0.05, 0.4) for category in "ABC"),
]


@pytest.mark.parametrize(("category", "row", "damping", "product", "frequency"), DUTCH_ROLL)
def test_dutch_roll(category, row, damping, product, frequency, printed):
    grade = lambda zeta, omega: level(oscillation("Dutch roll", zeta, omega), (), category)  # noqa: E731
    fast, more = 1.001 * product / damping, max(damping, product / frequency) * 1.001
    assert grade(damping, max(fast, frequency)) == row
    assert grade(0.999 * damping, 10.0) > row
    assert grade(more, frequency) == row
    assert grade(more, 0.999 * frequency) > row
    slow = max(frequency, 0.5 * product / damping)
    assert grade(0.999 * product / slow, slow) > row
    least = f"Dutch roll, category {category}, Level {row}: least"
    ours = edge(lambda zeta: grade(zeta, 100.0) <= row, 0.0, 1.0)
    printed(ours, f"{damping:.2f}", row=f"{least} damping ratio", **READ)
    ours = slow * edge(lambda zeta: grade(zeta, slow) <= row, 0.0, 1.0)
    printed(ours, f"{product:.2f}", "rad/s", row=f"{least} ζ ω", **READ)
    ours = edge(lambda omega: grade(1.0, omega) <= row, 0.0, 10.0)
    printed(ours, f"{frequency:.1f}", "rad/s", row=f"{least} frequency", **READ)


@pytest.mark.parametrize("category", "ABC")
def test_dutch_roll_level_3(category, printed):
    assert level(oscillation("Dutch roll", 0.0, 0.4), (), category) == 3
    assert level(oscillation("Dutch roll", -0.001, 0.4), (), category) == 4
    ours = edge(lambda omega: level(oscillation("Dutch roll", 0.1, omega), (), category) <= 3, 0.1, 0.5)
    printed(ours, "0.4", "rad/s", row=f"Dutch roll, category {category}, Level 3: least frequency", **READ)


@pytest.mark.parametrize(
    ("category", "constants_s"), [("A", (1.0, 1.4, 10.0)), ("B", (1.4, 3.0, 10.0)), ("C", (1.0, 1.4, 10.0))]
)
def test_roll_constant(category, constants_s, printed):
    for row, constant in enumerate(constants_s, 1):
        roll = lambda time_s: level(Mode("roll", -1.0 / time_s, 0.0, None, None, 1.0, None, 0.0), (), category)  # noqa: E731
        assert [roll(share * constant) for share in (0.999, 1.001)] == [row, row + 1]
        ours = edge(lambda time_s, row=row, roll=roll: roll(time_s) <= row, 0.1, 20.0)
        printed(ours, f"{constant:.1f}", "s", row=f"roll constant, category {category}, Level {row}: most", **READ)


@pytest.mark.parametrize(
    ("category", "doubling_s"), [("A", (12.0, 8.0, 4.0)), ("B", (20.0, 8.0, 4.0)), ("C", (12.0, 8.0, 4.0))]
)
def test_spiral_doubling(category, doubling_s, printed):
    for row, double in enumerate(doubling_s, 1):
        spiral = lambda time_s: level(Mode("spiral", 1.0, 0.0, None, None, None, time_s, 0.0), (), category)  # noqa: E731
        assert [spiral(share * double) for share in (1.0, 0.999)] == [row, row + 1]
        ours = edge(lambda time_s, row=row, spiral=spiral: spiral(time_s) <= row, 0.1, 40.0)
        what = f"spiral, time to double, category {category}, Level {row}: least"
        printed(ours, f"{double:.0f}", "s", row=what, **READ)


@pytest.mark.parametrize(
    ("category", "row", "low", "high", "at_high"),
    [("A", 1, 0.35, 1.30, 1), ("B", 1, 0.30, 2.00, 1), ("A", 2, 0.25, 2.00, 2), ("B", 2, 0.20, 2.00, 1)],
)
def test_short_period_damping(category, row, low, high, at_high, printed):
    grade = lambda zeta: level(oscillation("short period", zeta, 3.0), (), category)  # noqa: E731
    assert (grade(low), grade(high)) == (row, at_high)
    assert grade(0.999 * low) == row + 1
    assert grade(1.001 * high) > row
    what = f"short period damping ratio, category {category}, Level {row}"
    printed(edge(lambda zeta: grade(zeta) <= row, 0.0, low + 0.01), f"{low:.2f}", row=f"{what}: least", **RECALLED)
    printed(edge(lambda zeta: grade(zeta) <= row, high - 0.01, 9.0), f"{high:.2f}", row=f"{what}: most", **RECALLED)


def test_short_period_level_3(printed):
    assert level(oscillation("short period", 0.15, 3.0)) == 3
    ours = edge(lambda zeta: level(oscillation("short period", zeta, 3.0)) <= 3, 0.0, 1.0)
    printed(ours, "0.15", row="short period damping ratio, Level 3: least", **RECALLED)


@pytest.mark.parametrize(("damping", "row"), [(0.04, 1), (0.0399, 2), (0.0, 2)])
def test_phugoid(damping, row):
    mode = oscillation("phugoid", damping, 0.2)
    assert level(mode, (mode,)) == row


@pytest.mark.parametrize(("row", "least"), [(1, "0.04"), (2, "0.00")])
def test_phugoid_damping(row, least, printed):
    ours = edge(lambda zeta: level(oscillation("phugoid", zeta, 0.2)) <= row, -1.0, 1.0)
    printed(ours, least, row=f"phugoid damping ratio, Level {row}: least", **RECALLED)


def test_phugoid_level_3(printed):
    def grade(double_s):
        mode = Mode("phugoid", math.log(2.0) / double_s, 0.2, -0.06, 0.2, None, double_s, 0.0)
        return level(mode, (mode,))

    assert [grade(55.0), grade(54.9)] == [3, 4]
    ours = edge(lambda double_s: grade(double_s) <= 3, 1.0, 100.0)
    printed(ours, "55", "s", row="phugoid, time to double, Level 3: least", **RECALLED)
