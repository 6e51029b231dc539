"""NACA 23012 by thin-airfoil theory.

J. D. Anderson, Fundamentals of Aerodynamics, McGraw-Hill, Example 4.6 (4.2 in early editions). Mark: M, recomputed.

The book forms the moment from A1 = 0.0954 and A2 = 0.0792, rounded to four places; the same integrals done exactly give
0.0955 and 0.0792, so the moment -0.0127 of the book is -0.0128. Its tolerance is that of the two rounded coefficients.
"""

from math import degrees, pi

import pytest

from sim.airframe.section import digits, thin_airfoil


@pytest.fixture(scope="module")
def naca_23012():
    return thin_airfoil(digits("23012"))


def test_zero_lift_angle(naca_23012):
    assert degrees(naca_23012.zero_lift_rad) == pytest.approx(-1.09, abs=0.005)


def test_moment_about_the_quarter_chord(naca_23012):
    assert naca_23012.pitch_quarter_chord == pytest.approx(-0.0127, abs=2.0e-4)


def test_lift_slope(naca_23012):
    assert naca_23012.lift_slope == pytest.approx(2.0 * pi)


def test_lift_coefficient_at_four_degrees(naca_23012):
    angle = pi / 180.0 * 4.0 - naca_23012.zero_lift_rad
    assert naca_23012.lift_slope * angle == pytest.approx(0.559, abs=0.0015)
