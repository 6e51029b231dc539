"""The compiled function of floats gives what the recorded function gives."""

import math

import pytest

from sim.numerics.scalar_kernel import scalar_kernel, source
from sim.numerics.trace import record

POINT = (3.0, -4.0, 0.7)


def test_gives_the_value_of_the_function_itself(every_operation):
    assert scalar_kernel(record(every_operation, 3))(POINT) == pytest.approx(every_operation(math)(POINT), rel=1e-15)


def test_a_term_used_once_stands_where_it_is_used_and_one_used_twice_has_a_name():
    trace = record(lambda functions: lambda x: ((x[0] + 1.0) * x[1], functions.sqrt(x[0] * x[1]) - x[0] * x[1]), 2)
    assert source(trace).splitlines()[2:] == [
        "    x4 = (x0 * x1)",
        "    return (((x0 + 1.0) * x1), (sqrt(x4) - x4),)",
    ]
