"""Sections: friction in its limits, the parabola against least squares, trends, and a measured polar read back."""

import math

import numpy as np
import pytest

from sim.aerodynamics.drag_friction import friction
from sim.aerodynamics.drag_section import (
    DRAG_SHARE_BAND,
    SectionPolar,
    SectionShape,
    estimated_section,
    measured_section,
    shape_of,
)
from sim.airframe.section import digits, outline
from sim.errors import InputError
from sim.numerics.uncertain import Uncertain

SHAPE = SectionShape(thickness=0.117, camber=0.034, camber_place=0.42)


def test_friction_is_blasius_all_laminar_and_prandtls_all_turbulent():
    assert friction(4e5, laminar=1.0) == pytest.approx(1.328 / math.sqrt(4e5), rel=1e-12)
    assert friction(4e5) == pytest.approx(0.455 / math.log10(4e5) ** 2.58, rel=1e-12)


def test_friction_agrees_with_the_logarithmic_law():
    """Schoenherr's law, solved here: 0.242 / √cf = log10(R cf)."""
    for reynolds in (1e6, 1e7, 1e8):
        law = 0.003
        for _ in range(60):
            law = (0.242 / math.log10(reynolds * law)) ** 2
        assert friction(reynolds) == pytest.approx(law, rel=0.04)


def test_friction_falls_with_reynolds_number_and_with_laminar_length():
    found = [friction(reynolds, laminar=0.2) for reynolds in (2e5, 1e6, 5e6, 2e7)]
    assert found == sorted(found, reverse=True)
    shares = [friction(3e6, laminar=share) for share in (0.0, 0.05, 0.3, 0.6, 1.0)]
    assert shares == sorted(shares, reverse=True)


@pytest.mark.parametrize(
    ("name", "thickness", "camber", "place"),
    [("2412", 0.12, 0.02, 0.4), ("6309", 0.09, 0.06, 0.3), ("0015", 0.15, 0.0, 0.5)],
)
def test_thickness_and_camber_are_those_of_the_digits(name, thickness, camber, place):
    found = shape_of(digits(name))
    assert (found.thickness, found.camber) == (pytest.approx(thickness, abs=3e-4), pytest.approx(camber, abs=1e-5))
    assert found.camber_place == pytest.approx(place, abs=2e-3)


def test_the_shape_by_points_is_that_by_digits():
    section = digits("4411")
    round_it = [*zip(*section.upper[:, ::-1], strict=True), *zip(*section.lower[:, 1:], strict=True)]
    found, expected = shape_of(outline([(float(x), float(y)) for x, y in round_it])), shape_of(section)
    assert found.thickness == pytest.approx(expected.thickness, rel=0.005)
    assert found.camber == pytest.approx(expected.camber, rel=0.05), "its nose is the foremost point, a hair above"


def test_lift_at_the_stall_grows_with_camber_and_reynolds_number():
    by_camber = [estimated_section(SectionShape(0.1, f, 0.4), 2e6, laminar=0.1) for f in (0.0, 0.02, 0.04, 0.06)]
    by_reynolds = [estimated_section(SHAPE, reynolds, laminar=0.1) for reynolds in (2e5, 1e6, 3e6, 9e6)]
    for found in (by_camber, by_reynolds):
        lifts = [one.section_lift_max.value for one in found]
        assert lifts == sorted(lifts)
        assert len(set(lifts)) == 4
    same = [estimated_section(SHAPE, reynolds, laminar=0.1).section_lift_max for reynolds in (9e6, 4e7)]
    assert same[0] == same[1], "no further gain is claimed"


def test_drag_grows_with_thickness_and_camber_and_falls_with_laminar_flow():
    def least(thickness, camber, laminar):
        return estimated_section(SectionShape(thickness, camber, 0.4), 3e6, laminar=laminar).section_drag_min.value

    assert least(0.18, 0.02, 0.1) > least(0.12, 0.02, 0.1) > least(0.12, 0.0, 0.1) > least(0.12, 0.0, 0.4)
    flat = estimated_section(SectionShape(0.03, 0.0, 0.5), 3e6, laminar=0.0).section_drag_min.value
    assert flat == pytest.approx(2.0 * friction(3e6), rel=0.07), "a thin section is two sides of a plate"


