"""Batches of equations against closed forms, with and without a solution."""

import numpy as np
import pytest

from sim.numerics.newton import solve_batch

STEP = np.array([1.0, 1.0])


def circle_and_line(radius, slope):
    """x² + y² = r² and y = m x, with the closed form x = r / √(1 + m²)."""

    def residual(x, systems):
        return np.stack([x[0] * x[0] + x[1] * x[1] - radius[systems] ** 2, x[1] - slope[systems] * x[0]])

    return residual


def test_systems_of_different_size_are_solved_together():
    radius, slope = np.array([1.0, 2.5, 0.3, 40.0]), np.array([0.0, 3.0, 1.0, 0.2])
    x = np.ones((2, 4))
    solved = solve_batch(circle_and_line(radius, slope), x, max_step=STEP, tolerance=1e-10)
    assert solved.tolist() == [True, True, True, False]
    exact = radius / np.sqrt(1.0 + slope**2)
    assert x[0, :3] == pytest.approx(exact[:3], rel=1e-12)
    assert x[1, :3] == pytest.approx((slope * exact)[:3], abs=1e-12)


def test_a_longer_step_reaches_a_solution_farther_away():
    x = np.ones((2, 1))
    residual = circle_and_line(np.array([40.0]), np.array([0.2]))
    assert solve_batch(residual, x, max_step=np.array([20.0, 20.0]), tolerance=1e-10).tolist() == [True]
    assert x[0, 0] == pytest.approx(40.0 / np.sqrt(1.04), rel=1e-12)


def test_a_system_without_a_solution_is_reported_and_leaves_the_others():
    def residual(x, systems):
        return np.stack([x[0] * x[0] - np.array([4.0, -1.0, 9.0])[systems]])

    x = np.ones((1, 3))
    assert solve_batch(residual, x, max_step=np.array([5.0]), tolerance=1e-10).tolist() == [True, False, True]
    assert x[0, [0, 2]] == pytest.approx([2.0, 3.0], rel=1e-12)


def test_a_singular_jacobian_at_the_start_is_no_exception():
    x = np.zeros((1, 2))
    solved = solve_batch(lambda x, systems: np.stack([x[0] * x[0] - 1.0]), x, max_step=np.array([1.0]), tolerance=1e-10)
    assert not solved.any()
