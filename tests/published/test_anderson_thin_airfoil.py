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


def test_zero_lift_angle(naca_23012, printed):
    printed(degrees(naca_23012.zero_lift_rad), "-1.09", "°", row="zero-lift angle")


def test_moment_about_the_quarter_chord(naca_23012, printed):
    why = "the book's coefficients are rounded to four places"
    printed(naca_23012.pitch_quarter_chord, "-0.0127", row="moment about the quarter chord", within=2.0e-4, why=why)


def test_lift_slope(naca_23012):
    assert naca_23012.lift_slope == pytest.approx(2.0 * pi)


def test_lift_coefficient_at_four_degrees(naca_23012, printed):
    angle = pi / 180.0 * 4.0 - naca_23012.zero_lift_rad
    printed(naca_23012.lift_slope * angle, "0.559", row="lift coefficient at 4°")