def test_the_parabola_without_linear_term_is_that_of_least_squares():
    """Against a fit of cd = a + b cl² to the section's own parabola at many points from cl 0 to 1."""
    polar = SectionPolar(Uncertain(1.4), Uncertain(0.0093), Uncertain(0.0071), 0.27)
    lift = (np.arange(4000) + 0.5) / 4000.0
    drag = 0.0093 + 0.0071 * (lift - 0.27) ** 2
    (a, b), *_ = np.linalg.lstsq(np.column_stack((np.ones_like(lift), lift**2)), drag, rcond=None)
    assert (polar.at_zero_lift.value, polar.rise.value) == (pytest.approx(a, rel=1e-5), pytest.approx(b, rel=1e-5))


def test_a_measured_polar_gives_its_own_parabola_back():
    lift = [-0.2, 0.0, 0.22, 0.43, 0.65, 0.86, 1.05, 1.21, 1.31, 1.18]
    points = [(2.0 * place - 4.0, cl, 0.0117 + 0.0083 * (cl - 0.31) ** 2) for place, cl in enumerate(lift)]
    points[8] = (points[8][0], 1.31, 0.03)  # at the stall drag leaves the parabola, which must not see it
    found = measured_section(points)
    assert found.section_lift_max == Uncertain(1.31, pytest.approx(0.05))
    assert found.section_drag_min.value == pytest.approx(0.0117, rel=1e-9)
    assert found.section_drag_rise.value == pytest.approx(0.0083, rel=1e-9)
    assert found.section_lift_best == pytest.approx(0.31, rel=1e-9)
    rough = [(alpha, cl, cd + (0.0004 if place % 2 else -0.0004)) for place, (alpha, cl, cd) in enumerate(points)]
    assert 0.0002 < measured_section(rough).section_drag_min.band < 0.0005


@pytest.mark.parametrize(
    ("points", "what"),
    [
        ([(0, 0.2, 0.01), (0, 0.4, 0.011)], "section.polar: must have incidence rising from row to row"),
        (
            [(0, 0.2, 0.01), (4, 0.6, 0.011), (8, 1.0, 0.014), (12, 1.3, 0.02)],
            "section.polar: must have at least 4 rows with a lift from 0 to 0.8 of the largest",
        ),
    ],
)
def test_a_polar_that_is_none_is_refused(points, what):
    with pytest.raises(InputError) as caught:
        measured_section(points)
    assert str(caught.value) == what


# thickness, camber, then least drag at Reynolds numbers 1e6, 3e6, 6e6: NeuralFoil 0.3.3, a general-purpose library
# trained on XFOIL, model "xlarge", n_crit 9, transition forced at 5 % of the chord on both sides
FORCED = {
    "0006": (0.06, 0.00, 0.00946, 0.00775, 0.00688),
    "0009": (0.09, 0.00, 0.01022, 0.00835, 0.00741),
    "0012": (0.12, 0.00, 0.01100, 0.00898, 0.00797),
    "0018": (0.18, 0.00, 0.01279, 0.01043, 0.00924),
    "2406": (0.06, 0.02, 0.00948, 0.00778, 0.00694),
    "2412": (0.12, 0.02, 0.01106, 0.00904, 0.00804),
    "4406": (0.06, 0.04, 0.00977, 0.00805, 0.00722),
    "4412": (0.12, 0.04, 0.01125, 0.00920, 0.00819),
    "6406": (0.06, 0.06, 0.01051, 0.00860, 0.00772),
    "6412": (0.12, 0.06, 0.01181, 0.00964, 0.00861),
}


@pytest.mark.parametrize("name", FORCED)
def test_least_drag_is_that_of_an_independent_computation(name):
    thickness, camber, *drags = FORCED[name]
    for reynolds, drag in zip((1e6, 3e6, 6e6), drags, strict=True):
        found = estimated_section(SectionShape(thickness, camber, 0.4), reynolds, laminar=0.05).section_drag_min
        assert found.value == pytest.approx(drag, rel=0.09)
    assert shape_of(digits(name)).thickness == pytest.approx(thickness, abs=5e-4)


def test_the_independent_computation_lies_within_our_band():
    errors = [
        estimated_section(SectionShape(thickness, camber, 0.4), reynolds, laminar=0.05).section_drag_min.value / drag
        - 1.0
        for thickness, camber, *drags in FORCED.values()
        for reynolds, drag in zip((1e6, 3e6, 6e6), drags, strict=True)
    ]
    assert 0.3 * DRAG_SHARE_BAND < math.sqrt(sum(error**2 for error in errors) / len(errors)) < DRAG_SHARE_BAND
