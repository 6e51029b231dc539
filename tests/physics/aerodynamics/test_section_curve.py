"""The curve of a section at every angle: the line while attached, its largest lift, and drag at all of them."""

import math

import numpy as np
import pytest

from sim.aerodynamics.section_curve import SectionCurve, section_coefficients
from sim.numerics.number import ARRAY_MATH

CAMBERED = SectionCurve(
    lift_slope=5.9, zero_lift_rad=-0.05, lift_max=1.5, lift_min=-0.9, drag_zero_lift=0.012, moment=-0.06
)


def at(curve, degrees):
    alpha = np.radians(degrees)
    return section_coefficients(curve, ARRAY_MATH)((np.sin(alpha), np.cos(alpha)))


def test_it_is_the_line_while_attached():
    degrees = np.linspace(-4.0, 9.0, 30)
    lift, drag, moment = at(CAMBERED, degrees)
    assert lift == pytest.approx(5.9 * (np.radians(degrees) + 0.05), abs=0.004)
    assert drag == pytest.approx(0.012, abs=0.001)
    assert moment == pytest.approx(-0.06, abs=0.001)


def test_its_largest_and_smallest_lift_are_those_given():
    lift = at(CAMBERED, np.linspace(-25.0, 25.0, 2001))[0]
    assert lift.max() == pytest.approx(1.5, rel=0.03)
    assert lift[480:1000].min() == pytest.approx(-0.9, rel=0.05)


def test_floats_are_rows_and_any_angle_has_an_answer():
    one = section_coefficients(CAMBERED)
    for degrees in np.linspace(-180.0, 180.0, 97).tolist():
        alpha = math.radians(degrees)
        found = one((math.sin(alpha), math.cos(alpha)))
        assert found == pytest.approx([float(x) for x in at(CAMBERED, degrees)], abs=1e-12)
        assert max(map(abs, found)) < 2.0
    assert all(map(math.isfinite, one((0.0, -1.0))))


def test_lift_breaks_after_the_stall_and_air_always_drags():
    lift, drag, _ = at(CAMBERED, np.linspace(-180.0, 180.0, 721))
    assert drag.min() >= 0.012
    assert lift[400:].max() > lift[430]
    top = int(np.argmax(lift[360:420])) + 360
    assert np.diff(lift[top : top + 12]).min() / math.radians(0.5) < -4.0
