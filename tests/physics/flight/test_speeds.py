from dataclasses import replace
from math import sqrt

import pytest

from sim.aerodynamics.polar import Polar
from sim.errors import NoAnswerError
from sim.flight.speeds import speeds

POLAR = Polar(
    area_m2=24.0,
    span_m=9.0,
    chord_m=1.35,
    aspect_ratio=5.5,
    span_efficiency=0.75,
    drag_zero_lift=0.045,
    lift_zero=0.3,
    lift_max=1.35,
)
WEIGHT_N, SEA_LEVEL = 6200.0, 1.225


def at(power_w=70e3, polar=POLAR, density=SEA_LEVEL, cruise_share=0.7):
    return speeds(
        polar,
        weight_n=WEIGHT_N,
        density_kg_m3=density,
        full_thrust_n=lambda speed_m_s: 0.7 * power_w / speed_m_s,
        cruise_thrust_n=lambda speed_m_s: 0.7 * power_w * cruise_share / speed_m_s,
    )


def needed_w(speed_m_s, polar=POLAR, density=SEA_LEVEL):
    return polar.drag_n(WEIGHT_N, density, speed_m_s) * speed_m_s


def test_at_the_stall_the_greatest_lift_carries_the_weight():
    stall = at().stall_m_s
    assert 0.5 * SEA_LEVEL * stall**2 * 24.0 * 1.35 == pytest.approx(WEIGHT_N)


def test_at_top_and_cruise_speed_the_power_is_just_used_up():
    found = at()
    assert needed_w(found.top_m_s) == pytest.approx(0.7 * 70e3, rel=1e-9)
    assert needed_w(found.cruise_m_s) == pytest.approx(0.7 * 0.7 * 70e3, rel=1e-9)


def test_the_best_climb_at_constant_power_is_flown_at_the_least_power():
    """The least of the power curve in closed form: CL = sqrt(3 CD0 / k)."""
    slow = replace(POLAR, lift_max=3.0)
    lift = sqrt(3.0 * slow.drag_zero_lift / slow.induced)
    best = sqrt(2.0 * WEIGHT_N / (SEA_LEVEL * slow.area_m2 * lift))
    found = at(polar=slow)
    assert found.best_climb_m_s == pytest.approx(best, rel=1e-6)
    assert found.climb_rate_m_s == pytest.approx((0.7 * 70e3 - needed_w(best, slow)) / WEIGHT_N, rel=1e-9)


def test_the_best_glide_is_the_closed_form_or_bound_by_the_stall():
    assert POLAR.lift_drag_max == pytest.approx(0.5 / sqrt(POLAR.drag_zero_lift * POLAR.induced))
    bound = replace(POLAR, lift_max=0.3)
    assert bound.lift_drag_max == pytest.approx(0.3 / (0.045 + bound.induced * 0.09))


def test_true_speeds_of_the_stall_grow_as_the_air_thins():
    assert at(density=0.9).stall_m_s == pytest.approx(at().stall_m_s * sqrt(SEA_LEVEL / 0.9))
    assert at(density=0.9).climb_rate_m_s < at().climb_rate_m_s


def test_more_power_never_slows_the_airplane():
    tops = [at(power_w).top_m_s for power_w in (40e3, 60e3, 80e3, 100e3)]
    assert tops == sorted(tops)


def test_a_cruise_power_that_does_not_carry_has_no_cruise():
    assert at(cruise_share=0.2).cruise_m_s is None


def test_too_little_power_says_what_is_short():
    with pytest.raises(NoAnswerError) as caught:
        at(power_w=20e3)
    assert str(caught.value) == (
        "full power does not sustain level flight: the least deficit is 1.1 kW (1.4 hp), at 17.9 m/s (39.9 mph); "
        "reduce the weight, fly lower or give more power"
    )
