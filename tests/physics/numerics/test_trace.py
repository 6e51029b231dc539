"""What is recorded of a function: its operations in order, each once."""

import numpy as np

from sim.numerics.trace import record


def names(trace):
    return [operation.name for operation in trace.operations]


def test_a_repeated_term_is_recorded_once():
    trace = record(lambda functions: lambda x: ((x[0] + x[1]) * (x[1] + x[0]), functions.sqrt(x[0])), 2)
    assert names(trace) == ["+", "*", "sqrt"]
    again = record(lambda functions: lambda x: (functions.atan(x[0]), functions.atan(x[0]) / x[1]), 2)
    assert names(again) == ["atan", "/"]


def test_order_matters_for_differences_and_quotients():
    trace = record(lambda functions: lambda x: (x[0] - x[1], x[1] - x[0], x[0] / x[1], x[1] / x[0]), 2)
    assert names(trace) == ["-", "-", "/", "/"]


def test_neutral_constants_are_not_recorded():
    def neutral(x):
        return x[0] + 0.0, 0.0 + x[0], x[0] - 0.0, 1.0 * x[0], x[0] / 1.0, 0.0 * x[0], 0.0 / x[0]

    trace = record(lambda functions: neutral, 1)
    assert names(trace) == []
    assert str(trace).splitlines()[-1] == "results: x0, x0, x0, x0, x0, 0.0, 0.0"


def test_arrays_are_constants_and_differ_by_identity():
    first, second = np.ones(3), np.ones(3)
    trace = record(lambda functions: lambda x: (first * x[0], first * x[0], second * x[0]), 1)
    assert names(trace) == ["*", "*"]
    assert str(trace) == "arguments: x0\nx1 = x0 * array\nx2 = x0 * array\nresults: x1, x1, x2"


def test_several_arguments_are_numbered_in_order():
    trace = record(lambda functions: lambda x, y: (x[1] - y[0], -y[1]), 2, 2)
    assert str(trace) == "arguments: x0, x1, x2, x3\nx4 = x1 - x2\nx5 = negative(x3)\nresults: x4, x5"
