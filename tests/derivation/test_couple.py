"""Newton's law for one piece of the rotor gives the couple that `sim.rotor.couple` computes."""

import pytest
import sympy as sp
from hypothesis import given
from hypothesis import strategies as st

from sim.derivation.couple import (
    ANGLE,
    MEAN_MOMENT,
    MOMENTUM,
    PIECE,
    PIECE_MOMENT,
    PITCH_RATE,
    RADIUS,
    SPIN,
    YAW_RATE,
    derive_couple,
)
from sim.rotor.couple import couple, two_blade_factors

RATES = st.floats(-3.0, 3.0)


def test_the_mean_moment_is_minus_omega_cross_h():
    omega, momentum = sp.Matrix([0, PITCH_RATE, YAW_RATE]), sp.Matrix([MOMENTUM, 0, 0])
    assert sp.simplify(MEAN_MOMENT + omega.cross(momentum)) == sp.zeros(3, 1)


@pytest.mark.parametrize("angle", [0.0, 0.3, 1.2, 2.9])
def test_a_pair_of_blades_pulses_as_the_factors_say(angle):
    """In a pure yaw: 1 − cos 2x about the axis of the mean couple; the blade angle is taken from the right wing."""
    numbers = {PIECE: 2.0, RADIUS: 1.5, SPIN: 100.0, PITCH_RATE: 0.0, YAW_RATE: 0.4, ANGLE: angle}
    _, pitch, yaw = (float(part) for part in PIECE_MOMENT.subs(numbers))
    mean = -2.0 * 1.5**2 * 100.0 * 0.4
    along, across = two_blade_factors(angle)
    assert (pitch, yaw) == pytest.approx((mean * along, mean * across), abs=1e-9)


@given(inertia=st.floats(0.1, 100.0), spin=st.floats(-400.0, 400.0), pitch=RATES, yaw=RATES)
def test_the_numbers_are_those_of_the_couple_study(inertia, spin, pitch, yaw):
    derived = derive_couple(polar_inertia_kg_m2=inertia, spin_rad_s=spin, pitch_rate_rad_s=pitch, yaw_rate_rad_s=yaw)
    direct = couple(inertia * spin, pitch_rate_rad_s=pitch, yaw_rate_rad_s=yaw)
    for result in derived.results:
        assert result.value == pytest.approx(getattr(direct, result.name), rel=1e-12, abs=1e-300)
