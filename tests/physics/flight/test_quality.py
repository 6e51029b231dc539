"""Grading: modes that the standard joins, splits or leaves out."""

import pytest

from sim.flight.modes import Mode
from sim.flight.quality import level


def pair(name, damping, frequency):
    return Mode(name, -damping * frequency, frequency * (1.0 - damping**2) ** 0.5, damping, frequency, None, None, 0.0)


def real(name, root, double=None):
    return Mode(name, root, 0.0, None, None, None, double, 0.0)


def test_two_real_roots_are_one_short_period():
    """Roots −2 and −8: damping ratio 10 / (2·4) = 1.25."""
    both = (real("short period", -2.0), real("short period", -8.0))
    assert [level(mode, both, "A") for mode in both] == [1, 1]
    wide = (real("short period", -1.0), real("short period", -9.0))
    assert [level(mode, wide, "A") for mode in wide] == [2, 2], "1.67 is beyond 1.30"
    assert [level(mode, wide, "B") for mode in wide] == [1, 1], "and within 2.00"


def test_a_short_period_that_diverges_is_worse_than_any_level():
    both = (real("short period", 0.5, double=1.4), real("short period", -8.0))
    assert [level(mode, both) for mode in both] == [4, 4]


@pytest.mark.parametrize(("double_s", "expected"), [(60.0, 3), (55.0, 3), (50.0, 4)])
def test_a_growing_phugoid_goes_by_its_time_to_double(double_s, expected):
    mode = Mode("phugoid", 0.01, 0.2, -0.05, 0.2, None, double_s, 0.0)
    assert level(mode, (mode,)) == expected


def test_a_dying_spiral_is_always_level_1():
    assert level(real("spiral", -1e-4)) == 1


def test_a_rolling_mode_that_grows_is_worse_than_any_level():
    assert level(real("roll", 0.1)) == 4


def test_roll_and_spiral_in_one_are_graded_by_their_damping():
    assert [level(pair("roll and spiral", 0.5, f)) for f in (1.1, 0.7, 0.4, 0.2)] == [1, 2, 3, 4]


def test_what_the_standard_does_not_know_is_not_graded():
    assert level(pair("phugoid and spiral", 0.1, 0.2)) is None
