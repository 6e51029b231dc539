"""The vortex lattice against exact wings, the theorems of drag and of reversed flow, and its limits."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from sim.aerodynamics.biplane import equivalent_span
from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import (
    downwash,
    forces,
    induced_drag,
    induced_factor,
    span_loading,
)
from sim.aerodynamics.lattice_kernel import induced_velocity
from sim.aerodynamics.lattice_panels import LiftingPlane, Strips, panels, strips
from sim.aerodynamics.lattice_plane_flow import plane_flow

WING = LiftingPlane(8.1, 1.3)
LOWER = LiftingPlane(7.4, 1.2, 0.7, math.radians(4), math.radians(3), math.radians(1), -0.2, 0.1, 5.8)
UPPER = LiftingPlane(8.6, 1.35, 0.9, math.radians(-2), math.radians(1), math.radians(2), 1.25, 0.6, 5.9)
CELL = (LOWER, UPPER)


def solved(planes, *, count=20, rows=4, spacing="cosine"):
    grid = panels([strips(plane, count, spacing) for plane in planes], rows)
    return grid, circulation(grid)


def slope(planes, **how):
    return forces(*solved(planes, **how)).lift_slope_per_rad


def ellipse(span, chord, count):
    """Return the strips of an elliptic wing with a straight quarter-chord line; `chord` at the root."""
    angle = np.pi * np.arange(count + 1) / count
    edge, middle = -np.cos(angle), -np.cos(angle[:-1] + 0.5 * np.pi / count)
    edge_chord, middle_chord = chord * np.sqrt(np.maximum(0.0, 1.0 - edge**2)), chord * np.sqrt(1.0 - middle**2)
    points = [
        np.column_stack((-0.25 * chords, 0.5 * span * places, 0.0 * places))
        for places, chords in ((edge, edge_chord), (middle, middle_chord))
    ]
    area = 0.25 * math.pi * span * chord
    return Strips(points[0], edge_chord, points[1], middle_chord, np.zeros(count), span, area)


def test_a_wake_that_meets_the_control_points_of_a_tail_leaves_its_lift_almost_alone():
    """Half a strip sideways the wake misses them: between the two the tail's slope must not jump."""
    tails = [LiftingPlane(span, 0.7, stagger_m=-4.0) for span in np.linspace(2.4, 3.0, 13)]
    slopes = [forces(*solved((WING, tail), count=42)).planes[1].lift_slope_per_rad for tail in tails]
    line = np.polyval(np.polyfit(np.arange(13), slopes, 1), np.arange(13))
    assert slopes == pytest.approx(list(line), rel=0.03)


# exact wings


@pytest.mark.parametrize("aspect", [100.0, 400.0])
def test_an_elliptic_wing_is_that_of_the_lifting_line(aspect):
    one = ellipse(aspect, 4.0 / math.pi, 120)
    grid = panels([one], 1)
    flow = circulation(grid)
    found, alpha = forces(grid, flow), flow.alpha_m_rad
    assert found.lift_slope_per_rad == pytest.approx(2.0 * math.pi * aspect / (aspect + 2.0), rel=1.5e-3)
    assert found.roll_damping_per_rad == pytest.approx(-0.25 * math.pi * aspect / (aspect + 4.0), rel=3e-3)
    assert found.dihedral_effect_per_rad2 == pytest.approx(-4.0 / 3.0 * aspect / (aspect + 4.0), rel=3e-3)
    assert found.aerodynamic_centre_m == pytest.approx(0.0, abs=1e-12)
    assert induced_factor(grid, alpha, induced_drag(grid, alpha)) == pytest.approx(1.0, abs=2e-4)
    far = downwash(grid, alpha, (1e4 * aspect, 0.0, 0.0))
    assert far == pytest.approx(2.0 * found.lift_slope_per_rad / (math.pi * aspect), rel=2e-2)


def test_a_long_wing_has_the_slope_of_its_section():
    long = [slope([LiftingPlane(span, 1.0, section_slope=5.6)], count=60) for span in (50.0, 500.0, 5000.0)]
    assert long == sorted(long)
    assert long[-1] == pytest.approx(5.6, rel=1e-3)


