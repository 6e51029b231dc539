"""Load cases of a wing: what a category asks for, what a user puts in its place, and gusts that the stall limits."""

from dataclasses import replace
from math import sqrt

import pytest

from sim.structures.wing_cases import WingLoading, gust_increment, wing_cases

LOADING = WingLoading(mass_kg=640.0, area_m2=22.5, chord_m=1.37, lift_max=1.35, lift_slope=4.1)


def by_name(loading):
    return {case.name: case for case in wing_cases(loading)}


def test_pull_ups_and_the_stall():
    cases = by_name(LOADING)
    pull = cases["pull-up at VA"]
    lift = 0.5 * 1.225 * pull.speed_m_s**2 * LOADING.area_m2 * LOADING.lift_max
    assert lift == pytest.approx(pull.load_factor * LOADING.mass_kg * 9.80665, rel=1e-12)
    assert (pull.load_factor, cases["push-over at VC"].load_factor) == (3.8, pytest.approx(-1.52))
    assert cases["dive without lift"].load_factor == 0.0


def test_speeds_of_the_category():
    """33 √(W/S) knots with W/S in lb/ft², and 1.4 times that; acrobatic 36 and 1.55."""
    root = sqrt(640.0 / 0.45359237 / (22.5 / 0.3048**2)) * 1852.0 / 3600.0
    normal, acrobatic = LOADING, replace(LOADING, category="acrobatic")
    assert (normal.cruising_m_s, normal.diving_m_s) == pytest.approx((33.0 * root, 1.4 * 33.0 * root))
    assert (acrobatic.cruising_m_s, acrobatic.diving_m_s) == pytest.approx((36.0 * root, 1.55 * 36.0 * root))
    assert (acrobatic.up, acrobatic.down) == (6.0, 3.0)


def test_factors_of_the_speeds_fall_with_the_wing_loading():
    """At 60 lb/ft², midway from 20 to 100: (33 + 28.6)/2 knots times √60, and (1.4 + 1.35)/2 times that."""
    heavy = replace(LOADING, mass_kg=60.0 * 0.45359237 / 0.3048**2 * 22.5)
    cruise = 0.5 * (33.0 + 28.6) * sqrt(60.0) * 1852.0 / 3600.0
    assert (heavy.cruising_m_s, heavy.diving_m_s) == pytest.approx((cruise, 1.375 * cruise), rel=1e-9)
    slow = replace(heavy, cruise_m_s=0.5 * cruise, dive_m_s=cruise)
    assert (slow.least_cruise_m_s, slow.least_dive_m_s) == pytest.approx((cruise, 1.375 * cruise), rel=1e-9)


def test_what_is_given_goes_before_the_category():
    given = replace(LOADING, load_factor=4.7, negative_load_factor=2.1, cruise_m_s=44.0, dive_m_s=58.0)
    cases = by_name(given)
    assert (cases["pull-up at VD"].load_factor, cases["pull-up at VD"].speed_m_s) == (4.7, 58.0)
    assert (cases["push-over at VC"].load_factor, cases["push-over at VC"].speed_m_s) == (-2.1, 44.0)


def test_a_gust_lifts_no_harder_than_the_stall():
    slow = replace(LOADING, cruise_m_s=30.0, dive_m_s=60.0)
    assert 1.0 + gust_increment(slow, 15.24, 30.0) > slow.up * (30.0 / slow.manoeuvring_m_s) ** 2
    stall = slow.up * (30.0 / slow.manoeuvring_m_s) ** 2
    assert by_name(slow)["gust up at VC"].load_factor == pytest.approx(stall)
    assert by_name(slow)["gust up at VD"].load_factor == pytest.approx(1.0 + gust_increment(slow, 7.62, 60.0))


def test_a_roll_has_less_on_one_side_and_landing_the_weight_of_the_wing():
    cases = by_name(LOADING)
    assert (cases["roll to the right at VA"].right_share, cases["roll to the left at VA"].left_share) == (0.75, 0.75)
    assert cases["landing"].inertia_factor == 2.67
    assert cases["landing"].load_factor == pytest.approx(2.0 / 3.0)
