"""What a blade takes from the circle of fire."""

import math

import pytest

from sim.synchronizer.blade import blocked_arc_rad, helix_rad, projected_width_m, untimed_strike_share


def test_a_flat_blade_shows_its_chord_and_a_feathered_one_its_thickness():
    assert projected_width_m(0.2, 0.03, 0.0) == 0.2
    assert projected_width_m(0.2, 0.03, math.pi / 2.0) == pytest.approx(0.03)


def test_a_small_arc_is_width_over_radius():
    assert blocked_arc_rad(0.002, 0.001, 1.0) == pytest.approx(0.003, rel=1e-6)


def test_a_blade_wider_than_the_circle_blocks_the_turn():
    assert blocked_arc_rad(0.2, 0.0, 0.05) == 2.0 * math.pi
    assert untimed_strike_share(4, math.radians(120.0)) == 1.0


def test_no_pitch_no_helix():
    assert helix_rad(0.0, 0.4) == 0.0
