"""The coefficients against conditions of order and against an independent copy."""

import numpy as np
import pytest
from scipy import integrate

from sim.numerics.dop853_tableau import DOP853

STAGES = np.array([np.pad(row, (0, 12 - len(row))) for row in DOP853.stage_weights])


def test_equals_an_independent_copy_to_the_last_bit():
    assert (integrate.DOP853.A == STAGES).all()
    assert (DOP853.nodes == integrate.DOP853.C).all()
    assert (DOP853.weights == integrate.DOP853.B).all()
    assert (integrate.DOP853.E5[:12] == DOP853.error_5).all()
    assert (integrate.DOP853.E3[:12] == DOP853.error_3).all()


def test_each_stage_is_consistent_with_its_node():
    assert STAGES.sum(axis=1) == pytest.approx(DOP853.nodes, abs=2e-15)


def test_polynomials_up_to_degree_seven_are_integrated_exactly_and_degree_eight_is_not():
    moments = [float(np.dot(DOP853.weights, np.power(DOP853.nodes, k))) - 1.0 / (k + 1) for k in range(9)]
    assert moments[:8] == pytest.approx([0.0] * 8, abs=1e-15)
    assert abs(moments[8]) > 1e-6


def test_error_estimates_vanish_for_a_constant_rate():
    assert sum(DOP853.error_5) == pytest.approx(0.0, abs=1e-15)
    assert sum(DOP853.error_3) == pytest.approx(0.0, abs=1e-15)
