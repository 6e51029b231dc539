"""The derivation's first held round against the closed form that `rate` prints."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sim.derivation.rate import derive_rate
from sim.synchronizer.rate import interrupter_rate


@given(
    gun=st.integers(300, 900),
    openings=st.integers(600, 4000),
    blocked=st.integers(1, 15).map(lambda part: Fraction(part, 16)),
)
def test_rate_and_pattern(gun, openings, blocked):
    derived = derive_rate(gun_rounds_per_min=Fraction(gun), openings_per_min=Fraction(openings), blocked_share=blocked)
    closed = interrupter_rate(float(openings), float(gun), blocked=float(blocked))
    for result in derived.results:
        assert result.value == pytest.approx(float(getattr(closed, result.name)), rel=1e-12)
