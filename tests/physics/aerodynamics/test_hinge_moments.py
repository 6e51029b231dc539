"""Hinge moments against the pressure of a bent plate, and their limits: all-moving, horn-balanced, of no span."""

import math

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from sim.aerodynamics.hinge_moments import HORN_TIP, OPEN_GAP, hinge_law, plain_slopes, thin_aerofoil_slopes

TAIL = {"flap_span_m": 2.7, "chord_m": 1.15, "whole_m2": 2.7 * 1.15, "section_slope": 5.6}


def by_pressure(share, *, deflected):
    """Return the hinge moment coefficient of a bent plate: its loading, integrated about the hinge."""
    hinge = math.acos(2.0 * share - 1.0)

    def loading(theta):
        """Return half the pressure difference over dynamic pressure, times sin θ, for one radian."""
        whole = 2.0 * (1.0 + math.cos(theta))
        if not deflected:
            return whole
        waves = 2.0 / math.pi * math.log(abs(math.sin(0.5 * (hinge + theta)) / math.sin(0.5 * (hinge - theta))))
        return (1.0 - hinge / math.pi) * whole + waves * math.sin(theta)

    moment, _ = quad(
        lambda theta: loading(theta) * (math.cos(hinge) - math.cos(theta)), hinge, math.pi, epsabs=1e-11, limit=400
    )
    return -0.5 * moment / share**2


@pytest.mark.parametrize("share", [0.13, 0.41, 0.77])
def test_the_slopes_are_moments_of_the_pressure_of_a_bent_plate(share):
    slopes = thin_aerofoil_slopes(share)
    assert slopes.angle_per_rad == pytest.approx(by_pressure(share, deflected=False), rel=1e-9)
    assert slopes.deflection_per_rad == pytest.approx(by_pressure(share, deflected=True), rel=1e-9)


def test_a_plate_about_its_leading_edge_has_a_quarter_of_the_chord_for_an_arm():
    """A whole lift of 2 π there."""
    assert thin_aerofoil_slopes(1.0) == pytest.approx((-0.5 * math.pi, -0.5 * math.pi), rel=1e-12)


def test_a_narrow_flap_feels_no_incidence_and_still_deflection():
    """Near the trailing edge the pressure of incidence falls with the root of the distance, that of a bend does not."""
    wide, narrow = thin_aerofoil_slopes(1e-2), thin_aerofoil_slopes(1e-4)
    assert wide.angle_per_rad / narrow.angle_per_rad == pytest.approx(10.0, rel=0.01)
    assert narrow.deflection_per_rad == pytest.approx(wide.deflection_per_rad, rel=0.05)


def test_an_open_gap_lightens_a_flap_and_does_nothing_to_a_whole_surface():
    for share in (0.3, 0.6):
        sealed, leaking = plain_slopes(share, sealed=True), plain_slopes(share, sealed=False)
        assert leaking.angle_per_rad == pytest.approx(OPEN_GAP[0] * sealed.angle_per_rad)
        assert leaking.deflection_per_rad == pytest.approx(OPEN_GAP[1] * sealed.deflection_per_rad)
    assert plain_slopes(1.0, sealed=True) == plain_slopes(1.0, sealed=False)


def test_a_real_flap_is_lighter_than_that_of_theory_and_heavier_with_its_chord():
    shares = (0.15, 0.3, 0.5, 0.7)
    for share in shares:
        real, theory = plain_slopes(share, sealed=True), thin_aerofoil_slopes(share)
        assert 0.5 < real.angle_per_rad / theory.angle_per_rad < 0.92
        assert 0.7 < real.deflection_per_rad / theory.deflection_per_rad < 0.92
    moments = [plain_slopes(share, sealed=True).deflection_per_rad * share**2 for share in shares]
    assert moments == sorted(moments, reverse=True)


@pytest.mark.parametrize("balance", [0.0, 0.17, 0.4])
def test_a_whole_surface_has_its_lift_at_a_quarter_of_the_chord(balance):
    """Whatever its deflection and whatever made the lift."""
    law = hinge_law(**TAIL, chord_share=1.0, balance_share=balance)
    ahead_m = TAIL["chord_m"] * balance / (1.0 + balance)
    for deflection in (-0.2, 0.0, 0.3):
        moment = law.moment_n_m(230.0, deflection * 640.0)
        assert moment == pytest.approx(-230.0 * (0.25 * TAIL["chord_m"] - ahead_m), rel=1e-12)


def test_a_whole_surface_hinged_at_a_quarter_has_no_moment():
    law = hinge_law(**TAIL, chord_share=1.0, balance_share=1.0 / 3.0)
    assert law.moment_n_m(230.0, 120.0) == pytest.approx(0.0, abs=1e-12)


def by_strips(share, balance, section_incidence, deflection):
    """Return the moment over dynamic pressure of a surface in two strips: a plain one, and one that is all horn."""
    span, chord, slope = TAIL["flap_span_m"], TAIL["chord_m"], TAIL["section_slope"]
    width = balance * share * chord * span / ((1.0 - share) * chord)
    plain = plain_slopes(share, sealed=False)
    flap = plain.angle_per_rad * section_incidence + plain.deflection_per_rad * deflection
    horn = HORN_TIP * slope * (section_incidence + deflection) * (0.75 - share) * chord**2
    return flap * (span - width) * (share * chord) ** 2 + horn * width


@pytest.mark.parametrize("balance", [0.0, 0.06, 0.21])
def test_a_horn_is_a_strip_without_a_fixed_part(balance):
    law = hinge_law(**TAIL, chord_share=0.44, balance_share=balance)
    incidence, deflection, pressure = 0.043, -0.11, 730.0
    lift = pressure * TAIL["whole_m2"] * TAIL["section_slope"] * (incidence + law.effectiveness * deflection)
    found = law.moment_n_m(lift, deflection * pressure)
    assert found == pytest.approx(pressure * by_strips(0.44, balance, incidence, deflection), rel=1e-12)


def test_a_horn_that_balances_wholly_leaves_no_moment_of_deflection():
    """And it takes an area moment of .2 to .35 of that behind the hinge, as horns in use."""

    def slope(balance):
        law = hinge_law(**TAIL, chord_share=0.44, balance_share=balance)
        lift_m2 = 0.62 * TAIL["whole_m2"] * TAIL["section_slope"] * law.effectiveness
        return law.moment_n_m(lift_m2, 1.0)

    whole = brentq(slope, 0.0, 1.0)
    assert slope(whole) == pytest.approx(0.0, abs=1e-9)
    assert slope(0.9 * whole) < 0.0 < slope(1.1 * whole)
    assert 0.2 < whole * (1.0 - 0.44) / 0.44 < 0.35


def test_moments_grow_with_the_cube_of_the_size():
    small = hinge_law(**TAIL, chord_share=0.44, balance_share=0.08)
    twice = {name: value * {"whole_m2": 4.0, "section_slope": 1.0}.get(name, 2.0) for name, value in TAIL.items()}
    large = hinge_law(**twice, chord_share=0.44, balance_share=0.08)
    assert large.moment_n_m(4.0 * 230.0, 61.0) == pytest.approx(8.0 * small.moment_n_m(230.0, 61.0), rel=1e-12)
