"""A course of rings: where it lies, what counts as through, and the bank that leads to a ring."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from airplanes import BIPLANE
from shared import built

from sim.live.course import BANK_RAD, RINGS_S, Ring, course, crossed, towards_rad
from sim.live.flight import flyer

RING = Ring(north_m=200.0, east_m=-30.0, altitude_m=300.0, heading_rad=0.7, radius_m=12.0, due_s=5.0)
GRAVITY_M_S2 = 9.80665


def at(ahead_m, aside_m, above_m, ring=RING, speed_m_s=40.0):
    """Return a state so far beyond a ring, to its right and above it, in its heading."""
    cosine, sine = math.cos(ring.heading_rad), math.sin(ring.heading_rad)
    north_m = ring.north_m + cosine * ahead_m - sine * aside_m
    east_m = ring.east_m + sine * ahead_m + cosine * aside_m
    half = 0.5 * ring.heading_rad
    return (north_m, east_m, -ring.altitude_m - above_m, math.cos(half), 0.0, 0.0, math.sin(half), speed_m_s, 0.0, 0.0)


@pytest.mark.parametrize(
    ("aside_m", "above_m", "through"),
    [(0.0, 0.0, True), (11.9, 0.0, True), (-12.1, 0.0, False), (0.0, -11.9, True), (9.0, 9.0, False)],
)
def test_through_is_within_the_radius_where_the_plane_is_crossed(aside_m, above_m, through):
    assert crossed(RING, at(-0.3, aside_m, above_m), at(0.4, aside_m, above_m)) is through


def test_a_slanting_step_is_told_by_where_it_meets_the_plane():
    assert crossed(RING, at(-1.0, 30.0, 0.0), at(3.0, -50.0, 0.0)) is True  # 10 m aside, a quarter of the way
    assert crossed(RING, at(-3.0, 30.0, 0.0), at(1.0, -50.0, 0.0)) is False  # 30 m aside, on the other


def test_before_behind_and_backwards_is_no_passage():
    assert crossed(RING, at(-2.0, 0.0, 0.0), at(-1.0, 0.0, 0.0)) is None
    assert crossed(RING, at(1.0, 0.0, 0.0), at(2.0, 0.0, 0.0)) is None
    assert crossed(RING, at(1.0, 0.0, 0.0), at(-1.0, 0.0, 0.0)) is None


def test_the_bank_towards_a_ring_is_that_of_the_arc_through_it():
    """From a place on a flat arc through the ring the cubic is the arc itself, within the square of its angle."""
    radius_m, angle = 900.0, 0.15
    aside = radius_m * (1.0 - math.cos(angle))
    begun = replace(RING, heading_rad=RING.heading_rad + angle)
    start = at(0.0, 0.0, 0.0)
    cosine, sine = math.cos(RING.heading_rad), math.sin(RING.heading_rad)
    along = radius_m * math.sin(angle)
    ring = replace(
        begun,
        north_m=RING.north_m + cosine * along - sine * aside,
        east_m=RING.east_m + sine * along + cosine * aside,
    )
    level_turn = math.atan(40.0**2 / (GRAVITY_M_S2 * radius_m))
    assert towards_rad(ring, start) == pytest.approx(level_turn, rel=angle**2)
    mirrored = replace(ring, east_m=-ring.east_m, heading_rad=-ring.heading_rad)
    north, east, down, e0, e1, e2, e3, *speed = start
    assert towards_rad(mirrored, (north, -east, down, e0, e1, e2, -e3, *speed)) == pytest.approx(-level_turn, rel=0.03)
    assert towards_rad(RING, at(-100.0, 0.0, 0.0)) == pytest.approx(0.0, abs=1e-12)


def test_the_rings_stand_as_far_apart_as_is_flown_between_them_and_lead_left_and_right():
    who = flyer(built(BIPLANE).airplane("rotary"))
    rings = course(who, 8.5)
    speed_m_s = math.hypot(*who.start[7:10])
    assert [ring.due_s for ring in rings] == list(RINGS_S)
    assert {ring.altitude_m for ring in rings} == {-who.start[2]}
    for one, other in pairwise(rings):
        straight_m = math.hypot(other.north_m - one.north_m, other.east_m - one.east_m)
        assert 0.97 < straight_m / (speed_m_s * (other.due_s - one.due_s)) <= 1.0
        assert straight_m > 4.0 * one.radius_m
    turned = [other.heading_rad - one.heading_rad for one, other in pairwise(rings)]
    assert min(turned) < -0.3
    assert max(turned) > 0.3
    fastest = GRAVITY_M_S2 * math.tan(BANK_RAD) / speed_m_s
    assert all(abs(turn) < 1.001 * fastest * 5.0 for turn in turned)
    assert math.hypot(rings[1].north_m, rings[1].east_m) > 4.0 * rings[1].radius_m
    aside_m = [abs(ring.east_m) for ring in rings]
    assert min(aside_m[1:]) > rings[0].radius_m, "who flies straight on misses all but the first"
