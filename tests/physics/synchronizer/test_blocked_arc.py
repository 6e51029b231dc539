"""What a blade takes from the circle of fire."""

import math

import pytest

from sim.synchronizer.blocked_arc import (
    at_radius,
    blocked_arc_rad,
    bore_line,
    flex_rad,
    helix_rad,
    projected_width_m,
)


def test_a_flat_blade_shows_its_chord_and_a_feathered_one_its_thickness():
    assert projected_width_m(0.2, 0.03, 0.0) == 0.2
    assert projected_width_m(0.2, 0.03, math.pi / 2.0) == pytest.approx(0.03)


def test_a_small_arc_is_width_over_radius():
    assert blocked_arc_rad(0.002, 0.001, 1.0) == pytest.approx(0.003, rel=1e-6)


def test_a_blade_wider_than_the_circle_blocks_the_turn():
    assert blocked_arc_rad(0.2, 0.0, 0.05) == 2.0 * math.pi


def test_no_pitch_no_helix():
    assert helix_rad(0.0, 0.4) == 0.0


def test_a_converging_bore_line_crosses_the_disc_nearer_the_middle():
    """Half way to the point where it meets the middle, half the offset is left."""
    line = bore_line(0.4, 0.6, 50.0, 100.0)
    assert line.radius_m == pytest.approx(0.5)
    assert line.lean_rad == pytest.approx(math.atan2(0.3, 0.4))
    assert bore_line(0.4, 0.0, 1.0).lean_rad == 0.0


def test_a_blade_that_bends_takes_its_width_over_the_radius_to_each_side():
    assert flex_rad(0.004, 0.4) == pytest.approx(0.01, rel=1e-4)
    assert flex_rad(1.0, 0.4) == pytest.approx(math.pi / 2.0)


@pytest.mark.parametrize(("radius", "chord"), [(0.1, 0.20), (0.5, 0.17), (0.6, 0.16), (2.0, 0.10)])
def test_a_planform_is_read_along_straight_lines(radius, chord):
    assert at_radius(radius, (0.2, 0.4, 0.6, 1.2), (0.20, 0.18, 0.16, 0.10)) == pytest.approx(chord)
