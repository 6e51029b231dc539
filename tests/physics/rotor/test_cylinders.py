"""A rotary's pistons and rods: exact sums, limits, and the angular momentum they really carry."""

import numpy as np
import pytest

from sim.rotor.cylinders import (
    Reciprocating,
    fixed_position,
    fixed_rods,
    piston_radius,
    rod_angle,
    rotary_piston_inertia,
    rotary_pistons,
    rotary_position,
    rotary_rod_inertia,
    rotary_rods,
)

COUNTS = (1, 2, 3, 5, 7, 9, 11, 14)


def engine(cylinders=9, crank=0.085, rod=0.29):
    return Reciprocating(cylinders, crank, rod, 1.1, 0.9, 0.35, 0.09)


def swept(function, cylinders, **sizes):
    return function(engine(cylinders, **sizes), np.linspace(0.0, 2.0 * np.pi, 5040, endpoint=False))


@pytest.mark.parametrize("cylinders", COUNTS)
@pytest.mark.parametrize(
    ("exact", "summed"), [(rotary_pistons, rotary_piston_inertia), (rotary_rods, rotary_rod_inertia)]
)
def test_mean_and_ripple_are_those_of_a_whole_revolution(cylinders, exact, summed):
    inertia, momentum = swept(summed, cylinders), exact(engine(cylinders))
    assert momentum.mean_kg_m2 == pytest.approx(inertia.mean(), rel=1e-12)
    assert momentum.ripple_kg_m2 == pytest.approx(np.ptp(inertia) / 2.0, abs=1e-12 * momentum.mean_kg_m2, rel=1e-9)


@pytest.mark.parametrize("crank", [0.03, 0.1, 0.2, 0.28])
def test_ripple_stands_at_the_symmetric_angles_for_any_crank(crank):
    for summed, exact in ((rotary_piston_inertia, rotary_pistons), (rotary_rod_inertia, rotary_rods)):
        momentum = exact(engine(9, crank))
        assert momentum.ripple_kg_m2 == pytest.approx(np.ptp(swept(summed, 9, crank=crank)) / 2.0, rel=1e-6, abs=1e-13)


@pytest.mark.parametrize("cylinders", [4, 6, 10, 14])
def test_an_even_number_of_pistons_has_no_ripple(cylinders):
    assert rotary_pistons(engine(cylinders)).ripple_kg_m2 == pytest.approx(0.0, abs=1e-15)


def test_an_odd_number_has_a_little():
    assert 0.0 < rotary_pistons(engine(9)).ripple_kg_m2 < 1e-6 * rotary_pistons(engine(9)).mean_kg_m2
    assert rotary_pistons(engine(3)).ripple_kg_m2 > rotary_pistons(engine(5)).ripple_kg_m2


def test_no_crank_makes_the_pistons_part_of_the_hub():
    still = engine(crank=0.0)
    assert rotary_pistons(still).mean_kg_m2 == pytest.approx(9 * 1.1 * 0.29**2, rel=1e-15)
    assert rotary_pistons(still).ripple_kg_m2 == 0.0
    assert rotary_rods(still).mean_kg_m2 == pytest.approx(9 * 0.9 * ((0.35 * 0.29) ** 2 + 0.09**2), rel=1e-15)


def test_a_long_rod_makes_the_piston_move_as_a_cosine():
    angle = np.linspace(0.0, 2.0 * np.pi, 37)
    moved = piston_radius(angle, crank_radius_m=0.08, rod_length_m=1e4) - 1e4
    assert moved == pytest.approx(0.08 * np.cos(angle), abs=1e-6)


def test_dead_centres():
    assert piston_radius([0.0, np.pi], crank_radius_m=0.08, rod_length_m=0.3) == pytest.approx([0.38, 0.22])


