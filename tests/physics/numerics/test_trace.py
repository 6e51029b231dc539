"""What was written down does the same sums as the function itself, on floats and on rows."""

import math

import numpy as np
import pytest

from sim.numerics.array_kernel import ArrayKernel, aligned_empty
from sim.numerics.number import ARRAY_MATH
from sim.numerics.trace import compiled, record


def sums(functions):
    """Return a function with every operation, from both sides, a repeated term and terms that vanish."""

    def run(x):
        a, b, c = x
        root = functions.sqrt(a * a + b * b)
        return (
            2.0 - root + (root - 0.5) * c / 3.0,
            1.0 / (1.0 + root) - (-c) ** 3.0 + functions.atan(b),
            0.0 * a + b * 1.0 - 0.0,
            0.0 - a,
            7.0,
            b,
            functions.sqrt(2.0) + (a + b) * (b + a) + 0.0 / a + c / 1.0,
        )

    return run


POINT = (3.0, -4.0, 0.7)


def test_floats():
    found = compiled(record(sums, 3))(POINT)
    assert found == pytest.approx(sums(math)(POINT), rel=1e-15)


def test_rows_of_any_width_one_after_the_other():
    run = ArrayKernel(record(lambda functions: lambda x: sums(functions)(x)[:3], 3))
    for width in (1, 8, 5, 8):
        rows = np.random.default_rng(width).normal(size=(3, width))
        assert run(0.0, rows) == pytest.approx(np.array(sums(ARRAY_MATH)(rows)[:3]), rel=1e-15)


def test_a_result_outlives_the_next_call():
    run = ArrayKernel(record(lambda functions: lambda x: (x[0] * x[0],), 1))
    first = run(0.0, np.array([[2.0, 3.0]]))
    run(0.0, np.array([[5.0, 6.0]]))
    assert first.tolist() == [[4.0, 9.0]]


def test_numbers_that_are_rows_are_cut_with_the_columns():
    factor = np.arange(6.0)
    run = ArrayKernel(record(lambda functions: lambda x: (factor * x[0] + 1.0,), 1))
    assert run(0.0, np.full((1, 6), 2.0)).tolist() == [[1.0, 3.0, 5.0, 7.0, 9.0, 11.0]]
    assert run.columns(2, 4)(0.0, np.full((1, 2), 2.0)).tolist() == [[5.0, 7.0]]


def test_what_comes_with_time_is_a_number_or_a_row():
    def inputs(t):
        return 10.0 * t, np.arange(4.0)

    run = ArrayKernel(record(lambda functions: lambda x, y: (x[0] + y[0] + y[1],), 1, 2), inputs)
    assert run(0.5, np.ones((1, 4))).tolist() == [[6.0, 7.0, 8.0, 9.0]]
    assert run.columns(1, 3)(0.5, np.ones((1, 2))).tolist() == [[7.0, 8.0]]


def test_a_common_term_is_taken_once_and_a_lost_one_not_at_all():
    recording = record(lambda functions: lambda x: ((x[0] + x[1]) * (x[1] + x[0]), 0.0 * functions.sqrt(x[0])), 2)
    assert [line.operation for line in recording.lines] == ["+", "*", "sqrt"]


@pytest.mark.parametrize("shape", [(8,), (3, 16), (11, 14, 24)])
def test_rows_begin_on_a_cache_line(shape):
    found = aligned_empty(*shape)
    assert found.shape == shape
    assert found.flags.c_contiguous
    assert found.ctypes.data % 64 == 0
