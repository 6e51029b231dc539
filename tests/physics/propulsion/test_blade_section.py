"""The blade section: straight line, plateau, stall, flat plate; the effect of Mach number."""

import math

import numpy as np
import pytest

from sim.propulsion.blade_section import FLAT_BOTTOMED, MOST_MACH, PLATE_LIFT, BladeSection, section_coefficients

SECTION = BladeSection(lift_slope=5.3, zero_lift_rad=-0.061, section_lift_max=1.21, section_lift_min=-0.73)


def at(angle_deg, mach=0.0, section=SECTION):
    lift, drag = section_coefficients(section, np.radians(np.atleast_1d(angle_deg)), np.asarray(mach))
    return lift, drag


def test_the_straight_line_has_its_slope_and_its_zero():
    lift, drag = section_coefficients(SECTION, np.array([-0.061, -0.011]), np.zeros(2))
    assert lift == pytest.approx([0.0, 0.05 * 5.3], abs=1e-4)
    assert drag == pytest.approx(
        SECTION.drag_min + SECTION.drag_rise * (lift - SECTION.lift_at_drag_min) ** 2, rel=1e-3
    )


@pytest.mark.parametrize("mach", [0.3, 0.5, 0.7])
def test_prandtl_and_glauert(mach):
    ratio = at(1.7, mach)[0] / at(1.7)[0]
    assert ratio == pytest.approx(1.0 / math.sqrt(1.0 - mach**2), rel=2e-3)


def test_the_correction_is_held_beyond_its_range():
    assert at(2.0, MOST_MACH)[0] == at(2.0, 0.93)[0] == at(2.0, 1.2)[0]


def test_lift_stays_between_its_limits():
    lift, drag = at(np.linspace(-180.0, 180.0, 721))
    assert lift.max() == pytest.approx(1.21, abs=0.01)
    assert lift.min() >= -PLATE_LIFT
    assert lift[(np.linspace(-180, 180, 721) > -15) & (np.linspace(-180, 180, 721) < 0)].min() > -0.74
    assert drag.min() > 0.0


def test_far_behind_the_stall_the_force_is_normal_to_the_face():
    for angle in (50.0, 70.0, 90.0):
        lift, drag = at(angle)
        along = lift * math.sin(math.radians(angle)) - drag * math.cos(math.radians(angle))
        assert along == pytest.approx(0.0, abs=0.03)
    assert at(90.0)[1] == pytest.approx(2.0 * PLATE_LIFT, rel=0.02)


def test_the_curves_have_no_jump():
    angles = np.linspace(-180.0, 180.0, 36001)
    for curve in at(angles, 0.4):
        assert np.abs(np.diff(curve)).max() < 0.01


def test_drag_rises_through_the_stall():
    drag = at(np.linspace(8.0, 60.0, 105), section=FLAT_BOTTOMED)[1]
    assert (np.diff(drag) > 0.0).all()