def test_angular_momentum_is_that_of_points_carried_round():
    """Numerical velocities of points along piston pin and rod, crossed with their places, summed."""
    rig, spin, step = engine(5), 130.0, 1e-7
    centre, radius = rig.rod_centre_share * rig.rod_length_m, rig.rod_gyration_radius_m

    def points(time_s):
        at = rotary_position(spin * time_s, cylinders=5, crank_radius_m=0.085, rod_length_m=0.29)
        along = (at.pistons_m - at.crankpins_m) / rig.rod_length_m
        ends = [at.crankpins_m + (centre + side * radius) * along for side in (-1.0, 1.0)]
        return np.stack([at.pistons_m, *ends])

    for time_s in (0.0, 0.0007, 0.0031):
        velocity = (points(time_s + step) - points(time_s - step)) / (2 * step)
        place = points(time_s)
        clockwise = place[..., 1] * velocity[..., 0] - place[..., 0] * velocity[..., 1]
        pistons, first, second = clockwise.sum(axis=1)
        assert rig.piston_mass_kg * pistons == pytest.approx(spin * rotary_piston_inertia(rig, spin * time_s), rel=1e-7)
        rods = rig.rod_mass_kg * (first + second) / 2.0
        assert rods == pytest.approx(spin * rotary_rod_inertia(rig, spin * time_s), rel=1e-7)


def test_what_the_crank_feels_is_the_rate_of_the_momentum():
    """d(inertia)/dθ by central difference equals the sum of the Coriolis terms 2 m ρ ρ'."""
    rig, step = engine(7), 1e-6
    for angle in (0.1, 0.5, 2.0):
        slope = (rotary_piston_inertia(rig, angle + step) - rotary_piston_inertia(rig, angle - step)) / (2 * step)
        angles = rig.spaced(angle)
        radius = piston_radius(angles, crank_radius_m=0.085, rod_length_m=0.29)
        swing = -0.085 * np.sin(angles) * radius / np.sqrt(0.29**2 - (0.085 * np.sin(angles)) ** 2)
        assert slope == pytest.approx(float((2 * rig.piston_mass_kg * radius * swing).sum()), abs=1e-7)


def test_the_rod_turns_once_a_revolution():
    assert rod_angle(2 * np.pi, crank_radius_m=0.08, rod_length_m=0.3) == pytest.approx(2 * np.pi)


@pytest.mark.parametrize("angle", [0.0, 0.7, 2.2, 4.0])
def test_every_rod_keeps_its_length(angle):
    flat_four = {"cylinder_axes_rad": np.radians([90, -90, 90, -90]), "throws_rad": np.radians([90, -90, -90, 90])}
    rotary = rotary_position(angle, cylinders=9, crank_radius_m=0.085, rod_length_m=0.29)
    fixed = fixed_position(angle, **flat_four, crank_radius_m=0.085, rod_length_m=0.29)
    for at in (rotary, fixed):
        assert np.linalg.norm(at.pistons_m - at.crankpins_m, axis=1) == pytest.approx(0.29, rel=1e-14)
    assert fixed.pistons_m[:, 1] == pytest.approx(0.0, abs=1e-15)


def test_the_rods_of_a_fixed_engine_carry_their_big_ends():
    """Mean over a revolution of the momentum of rods as two points each, by numerical velocities."""
    rig, step = engine(4), 1e-6
    crank = np.linspace(0.0, 2.0 * np.pi, 720, endpoint=False)
    centre = rig.rod_centre_share * rig.rod_length_m

    def ends(angle):
        at = fixed_position(angle, cylinder_axes_rad=[0.0], throws_rad=[0.0], crank_radius_m=0.085, rod_length_m=0.29)
        along = (at.pistons_m - at.crankpins_m) / rig.rod_length_m
        return np.stack([at.crankpins_m + (centre + s * rig.rod_gyration_radius_m) * along for s in (-1, 1)])[:, 0]

    total = 0.0
    for angle in crank:
        place, rate = ends(angle), (ends(angle + step) - ends(angle - step)) / (2 * step)
        total += (place[:, 1] * rate[:, 0] - place[:, 0] * rate[:, 1]).mean()
    assert 4 * rig.rod_mass_kg * total / crank.size == pytest.approx(fixed_rods(rig), rel=1e-8)