def test_a_slender_wing_lifts_by_its_span():
    """Jones: CLα = πA/2 as A goes to nought."""
    assert slope([LiftingPlane(0.05, 1.0)], rows=40, count=8) == pytest.approx(math.pi * 0.05 / 2.0, rel=0.02)


@pytest.mark.parametrize("section_slope", [4.7, 5.7, 6.5])
def test_a_section_slope_is_the_control_point_moved_in_one_row(section_slope):
    """A vortex at c/4 and no flow through c/4 + a0 c/4π: lift 2Γ/c = a0; and the aerodynamic centre stays."""
    offset = section_slope / (4.0 * math.pi)
    moved = 2.0 * (2.0 * math.pi * offset)
    for rows in (1, 7):
        found = plane_flow([LiftingPlane(1.0, 1.0, section_slope=section_slope)], rows)
        assert found.lift_slope_per_rad == pytest.approx(moved, rel=1e-12)
        assert found.aerodynamic_centre_m == pytest.approx(0.25, abs=1e-12)


# theorems


def near_field_drag(grid, of_panels):
    """Return the induced drag over dynamic pressure from the flow at the bound vortices, by Kutta and Joukowski."""
    v, w = induced_velocity(grid.bound_m, grid)
    across = grid.right_m - grid.left_m
    return 2.0 * of_panels @ ((v @ of_panels) * across[:, 2] - (w @ of_panels) * across[:, 1])


def near_over_far(planes, **how):
    grid, flow = solved(planes, **how)
    return near_field_drag(grid, flow.alpha_m_rad) / induced_drag(grid, flow.alpha_m_rad)


def test_the_drag_at_the_planes_is_that_of_the_wake():
    """Exactly so for one row on straight wings at any heights."""
    assert near_over_far([replace(WING, height_m=h) for h in (0.0, 1.1, 2.0)], rows=1) == pytest.approx(1.0, rel=1e-12)


def test_the_drag_at_staggered_planes_tends_to_that_of_the_wake():
    straight = [replace(one, sweep_rad=0.0, taper=1.0) for one in CELL]
    apart = [abs(near_over_far(straight, count=count, rows=2) - 1.0) for count in (10, 20, 40)]
    assert min(order(apart)) > 1.5
    assert apart[2] < 1e-4


def test_the_drag_at_a_swept_plane_tends_to_that_of_the_wake_with_more_panels():
    """Slowly, as rows and strips grow together: the flow along a swept vortex is singular."""
    swept = [replace(WING, sweep_rad=0.3)]
    apart = [abs(near_over_far(swept, count=10 * rows, rows=rows) - 1.0) for rows in (1, 2, 4)]
    assert min(order(apart)) > 0.4


def test_stagger_leaves_the_drag_of_given_loads_alone():
    """Munk's stagger theorem, for the sum of the near field as well."""
    drags = []
    for ahead in (-0.8, 0.0, 1.7):
        grid = panels([strips(one, 60) for one in (WING, replace(WING, height_m=1.4, stagger_m=ahead))], 1)
        load = np.sqrt(1.0 - (2.0 * grid.bound_m[:, 1] / WING.span_m) ** 2)
        drags.append((induced_drag(grid, load), near_field_drag(grid, load)))
    far, near = zip(*drags, strict=True)
    assert far == pytest.approx([far[0]] * 3, rel=1e-12)
    assert near == pytest.approx(far, rel=2e-3)


@pytest.mark.parametrize(("gap", "other"), [(0.1, 1.0), (0.2, 1.0), (0.4, 1.0), (0.15, 0.8)])
def test_elliptic_loads_have_the_span_factor_of_prandtl_and_munk(gap, other):
    """Against the closed integral of two elliptic loads, with the lift shared by area."""
    first, second = LiftingPlane(10.0, 1.0), LiftingPlane(10.0 * other, 1.0, height_m=10.0 * gap)
    grid = panels([strips(first, 80), strips(second, 80)], 1)
    span = np.where(grid.plane == 0, first.span_m, second.span_m)
    load = np.sqrt(1.0 - (2.0 * grid.bound_m[:, 1] / span) ** 2)
    factor = induced_factor(grid, load, induced_drag(grid, load))
    shares = [1.0 / (1.0 + other), other / (1.0 + other)]
    exact = equivalent_span([10.0, 10.0 * other], [0.0, 10.0 * gap], shares) / 10.0
    assert 1.0 / math.sqrt(factor) == pytest.approx(exact, rel=1e-3)


