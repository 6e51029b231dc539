"""Autorotation against strips summed by hand, Glauert's criterion, and the airplane's own loads."""

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from scipy.integrate import quad
from scipy.optimize import brentq
from shared import built

from sim.aerodynamics.section_curve import SectionCurve, section_coefficients
from sim.aerodynamics.strips import Strip, Strips
from sim.flight.autorotation import autorotation, rolling_moment

CURVE = SectionCurve(lift_slope=5.9, zero_lift_rad=-0.05, lift_max=1.35, lift_min=-0.9, drag_zero_lift=0.013)
SPAN_M, CHORD_M = 9.0, 1.4


def plain(count=200):
    """Return a rectangular wing of strips that turn no stream, by itself."""
    step = 0.5 * SPAN_M / count
    strips = tuple(
        Strip("wing", CURVE, step * CHORD_M, CHORD_M, (0.0, y, 0.0), (0.0, y, 0.0), (0.0, 1.0), setting_rad=0.05)
        for y in step * (np.arange(count) + 0.5)
    )
    return Strips(strips, (), (), SPAN_M * CHORD_M, SPAN_M, 5.0, (0.0, 0.0), 1.0, 0.0)


def by_hand(alpha_rad, rate):
    """Return the rolling moment coefficient about the stream: force along the stream's normal times the arm."""
    section = section_coefficients(CURVE)

    def part(eta):
        turned = rate * eta  # downward speed of the right wing over that of flight
        angle, pressure = alpha_rad + np.arctan(turned), 1.0 + turned**2
        lift, drag, _ = section((np.sin(angle), np.cos(angle)))
        inflow = np.arctan(turned)
        return -0.25 * pressure * (lift * np.cos(inflow) + drag * np.sin(inflow)) * eta

    return quad(part, -1.0, 1.0, limit=400, epsabs=1e-10)[0]


@pytest.mark.parametrize("alpha_deg", [6.0, 14.0, 17.0, 24.0])
@pytest.mark.parametrize("rate", [0.04, 0.15, 0.35])
def test_the_moment_is_that_of_strips_summed_by_hand(alpha_deg, rate):
    alpha = np.radians(alpha_deg)
    assert float(rolling_moment(plain(), alpha, rate)) == pytest.approx(by_hand(alpha, rate), rel=2e-3, abs=2e-5)


def test_damping_reverses_where_section_slope_and_drag_add_up_to_nothing():
    """Glauert: a slow roll of a wing of strips is driven from where dCl/dα + Cd = 0 on, and damped again beyond."""
    section = section_coefficients(CURVE)

    def criterion(alpha):
        lift, drag = ([section((np.sin(a), np.cos(a)))[k] for a in (alpha - 1e-5, alpha + 1e-5)] for k in (0, 1))
        return (lift[1] - lift[0]) / 2e-5 + 0.5 * (drag[0] + drag[1])

    grid = np.arange(0.15, 0.6, 0.005)
    changes = grid[:-1][np.diff(np.sign([criterion(one) for one in grid])) != 0.0]
    first, last = (brentq(criterion, one, one + 0.005) for one in changes)
    found = autorotation(plain(), [first - 0.004, first + 0.004, last - 0.004, last + 0.004])
    assert (np.sign(found.damping) == [-1.0, 1.0, 1.0, -1.0]).all()


def test_the_steady_rate_is_a_root_beyond_which_the_roll_is_slowed():
    alpha = np.radians([15.0, 16.5])
    found = autorotation(plain(), alpha)
    for angle, rate in zip(alpha, found.steady_rate, strict=True):
        assert rate > 0.1
        assert rate == pytest.approx(brentq(lambda p, a=angle: by_hand(a, p), 0.8 * rate, 1.2 * rate), rel=0.02)
        assert (
            float(rolling_moment(plain(), angle, 1.1 * rate)) < 0.0 < float(rolling_moment(plain(), angle, 0.9 * rate))
        )


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE])
def test_an_airplane_rolls_the_same_to_both_sides_and_is_damped_below_the_stall(path):
    strips = built(path).airplane().flown.strips
    alpha = np.radians([2.0, 8.0, 20.0, 32.0])
    assert rolling_moment(strips, alpha, -0.2) == pytest.approx(-rolling_moment(strips, alpha, 0.2), rel=1e-9)
    assert (autorotation(strips, alpha[:2]).damping < -0.2).all()
