"""Mixtures of normals against the distributions that they are in known cases."""

import numpy as np
import pytest
from scipy import stats

from sim.numerics.normal_mixture import equivalent_normal, half_width
from sim.numerics.student import student_95


def chi_guesses(freedom, count=4000):
    """Return standard errors that follow from a scatter of 1 with few degrees of freedom, all equally likely."""
    levels = (np.arange(count) + 0.5) / count
    return np.sqrt(freedom / stats.chi2.ppf(levels, freedom))[:, None], np.full(count, 1.0 / count)


def test_one_member_is_a_normal():
    centre, half = half_width(np.array([[3.0]]), np.array([[2.0]]), np.ones(1), 0.95)
    assert (centre[0], half[0]) == pytest.approx((3.0, 2.0 * 1.959964), rel=1e-6)


@pytest.mark.parametrize(("freedom", "share"), [(3, 0.95), (8, 0.95), (8, 0.999), (30, 0.5)])
def test_a_scatter_of_few_degrees_of_freedom_makes_students_t(freedom, share):
    errors, weights = chi_guesses(freedom)
    half = half_width(np.zeros_like(errors), errors, weights, share)[1][0]
    assert half == pytest.approx(stats.t.ppf(0.5 + 0.5 * share, freedom), rel=5e-3)


@pytest.mark.parametrize("freedom", [1, 4, 25])
def test_one_member_of_few_degrees_of_freedom_is_students_t(freedom):
    members = np.array([[3.0]]), np.array([[2.0]]), np.ones(1)
    half = half_width(*members, 0.95, freedoms=np.array([float(freedom)]))[1][0]
    assert half == pytest.approx(2.0 * student_95(freedom), rel=1e-8)


def test_means_apart_widen_it_and_hold_the_share():
    means, errors = np.array([[-1.0], [2.0]]), np.array([[0.3], [0.5]])
    weights = np.array([0.25, 0.75])
    centre, half = half_width(means, errors, weights, 0.9)
    assert centre[0] == pytest.approx(1.25)
    inside = [
        stats.norm(m, e).cdf(centre + half) - stats.norm(m, e).cdf(centre - half) for m, e in ((-1, 0.3), (2, 0.5))
    ]
    assert 0.25 * inside[0][0] + 0.75 * inside[1][0] == pytest.approx(0.9, abs=1e-8)


def test_weights_of_each_quantity():
    errors = np.array([[1.0, 1.0], [5.0, 5.0]])
    half = half_width(np.zeros((2, 2)), errors, np.array([[1.0, 0.0], [0.0, 1.0]]), 0.95)[1]
    assert half[1] / half[0] == pytest.approx(5.0)


def test_the_equivalent_normal_deviate_is_as_rare():
    errors, weights = chi_guesses(5)
    found = equivalent_normal(4.0 / errors, weights[:, None])[0]
    assert stats.norm.sf(found) == pytest.approx(stats.t.sf(4.0, 5), rel=5e-3)


def test_far_tails_are_told_apart():
    found = equivalent_normal(np.array([[40.0, 50.0, 0.0, -45.0]]), np.ones((1, 4)))
    assert found == pytest.approx([40.0, 50.0, 0.0, -45.0], abs=1e-6)


def test_members_on_both_sides_of_a_value_leave_it_in_the_middle():
    found = equivalent_normal(np.array([[3.0], [-3.0]]), np.full((2, 1), 0.5))
    assert found == pytest.approx([0.0], abs=1e-9)
