"""Where a wing of several planes stalls first, and its span efficiency: limits, symmetry, an independent solution."""

import math
from dataclasses import replace

import numpy as np
import pytest

from sim.aerodynamics.biplane import equivalent_aspect_ratio
from sim.aerodynamics.drag_lift_max import fuselage_factor, planform_factor, trim_lift
from sim.aerodynamics.drag_polar import OTHER_RISE, span_efficiency
from sim.aerodynamics.drag_section import SectionPolar
from sim.aerodynamics.drag_wing import cell_lift, first_stall, lifting_planes
from sim.aerodynamics.lattice_panels import LiftingPlane
from sim.airframe.wing import Plane, Wing
from sim.numerics.uncertain import Uncertain

PLANE = LiftingPlane(span_m=9.1, chord_m=1.3, section_slope=5.8)
SECTION = SectionPolar(Uncertain(1.43), Uncertain(0.009), Uncertain(0.007, 0.002), 0.0)


def wing(**lower):
    upper = Plane(span_m=9.1, chord_m=1.3, height_m=0.7, arm_m=-0.2, incidence_rad=0.03, section_slope=5.8)
    other = replace(upper, height_m=-0.7, arm_m=0.4, name="lower", **lower)
    return Wing((upper, other), upper)


def lifting_line(span_m, chord_m, slope):
    """Return the largest local lift coefficient over that of the whole rectangular wing, by Glauert's series."""
    terms = 2 * np.arange(60) + 1
    angle = math.pi * (np.arange(60) + 1) / 121.0
    mu = chord_m * slope / (4.0 * span_m)
    matrix = np.sin(np.outer(angle, terms)) * (terms * mu + np.sin(angle)[:, None])
    series = np.linalg.solve(matrix, mu * np.sin(angle))
    local = 4.0 * span_m / chord_m * (np.sin(np.outer(angle, terms)) @ series)
    return float(local.max()) / float(math.pi * span_m / chord_m * series[0])


def test_a_rectangular_wing_stalls_at_its_root_between_lifting_line_theory_and_an_elliptic_load():
    """A lifting surface is some 4 % above the line at its root."""
    found = first_stall(cell_lift((PLANE,)), (1.43,))
    assert found.span_share < 0.1
    assert found.lift_all == pytest.approx(1.43)
    line = lifting_line(9.1, 1.3, 5.8)
    assert line < found.lift_all / found.lift_first < min(4.0 / math.pi, 1.04 * line)


def test_a_wing_of_strong_taper_stalls_outboard():
    shares = [first_stall(cell_lift((replace(PLANE, taper=taper),)), (1.4,)).span_share for taper in (1.0, 0.5, 0.2)]
    assert shares[0] < 0.1 < 0.4 < shares[1] < shares[2]


def test_lift_at_the_first_stall_is_proportional_to_that_of_the_section():
    one, more = (first_stall(cell_lift((PLANE,)), (lift,)).lift_first for lift in (1.1, 1.43))
    assert more / one == pytest.approx(1.3, rel=1e-12)


def test_planes_far_apart_stall_like_one():
    apart = cell_lift((replace(PLANE, height_m=400.0), PLANE))
    found, alone = first_stall(apart, (1.43, 1.43)), first_stall(cell_lift((PLANE,)), (1.43,))
    assert found.lift_first == pytest.approx(alone.lift_first, rel=0.003)


def test_the_plane_ahead_stalls_first_and_turning_the_stagger_round_turns_that_round():
    ahead = (replace(PLANE, height_m=1.4, stagger_m=0.6), PLANE)
    behind = (replace(PLANE, height_m=1.4, stagger_m=-0.6), PLANE)
    first, other = (first_stall(cell_lift(planes), (1.43, 1.43)) for planes in (ahead, behind))
    assert (first.strip_plane, other.strip_plane) == (0, 1)
    assert first.lift_first == pytest.approx(other.lift_first, rel=1e-9)
    even = first_stall(cell_lift((replace(PLANE, height_m=1.4), PLANE)), (1.43, 1.43))
    assert first.lift_first < even.lift_first


def test_less_incidence_or_a_better_section_of_the_plane_that_stalls_first_lets_the_wing_lift_more():
    planes = (replace(PLANE, height_m=1.4, stagger_m=0.6), PLANE)
    found = first_stall(cell_lift(planes), (1.43, 1.43))
    eased = first_stall(cell_lift((replace(planes[0], incidence_rad=-0.02), PLANE)), (1.43, 1.43))
    better = first_stall(cell_lift(planes), (1.55, 1.43))
    assert min(eased.lift_first, better.lift_first) > found.lift_first


