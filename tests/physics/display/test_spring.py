"""The chosen spring keeps every limit, is the lightest that does, and works as its sizes say."""

import math

import numpy as np
import pytest

from sim.display import spring
from sim.display.spring import SpringRequirements, choose, rate, shear_stress, tensile_strength, wahl_factor, wound

WISH = SpringRequirements(4.0, 500.0, 0.006, 0.012, 0.040)


def keeps(wish, made):
    low, high = spring.INDEX_RANGE
    return (
        abs(made.rate_n_per_m / wish.rate_n_per_m - 1.0) <= spring.RATE_TOLERANCE
        and low <= made.index <= high
        and made.stress_pa <= made.allowed_stress_pa
        and made.solid_safety >= spring.SOLID_SAFETY
        and made.fatigue_safety >= spring.FATIGUE_SAFETY
        and made.outer_m <= wish.outer_space_m
        and made.free_length_m <= wish.length_space_m
        and made.slenderness <= spring.SLENDERNESS_LIMIT
        and made.energy_j <= spring.ENERGY_LIMIT_J
        and made.clash_allowance >= spring.CLASH_ALLOWANCE
    )


def volume(made):
    return made.wire_m**2 * made.coil_m * (made.active_coils + 2.0)


@pytest.mark.parametrize("rate_n_per_m", [400.0, 500.0, 900.0])
def test_no_lighter_spring_of_the_table_keeps_every_limit(rate_n_per_m):
    wish = SpringRequirements(4.0, rate_n_per_m, 0.006, 0.012, 0.040)
    best = choose(wish)
    assert keeps(wish, best)
    others = (
        wound(wish, wire / 1e3, coil, active)
        for wire in spring.WIRES_MM
        for coil in np.arange(0.002, 0.0121, 0.0005)
        for active in np.arange(3.0, 15.25, 0.5)
        if volume(best) * (1.0 - 1e-9) > (wire / 1e3) ** 2 * coil * (active + 2.0) and coil > 1.5 * wire / 1e3
    )
    assert not [other for other in others if keeps(wish, other)]


def test_the_energy_is_the_work_of_compression():
    made = choose(WISH)
    way = np.linspace(0.0, made.full_force_n / made.rate_n_per_m, 10_001)
    assert np.trapezoid(made.rate_n_per_m * way, way) == pytest.approx(made.energy_j)
    assert made.rise_energy_j == pytest.approx((made.preload_n + made.full_force_n) / 2.0 * WISH.travel_m)


def test_lengths_add_up():
    made = choose(WISH)
    working = made.full_force_n / made.rate_n_per_m
    assert made.free_length_m - working - made.solid_length_m == pytest.approx(made.clash_allowance * working)
    assert (made.free_length_m * 2000.0) % 1.0 == pytest.approx(0.0, abs=1e-9)


def test_a_wish_no_wire_can_meet_still_gets_the_nearest_spring():
    made = choose(SpringRequirements(25.0, 800.0, 0.006, 0.008, 0.015))
    assert not keeps(SpringRequirements(25.0, 800.0, 0.006, 0.008, 0.015), made)


def test_rate_and_stress_scale_as_their_powers():
    assert rate(0.002, 0.01, 5.0) == pytest.approx(16.0 * rate(0.001, 0.01, 5.0))
    assert rate(0.001, 0.02, 5.0) == pytest.approx(rate(0.001, 0.01, 5.0) / 8.0)
    slender = shear_stress(10.0, 0.001, 1.0)
    assert slender == pytest.approx(8.0 * 10.0 * 1.0 / (math.pi * 1e-9), rel=0.002)
    assert wahl_factor(1e6) == pytest.approx(1.0, abs=1e-5)


def test_thinner_wire_is_stronger():
    assert np.all(np.diff(tensile_strength(np.array(spring.WIRES_MM) / 1e3)) < 0.0)
    assert tensile_strength(0.001) == pytest.approx(2211e6)
