"""The kernel on arrays gives what the recorded function gives, flight by flight."""

import numpy as np
import pytest

from sim.numerics.array_kernel import ArrayKernel, aligned_empty
from sim.numerics.number import ARRAY_MATH
from sim.numerics.trace import record


def test_widths_one_after_the_other(every_operation):
    kernel = ArrayKernel(record(lambda functions: lambda x: every_operation(functions)(x)[:3], 3))
    for width in (1, 8, 5, 8):
        rows = np.random.default_rng(width).normal(size=(3, width))
        assert kernel(0.0, rows) == pytest.approx(np.array(every_operation(ARRAY_MATH)(rows)[:3]), rel=1e-15)


def test_a_result_is_not_changed_by_the_next_call():
    kernel = ArrayKernel(record(lambda functions: lambda x: (x[0] * x[0],), 1))
    first = kernel(0.0, np.array([[2.0, 3.0]]))
    kernel(0.0, np.array([[5.0, 6.0]]))
    assert first.tolist() == [[4.0, 9.0]]


def test_constant_arrays_are_cut_with_the_columns():
    factor = np.arange(6.0)
    kernel = ArrayKernel(record(lambda functions: lambda x: (factor * x[0] + 1.0,), 1))
    assert kernel(0.0, np.full((1, 6), 2.0)).tolist() == [[1.0, 3.0, 5.0, 7.0, 9.0, 11.0]]
    assert kernel.columns(2, 4)(0.0, np.full((1, 2), 2.0)).tolist() == [[5.0, 7.0]]


def test_inputs_are_functions_of_time_with_numbers_or_arrays():
    def inputs(t):
        return 10.0 * t, np.arange(4.0)

    kernel = ArrayKernel(record(lambda functions: lambda x, y: (x[0] + y[0] + y[1],), 1, 2), inputs)
    assert kernel(0.5, np.ones((1, 4))).tolist() == [[6.0, 7.0, 8.0, 9.0]]
    assert kernel.columns(1, 3)(0.5, np.ones((1, 2))).tolist() == [[7.0, 8.0]]


def test_a_buffer_is_used_again_after_its_last_reader_but_never_a_result():
    trace = record(lambda functions: lambda x: (x[0] * x[0], functions.sqrt((x[0] + 1.0) * x[0]) - 2.0), 1)
    assert str(ArrayKernel(trace)).splitlines() == [
        "multiply(x0, x0, out=b0)",
        "add(x0, 1.0, out=b1)",
        "multiply(b1, x0, out=b1)",
        "sqrt(b1, out=b1)",
        "subtract(b1, 2.0, out=b1)",
        "results: b0, b1",
    ]


@pytest.mark.parametrize("shape", [(8,), (3, 16), (11, 14, 24)])
def test_rows_begin_on_a_cache_line(shape):
    found = aligned_empty(*shape)
    assert found.shape == shape
    assert found.flags.c_contiguous
    assert found.ctypes.data % 64 == 0
