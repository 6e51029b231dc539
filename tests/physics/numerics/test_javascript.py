"""A trace as JavaScript: the text; that engines compute the same is tested in a browser, tests/screen/page."""

import math

import pytest

from sim.numerics.javascript import javascript
from sim.numerics.scalar_kernel import scalar_kernel
from sim.numerics.trace import record


def test_the_text_is_one_function_that_writes_into_an_array():
    trace = record(lambda functions: lambda x: (x[0] * x[0] + 1.0, functions.sqrt(x[1])), 2)
    assert javascript(trace, "both") == (
        "function both(a,r){let x0=a[0],x1=a[1];r[0]=((x0*x0)+1);r[1]=Math.sqrt(x1);return r}"
    )


def test_a_constant_is_read_as_the_same_double():
    for number in (0.1 + 0.2, -1.0 / 3.0, 5e-324, 1.7976931348623157e308, 2.0**53 + 1.0):
        text = javascript(record(lambda functions, n=number: lambda x: (x[0] + n,), 1), "f")
        written = text.partition("x0+")[2].partition(")")[0].strip("(")
        assert float(written) == number
    infinite = javascript(record(lambda functions: lambda x: (functions.smaller(x[0], -math.inf),), 1), "f")
    assert "Math.min(x0,-Infinity)" in infinite


def test_what_is_not_read_is_not_named():
    assert "a[1]" not in javascript(record(lambda functions: lambda x: (x[0], 2.0), 2), "first")


def choice(functions):
    return lambda x: (
        functions.either(x[0] < x[1], x[0], x[1]) * functions.larger(x[0], 0.5),
        abs(x[0] - 3.0) % x[1],
        functions.atan2(x[0], x[1]) + functions.cos(x[0]) + functions.tan(x[1]) + functions.sin(2.0),
    )


def test_choices_and_remainders_are_recorded():
    kernel = scalar_kernel(record(choice, 2))
    for x, y in ((1.0, 2.0), (0.2, 0.1), (-4.0, 1.5), (9.0, -2.5)):
        wanted = (
            min(x, y) * max(x, 0.5),
            abs(x - 3.0) % y,
            math.atan2(x, y) + math.cos(x) + math.tan(y) + math.sin(2.0),
        )
        assert kernel((x, y)) == pytest.approx(wanted, rel=1e-15)
    text = javascript(record(choice, 2), "f")
    assert "((x0<x1)?x0:x1)" in text
    assert "modulo(Math.abs((x0-3)),x1)" in text


def test_a_function_that_branches_is_refused():
    with pytest.raises(TypeError, match="take larger, smaller or either"):
        record(lambda functions: lambda x: (1.0 if x[0] > 0.5 else x[0],), 1)
