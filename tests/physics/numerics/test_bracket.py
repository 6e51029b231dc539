"""Bracketed roots: found to the tolerance for every shape of function, and never outside of the bracket."""

import numpy as np
import pytest
from scipy.optimize import brentq

from sim.numerics.bracket import bracketed_roots

SHAPES = {
    "straight": lambda x, c: x - c,
    "cubic": lambda x, c: (x - c) ** 3,
    "steep": lambda x, c: np.tanh(300.0 * (x - c)),
    "exponential": lambda x, c: np.exp(4.0 * x) - np.exp(4.0 * c),
    "kink": lambda x, c: np.where(x < c, 0.01 * (x - c), 5.0 * (x - c)),
}


@pytest.mark.parametrize("name", SHAPES)
def test_many_roots_at_once(name):
    roots = np.linspace(-0.93, 1.87, 29)
    found = bracketed_roots(lambda x: SHAPES[name](x, roots), np.full(29, -1.0), np.full(29, 2.0))
    assert found == pytest.approx(roots, abs=1e-4 if name == "cubic" else 1e-12)


def test_the_order_of_the_ends_does_not_matter():
    low, high = np.array([0.2, 3.0]), np.array([3.0, 0.2])
    found = bracketed_roots(lambda x: np.cos(x) - 0.3 * x, low, high)
    assert found == pytest.approx([brentq(lambda x: np.cos(x) - 0.3 * x, 0.2, 3.0)] * 2, abs=1e-12)


def test_a_root_at_an_end_is_found():
    assert bracketed_roots(lambda x: x * (x - 5.0), np.array([0.0]), np.array([3.0])) == pytest.approx(0.0, abs=1e-12)


def test_without_a_change_of_sign_the_better_end_is_returned():
    assert bracketed_roots(lambda x: x**2 + 1.0, np.array([-1.0]), np.array([3.0])).tolist() == [-1.0]


def test_no_value_is_asked_for_outside_of_the_bracket():
    asked = []

    def residual(x):
        asked.append(x.copy())
        return np.log(x) - 1.7

    bracketed_roots(residual, np.array([1e-3]), np.array([40.0]))
    assert all(1e-3 <= x[0] <= 40.0 for x in asked)
    assert len(asked) < 30
