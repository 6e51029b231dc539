"""Sums and products of uncertain numbers: against draws of the same numbers, and by hand."""

import math

import numpy as np
import pytest

from sim.numerics.uncertain import Uncertain, total

LENGTH, FACTOR, OFFSET = Uncertain(3.7, 0.11), Uncertain(-1.9, 0.07), Uncertain(0.83, 0.25)


def test_a_product_and_a_sum_have_the_spread_of_their_draws():
    draws = np.random.default_rng(4).normal(size=(3, 400_000))
    length, factor, offset = (
        one.value + one.band * row for one, row in zip((LENGTH, FACTOR, OFFSET), draws, strict=True)
    )
    found = LENGTH * FACTOR + OFFSET
    assert found.value == pytest.approx(3.7 * -1.9 + 0.83)
    assert found.band == pytest.approx(np.std(length * factor + offset), rel=0.01)


def test_a_plain_factor_scales_both_and_never_makes_a_negative_deviation():
    turned = LENGTH * -2.0
    assert (turned.value, turned.band) == (-7.4, 0.22)
    assert Uncertain(-4.0, 0.5).relative == 0.125


def test_a_total_adds_variances():
    found = total([Uncertain(1.0, 2.0), Uncertain(5.0, 3.0), Uncertain(-2.0, 6.0)])
    assert (found.value, found.band) == (4.0, pytest.approx(math.sqrt(4.0 + 9.0 + 36.0)))
    assert total([]) == Uncertain(0.0, 0.0)
