"""Formulas of their own beside the lattice: induced drag of several planes, flaps, bodies, strips of the textbooks."""

import math

import pytest
from scipy.integrate import quad
from scipy.special import j1
from strip_formulas import aileron_power, dihedral_effect, lift_slope, roll_damping, rolling_slope, sweep_effect

from sim.aerodynamics.biplane import equivalent_span, interference
from sim.aerodynamics.body import apparent_mass_factor, body_moment_volume
from sim.aerodynamics.lifting_surface import flap_effectiveness


@pytest.mark.parametrize(("spans", "gap"), [((1.0, 1.0), 0.15), ((1.0, 0.6), 0.2), ((0.8, 1.0), 0.4)])
def test_interference_is_the_wake_integral(spans, gap):
    s, t = spans[0] / 2, spans[1] / 2
    wake = quad(lambda x: j1(s * x) * j1(t * x) * math.exp(-gap * x) / x, 0.0, 120.0, limit=400)[0]
    assert interference(*spans, gap) == pytest.approx(2.0 * wake, rel=1e-8)


def test_two_planes_without_a_gap_are_one_and_far_apart_are_two():
    assert equivalent_span([1, 1], [0, 1e-9], [0.5, 0.5]) == pytest.approx(1.0, rel=2e-3)
    assert equivalent_span([1, 1], [0, 1e4], [0.5, 0.5]) == pytest.approx(math.sqrt(2.0), rel=1e-6)


def test_a_third_plane_in_the_gap_adds_little_and_beyond_it_more():
    two = equivalent_span([1, 1], [0, 0.2], [0.5, 0.5])
    three = equivalent_span([1, 1, 1], [0, 0.1, 0.2], [1 / 3] * 3)
    wide = equivalent_span([1, 1, 1], [0, 0.2, 0.4], [1 / 3] * 3)
    assert two < three < wide
    assert three - two < 0.2 * (wide - two)


def test_a_flap_of_the_whole_chord_turns_the_whole_surface_but_for_its_loss():
    assert flap_effectiveness(1.0) == pytest.approx(0.8)
    assert flap_effectiveness(0.0) == pytest.approx(0.0, abs=1e-12)


def test_strips_summed_by_quadrature():
    taper, dihedral, share = 0.5, 0.1, 0.4

    def chord(y):  # of a half wing of length 1 and mean chord 1
        return 2.0 / (1.0 + taper) * (1.0 - (1.0 - taper) * y)

    roll = quad(lambda y: chord(y) * y * y, 0.0, 1.0)[0] / 2.0
    slip = quad(lambda y: chord(y) * y, 0.0, 1.0)[0] / 2.0
    assert roll_damping(4.0, taper) == pytest.approx(-4.0 * roll, rel=1e-12)
    assert dihedral_effect(4.0, dihedral, taper) == pytest.approx(-4.0 * dihedral * slip, rel=1e-12)
    assert aileron_power(4.0, share, 0.5, 0.9) == pytest.approx(-4.0 * share * quad(lambda y: y, 0.5, 0.9)[0] / 2)
    assert sweep_effect(0.4, 0.0) == 0.0


def test_slopes_approach_the_section_for_a_long_wing_and_half_pi_aspect_for_a_short_one():
    assert lift_slope(6.0, 1e9) == pytest.approx(6.0)
    assert lift_slope(6.0, 1e-6) == pytest.approx(math.pi * 1e-6, rel=1e-5)
    assert rolling_slope(6.0, 8.0) == lift_slope(6.0, 4.0)


def test_a_needle_has_the_cylinder_s_apparent_mass_and_a_sphere_none():
    assert apparent_mass_factor(1e3) == pytest.approx(1.0, abs=1e-4)
    assert apparent_mass_factor(1.0 + 1e-3) == pytest.approx(0.0, abs=2e-3)
    assert body_moment_volume(1000.0, 1.0) == pytest.approx(math.pi / 3 * 1000.0, rel=1e-4)
