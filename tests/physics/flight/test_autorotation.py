"""Autorotation against strips summed by hand, Glauert's criterion, and the airplane's own loads."""

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, SESQUIPLANE, TRIPLANE, TWO_SEATER
from scipy.integrate import quad
from scipy.optimize import brentq
from shared import built

from sim.aerodynamics.section_curve import SectionCurve, section_coefficients
from sim.aerodynamics.strips import Strip, Strips
from sim.aerodynamics.strips_rearranged import rearranged_strips
from sim.flight.autorotation import autorotation, rolling_moment
from sim.studies import autorotation as study

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


def rearranged(path, *, gap_m, stagger_m):
    ours = built(path)
    name = ours.usual_powerplant().name
    airplane = ours.airplane(name).flown
    return rearranged_strips(
        airplane.strips,
        ours.airframe,
        airplane.polar,
        airplane.slipstream,
        gap_m=gap_m,
        stagger_m=stagger_m,
        cg_aft_m=ours.flown_mass(name).cg_aft_m,
    )


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, SESQUIPLANE])
def test_planes_put_where_they_stand_are_the_airplane(path):
    wing, ours = built(path).airframe.wing, built(path)
    again = rearranged(path, gap_m=wing.gap_m, stagger_m=wing.stagger_m)
    strips = ours.airplane(ours.usual_powerplant().name).flown.strips
    alpha = np.radians([4.0, 16.0, 19.0, 23.0, 33.0])
    assert rolling_moment(again, alpha, 0.1) == pytest.approx(rolling_moment(strips, alpha, 0.1), rel=1e-9)


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, SESQUIPLANE])
def test_planes_farther_apart_damp_a_roll_more_and_turn_by_themselves_sooner(path):
    """They turn the stream less at each other: a steeper lift, which breaks at a smaller angle of attack."""
    wing = built(path).airframe.wing
    chord_m = wing.mean("chord_m")
    alpha = np.radians(np.arange(4.0, 30.0, 0.5))
    near, far, free = (
        autorotation(rearranged(path, gap_m=gap * chord_m, stagger_m=wing.stagger_m), alpha).damping
        for gap in (0.7, 1.5, 60.0)
    )
    assert near[0] > far[0] > free[0]
    first = [alpha[np.argmax(one > 0.0)] for one in (near, far, free)]
    assert all(one.max() > 0.0 for one in (near, far, free))
    assert first == sorted(first, reverse=True)
    assert first[0] > first[2]


def test_the_study_tries_gaps_and_staggers_about_those_drawn():
    found = study.autorotation(built(BIPLANE))
    wing = built(BIPLANE).airframe.wing
    drawn, *others = found.arrangements
    gap, stagger = wing.gap_m / wing.mean("chord_m"), wing.stagger_m / wing.mean("chord_m")
    assert (drawn.gap_chords, drawn.stagger_chords, drawn.as_drawn) == (gap, stagger, True)
    assert drawn.rolls == found.powerplants[found.powerplant]
    places = [(one.gap_chords, one.stagger_chords) for one in others]
    assert places == [*((one, stagger) for one in study.GAPS), *((gap, one) for one in study.STAGGERS)]
    assert len({one.rolls for one in found.arrangements}) == len(places) + 1
    assert study.autorotation(built(PARASOL)).arrangements == ()  # one plane has neither


@pytest.mark.parametrize("path", [BIPLANE, PARASOL, SESQUIPLANE, TRIPLANE, TWO_SEATER])
def test_tips_do_not_stall_long_after_the_rest(path):
    """A roll is driven while strips of the half wing stall, and damped at every angle beyond, up to 90°."""
    strips = built(path).airplane().flown.strips
    alpha = np.arange(10.0, 90.25, 0.5)
    found = autorotation(strips, np.radians(alpha))
    driven, going = alpha[found.damping > 0.0], alpha[found.steady_rate > 0.0]
    assert driven.size
    assert driven[-1] < 38.0
    assert going[0] <= driven[0]
    assert np.diff(going).max() == pytest.approx(0.5)  # one range in which a fast roll goes on


@pytest.mark.parametrize("path", [BIPLANE, PARASOL])
def test_the_study_gives_every_range_of_its_own_curve(path):
    own = study.autorotation(built(path)).powerplants[built(path).usual_powerplant().name]
    alpha, damping, rates = (np.array(one) for one in (own.curve_alpha_deg, own.curve_damping, own.curve_rates))
    inside = np.zeros(alpha.size, bool)
    for one in own.ranges:
        inside |= (one.driven_from_deg <= alpha) & (alpha <= one.driven_to_deg)
    assert (inside == (damping > 0.0)).all()
    assert len(own.ranges) == (2 if path == PARASOL else 1)
    assert own.driven_from_deg == own.ranges[0].driven_from_deg
    going = (own.goes_on_from_deg <= alpha) & (alpha <= own.goes_on_to_deg)
    assert (going == (rates > 0.0)).all()