def test_the_planform_factor_lies_between_the_first_strip_and_all():
    found = first_stall(cell_lift((PLANE,)), (1.43,))
    factor = planform_factor(found)
    assert factor.value == pytest.approx(0.5 * (1.0 + found.lift_first / 1.43))
    spread = np.linspace(found.lift_first / 1.43, 1.0, 100_001)
    assert factor.band == pytest.approx(float(np.std(spread)), rel=1e-4)


def test_a_narrow_fuselage_takes_nothing():
    assert fuselage_factor(0.0) == Uncertain(1.0, 0.0)
    assert fuselage_factor(0.05).value == pytest.approx(0.99)


def test_the_tail_balances_the_moment_about_the_centre_of_gravity():
    """Sum of moments, nose up: Cm c − CL arm − CLt l = 0."""
    tail = trim_lift(1.21, moment_chords=-0.06, arm_m=0.11, chord_m=1.37, tail_arm_m=4.1)
    assert -0.06 * 1.37 - 1.21 * 0.11 - tail * 4.1 == pytest.approx(0.0, abs=1e-12)
    assert tail < 0.0


def test_planes_of_a_wing_are_placed_as_their_quarter_chords():
    upper, lower = lifting_planes(wing(chord_m=0.9, incidence_rad=0.01))
    quarter = [plane.leading_edge_at_m(0.0) + 0.25 * plane.chord_at_m(0.0) for plane in (upper, lower)]
    assert quarter == pytest.approx([-0.2, 0.4], abs=1e-12)
    assert upper.incidence_rad - lower.incidence_rad == pytest.approx(0.02)
    swept = lifting_planes(wing(sweep_rad=0.1, taper=0.6))[1]
    share = np.linspace(0.0, 1.0, 20_001)
    chords = np.array([swept.chord_at_m(one) for one in share])
    quarters = np.array([swept.leading_edge_at_m(one) for one in share]) + 0.25 * chords
    assert float(np.trapezoid(quarters * chords, share) / np.trapezoid(chords, share)) == pytest.approx(0.4, abs=1e-6)


def efficiency(planes, *, sections=(SECTION, SECTION), frontal_m2=0.0):
    return span_efficiency(
        cell_lift(lifting_planes(planes)),
        sections,
        span_m=planes.span_m,
        aspect_ratio=equivalent_aspect_ratio(planes),
        frontal_area_m2=frontal_m2,
        shape="flat-sided",
    )


def test_without_profile_drag_the_lattice_has_nearly_munks_induced_drag():
    """Prandtl and Munk take elliptic loads; rectangular wings have a few per cent more."""
    bare = SectionPolar(Uncertain(1.4), Uncertain(0.009), Uncertain(0.0), 0.0)
    found = efficiency(wing(), sections=(bare, bare))
    induced = found.induced_drag_rise.value * math.pi * equivalent_aspect_ratio(wing())
    assert 1.0 < induced < 1.06
    whole = found.induced_drag_rise.value + OTHER_RISE.value / (math.pi * equivalent_aspect_ratio(wing()))
    assert found.span_efficiency.value == pytest.approx(1.0 / (math.pi * equivalent_aspect_ratio(wing()) * whole))


def test_profile_drag_and_a_wide_fuselage_cost_efficiency():
    bare, steep = (SectionPolar(Uncertain(1.4), Uncertain(0.009), Uncertain(rise), 0.0) for rise in (0.0, 0.02))
    least = efficiency(wing(), sections=(bare, bare)).span_efficiency.value
    assert efficiency(wing(), sections=(steep, steep)).span_efficiency.value < least
    assert efficiency(wing(), sections=(bare, bare), frontal_m2=0.8).span_efficiency.value < least


def test_each_plane_drags_at_its_own_lift():
    """Two like planes of equal shares: the rise of the section itself; unequal shares cost more."""
    even = efficiency(Wing(tuple(replace(one, arm_m=0.0) for one in wing().planes), wing().nominal))
    assert even.profile_drag_rise.value == pytest.approx(0.007, rel=1e-6)
    assert efficiency(wing()).profile_drag_rise.value > 0.007
