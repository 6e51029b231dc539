"""Every law starts and ends at rest, is its own mirror image, and peaks at its exact values."""

from itertools import pairwise

import numpy as np
import pytest

from sim.display.rise_laws import LAWS, motion

SHARE = np.linspace(0.0, 1.0, 20_001)
INSIDE = slice(3, -3)


@pytest.fixture(params=LAWS)
def law(request):
    return LAWS[request.param]


def test_a_rise_goes_from_rest_to_rest(law):
    rise, velocity, _, _ = motion(law.name, np.array([0.0, 0.5, 1.0]))
    assert rise == pytest.approx([0.0, 0.5, 1.0], abs=1e-15)
    assert velocity[[0, 2]] == pytest.approx([0.0, 0.0], abs=1e-15)


def test_outside_the_rise_the_follower_dwells(law):
    rise, velocity, acceleration, jerk = motion(law.name, np.array([-0.5, 1.5]))
    assert rise.tolist() == [0.0, 1.0]
    assert not velocity.any()
    assert not acceleration.any()
    assert not jerk.any()


def test_the_second_half_is_the_first_one_turned_round(law):
    there, back = motion(law.name, SHARE), motion(law.name, 1.0 - SHARE)
    assert np.abs(there[0] - (1.0 - back[0])).max() < 1e-14
    assert np.abs(there[1] - back[1]).max() < 1e-9
    assert np.abs(there[2] + back[2])[1:-1].max() < 1e-8


def test_each_derivative_is_that_of_the_one_before(law):
    curves = motion(law.name, SHARE)
    for lower, upper in pairwise(curves[:3]):
        assert np.abs(np.gradient(lower, SHARE) - upper)[INSIDE].max() < 2e-6
    smooth = np.abs(np.diff(curves[3])) < 1.0  # the jerk of the modified laws jumps where two curves meet
    slope = np.diff(curves[2]) / np.diff(SHARE)
    middle = (curves[3][1:] + curves[3][:-1]) / 2.0
    assert np.abs(slope - middle)[smooth][1:-1].max() < 1e-3


def test_the_peaks_are_the_exact_ones(law):
    _, velocity, acceleration, jerk = motion(law.name, SHARE)
    assert velocity.max() == pytest.approx(law.velocity_peak, rel=1e-9)
    assert np.abs(acceleration).max() == pytest.approx(law.acceleration_peak, rel=2e-7)
    if np.isfinite(law.jerk_peak):
        assert np.abs(jerk).max() == pytest.approx(law.jerk_peak, rel=5e-4)


def test_only_the_simple_harmonic_law_jerks_without_limit():
    assert [name for name, law in LAWS.items() if np.isinf(law.jerk_peak)] == ["simple harmonic"]
    assert motion("simple harmonic", np.array([1e-9]))[2][0] == pytest.approx(np.pi**2 / 2.0)
