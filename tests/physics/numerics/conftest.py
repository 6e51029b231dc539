"""A function with every operation, for the kernels."""

import pytest


def build(functions):
    """Return a function with every operation, from both sides, a repeated term and terms that vanish."""

    def evaluate(x):
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

    return evaluate


@pytest.fixture
def every_operation():
    return build