def reversed_flow(plane):
    """Return the plane that the stream meets from behind, as seen by that stream."""
    back = plane.leading_edge_at_m(0.0) + plane.chord_at_m(0.0)
    tip_back = plane.leading_edge_at_m(1.0) + plane.chord_at_m(1.0)
    forward_quarter = (tip_back - 0.25 * plane.chord_at_m(1.0)) - (back - 0.25 * plane.chord_at_m(0.0))
    return replace(plane, stagger_m=back, sweep_rad=-math.atan2(forward_quarter, 0.5 * plane.span_m))


def test_lift_is_the_same_in_reversed_flow():
    straight = [WING, replace(WING, height_m=1.2, stagger_m=0.5)]
    ways = (straight, [reversed_flow(one) for one in straight])
    there, back = (forces(*solved(planes, spacing="uniform")) for planes in ways)
    assert there.lift_slope_per_rad == pytest.approx(back.lift_slope_per_rad, rel=1e-10)
    assert there.planes[0].lift_slope_per_rad != pytest.approx(back.planes[0].lift_slope_per_rad, rel=1e-3)
    swept = [replace(one, section_slope=2.0 * math.pi, dihedral_rad=0.0) for one in CELL]
    there, back = (forces(*solved(planes, count=50)) for planes in (swept, [reversed_flow(one) for one in swept]))
    assert there.lift_slope_per_rad == pytest.approx(back.lift_slope_per_rad, rel=3e-3)
    assert there.roll_damping_per_rad == pytest.approx(back.roll_damping_per_rad, rel=5e-3)


# limits and symmetry


def test_planes_far_apart_are_monoplanes():
    planes = [LOWER, replace(UPPER, height_m=3000.0)]
    found = forces(*solved(planes))
    alone = [slope([one]) for one in planes]
    assert [one.lift_slope_per_rad for one in found.planes] == pytest.approx(alone, rel=1e-5)
    lifts = [each * plane.area_m2 for each, plane in zip(alone, planes, strict=True)]
    assert found.lift_slope_per_rad == pytest.approx(sum(lifts) / sum(one.area_m2 for one in planes), rel=1e-5)
    assert sum(one.share for one in found.planes) == pytest.approx(1.0, rel=1e-14)


def test_without_a_gap_two_planes_lift_as_one():
    """One over the other: each bears half of what one bears alone."""
    found = forces(*solved([WING, replace(WING, height_m=1e-4)]))
    assert found.lift_slope_per_rad == pytest.approx(0.5 * slope([WING]), rel=1e-4)


def test_one_directly_behind_the_other_is_a_monoplane_of_both_chords():
    found = forces(*solved([WING, replace(WING, stagger_m=-WING.chord_m)]))
    one = forces(*solved([replace(WING, chord_m=2.0 * WING.chord_m)], rows=8))
    assert found.lift_slope_per_rad == pytest.approx(one.lift_slope_per_rad, rel=1e-12)
    assert found.aerodynamic_centre_m == pytest.approx(one.aerodynamic_centre_m, rel=1e-12)
    assert found.roll_damping_per_rad == pytest.approx(one.roll_damping_per_rad, rel=1e-12)


def test_left_and_right_mirror_each_other():
    grid, flow = solved(CELL)
    for name, sign in (("incidence_m", 1), ("alpha_m_rad", 1), ("roll_m2_rad", -1), ("dihedral_m_rad2", -1)):
        column = getattr(flow, name).reshape(2, -1, 4)
        assert column == pytest.approx(sign * column[:, ::-1], rel=1e-9, abs=1e-12)
    y, load = span_loading(grid, flow.alpha_m_rad)[1]
    assert y == pytest.approx(-y[::-1], rel=1e-15)
    assert load == pytest.approx(load[::-1], rel=1e-9)


def test_one_incidence_of_all_planes_is_an_angle_of_attack():
    _, flow = solved([replace(one, incidence_rad=0.05) for one in CELL])
    assert flow.incidence_m == pytest.approx(0.05 * flow.alpha_m_rad, rel=1e-12)


