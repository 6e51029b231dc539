from math import cos, degrees, pi, sin

import numpy as np
import pytest

from sim.airframe.section import area, digits, outline, thin_airfoil
from sim.errors import InputError


def ring(count, thickness=0.12, camber=0.0):
    """Return a closed outline from the trailing edge over the top and back: an ellipse about a parabola."""
    angles = np.linspace(0.0, 2.0 * pi, count)
    x = 0.5 * (1.0 + np.cos(angles))
    return [
        (float(px), float(0.5 * thickness * np.sin(a) + 4.0 * camber * px * (1.0 - px)))
        for px, a in zip(x, angles, strict=True)
    ]


def test_a_symmetrical_section_has_no_zero_lift_angle_and_no_moment():
    thin = thin_airfoil(digits("0015"))
    assert (thin.zero_lift_rad, thin.pitch_quarter_chord) == (0.0, 0.0)


def test_a_parabolic_mean_line_has_the_closed_form():
    """Camber f: zero lift at -2 f, moment -pi f about the quarter chord."""
    thin = thin_airfoil(outline(ring(2001, camber=0.03)))
    assert thin.zero_lift_rad == pytest.approx(-0.06, abs=1e-6)
    assert thin.pitch_quarter_chord == pytest.approx(-pi * 0.03, abs=1e-5)


def test_camber_adds_up():
    one, two = (thin_airfoil(digits(number)) for number in ("2412", "4412"))
    assert two.zero_lift_rad == pytest.approx(2.0 * one.zero_lift_rad, rel=1e-12)


def test_thin_airfoil_of_a_four_digit_line_against_quadrature():
    from scipy.integrate import quad

    m, p = 0.02, 0.4

    def slope(x):
        return 2.0 * m / (p if x < p else 1.0 - p) ** 2 * (p - x)

    meet = np.arccos(1.0 - 2.0 * p)
    whole = sum(
        quad(lambda t: slope(0.5 * (1.0 - cos(t))) * (1.0 - cos(t)), low, high, epsabs=1e-13)[0]
        for low, high in ((0.0, meet), (meet, pi))
    )
    assert thin_airfoil(digits("2412")).zero_lift_rad == pytest.approx(whole / pi, abs=1e-7)


def test_a_reflexed_line_has_no_moment():
    """NACA Report 537 chose the reflexed lines for no moment about the quarter chord."""
    assert abs(thin_airfoil(digits("23112")).pitch_quarter_chord) < 1.5e-3
    assert abs(thin_airfoil(digits("23012")).pitch_quarter_chord) > 1e-2


def test_an_ellipse_has_its_area_and_its_middle():
    found = area(outline(ring(4001)))
    assert found.section_area == pytest.approx(pi * 0.5 * 0.06, rel=1e-5)
    assert (found.centroid_x, found.centroid_y) == pytest.approx((0.5, 0.0), abs=1e-9)


def test_area_of_the_basic_thickness_form_is_the_integral_of_its_formula():
    coefficients = 0.2969 / 1.5 - 0.1260 / 2.0 - 0.3516 / 3.0 + 0.2843 / 4.0 - 0.1015 / 5.0
    assert area(digits("0012")).section_area == pytest.approx(10.0 * 0.12 * coefficients, rel=1e-5)


def test_a_list_gives_back_the_section_it_was_taken_from():
    made = digits("4412")
    points = [*zip(*made.upper[:, ::-20], strict=True), *zip(*made.lower[:, 20::20], strict=True)]
    again = outline(points)
    assert again.depth(0.3) == pytest.approx(made.depth(0.3), abs=1e-4)
    assert degrees(thin_airfoil(again).zero_lift_rad) == pytest.approx(
        degrees(thin_airfoil(made).zero_lift_rad), abs=0.08
    )


def test_a_list_may_be_in_any_unit_and_off_the_origin():
    plain = outline(ring(101))
    moved = outline([(7.0 + 60.0 * x, 3.0 + 60.0 * y) for x, y in ring(101)])
    assert moved.depth(0.4) == pytest.approx(plain.depth(0.4), rel=1e-12)


@pytest.mark.parametrize(
    ("bad", "sentence"),
    [
        ("NACA 6", 'section.naca: must be a NACA four- or five-digit number such as 2412 or 23012, got "NACA 6"'),
        ("2012", 'section.naca: must be a NACA four- or five-digit number such as 2412 or 23012, got "2012"'),
        ("23600", 'section.naca: must be a NACA four- or five-digit number such as 2412 or 23012, got "23600"'),
    ],
)
def test_other_families_are_refused(bad, sentence):
    with pytest.raises(InputError) as caught:
        digits(bad)
    assert str(caught.value) == sentence


@pytest.mark.parametrize(
    ("points", "sentence"),
    [
        (ring(5), "section.points: needs at least 7 points round the section, got 5"),
        (
            [(sin(k), cos(k)) for k in range(9)],
            (
                "section.points: must run from the trailing edge over the top to the leading edge and back below, "
                "x falling then rising"
            ),
        ),
        (
            [(x, 500.0 * y) for x, y in ring(21)],
            "section.points: must be longer than deep: x along the chord first, y across it second",
        ),
        (ring(21)[::-1], "section.points: the lower surface lies above the upper one at 2.45 % of the chord"),
    ],
)
def test_lists_that_are_no_section_are_refused(points, sentence):
    with pytest.raises(InputError) as caught:
        outline(points)
    assert str(caught.value) == sentence