def test_the_lift_of_incidence_is_mutual():
    """A twist on the upper plane lifts the lower as the same twist on the lower lifts the upper, unstaggered alike."""
    twisted = [
        forces(*solved([replace(WING, incidence_rad=a), replace(WING, height_m=1.2, incidence_rad=b)]))
        for a, b in ((0.1, 0.0), (0.0, 0.1))
    ]
    assert twisted[0].planes[1].lift_at_zero == pytest.approx(twisted[1].planes[0].lift_at_zero, rel=1e-10)
    assert twisted[0].planes[1].lift_at_zero < 0.0 < twisted[0].planes[0].lift_at_zero


def test_the_datum_moves_nothing_but_the_aerodynamic_centre():
    there = forces(*solved(CELL))
    here = forces(*solved([replace(one, height_m=one.height_m + 7.0, stagger_m=one.stagger_m - 3.0) for one in CELL]))
    assert here.aerodynamic_centre_m - 3.0 == pytest.approx(there.aerodynamic_centre_m, rel=1e-9)
    for name in ("lift_slope_per_rad", "lift_at_zero", "roll_damping_per_rad", "dihedral_effect_per_rad2"):
        assert getattr(here, name) == pytest.approx(getattr(there, name), rel=1e-9)


def test_size_moves_only_lengths():
    lengths = ("span_m", "chord_m", "height_m", "stagger_m")
    small = [replace(one, **{name: 0.3 * getattr(one, name) for name in lengths}) for one in CELL]
    there, here = forces(*solved(CELL)), forces(*solved(small))
    assert here.aerodynamic_centre_m == pytest.approx(0.3 * there.aerodynamic_centre_m, rel=1e-10)
    for name in ("lift_slope_per_rad", "lift_at_zero", "roll_damping_per_rad", "dihedral_effect_per_rad2"):
        assert getattr(here, name) == pytest.approx(getattr(there, name), rel=1e-10)


# convergence


def order(errors):
    """Return the order at which errors fall as panels are halved, over the last two halvings."""
    return [math.log2(abs(before / after)) for before, after in pairwise(errors)]


def test_the_span_converges_with_the_second_order():
    wing = [replace(WING, taper=0.6)]
    slopes = [forces(*solved(wing, count=count, rows=1)).roll_damping_per_rad for count in (8, 16, 32, 64, 128)]
    assert min(order(np.diff(slopes))) > 1.8


def test_the_chord_converges_with_the_second_order():
    slopes = [slope([WING, replace(WING, height_m=1.2)], count=16, rows=rows) for rows in (1, 2, 4, 8, 16)]
    assert min(order(np.diff(slopes))[-2:]) > 1.6


def test_both_spacings_have_one_limit():
    cosine, uniform = (slope(CELL, count=count, spacing=how) for how, count in (("cosine", 40), ("uniform", 60)))
    assert uniform == pytest.approx(cosine, rel=2e-3)


def test_the_panels_that_are_used_are_enough():
    used, more = forces(*((grid := lattice(CELL)), circulation(grid))), forces(*solved(CELL, count=80, rows=8))
    assert used.lift_slope_per_rad == pytest.approx(more.lift_slope_per_rad, rel=3e-3)
    assert used.roll_damping_per_rad == pytest.approx(more.roll_damping_per_rad, rel=5e-3)
    assert used.aerodynamic_centre_m == pytest.approx(more.aerodynamic_centre_m, abs=3e-3)
    for count, each in ((336, 168), (900, 448), (10, 80)):  # four rows, as many strips right as left, twenty at least
        assert [int(np.sum(lattice(CELL, count=count).plane == one)) for one in (0, 1)] == [each, each]


@pytest.mark.parametrize(("gap", "error"), [(0.2, 0.011), (0.3, 0.0055)])
def test_a_small_gap_has_the_error_that_is_stated(gap, error):
    for ahead in (0.0, 0.06, 0.3, 0.53):
        planes = [LiftingPlane(6.0, 1.0), LiftingPlane(6.0, 1.0, height_m=gap, stagger_m=ahead)]
        few, many = (forces(*solved(planes, rows=rows)) for rows in (4, 16))
        assert few.lift_slope_per_rad == pytest.approx(many.lift_slope_per_rad, rel=error)
        assert few.planes[0].share == pytest.approx(many.planes[0].share, abs=0.01)
