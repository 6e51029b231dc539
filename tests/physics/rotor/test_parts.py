"""Engines built up part by part against bodies whose inertia is known."""

import numpy as np
import pytest

from sim.rotor.cylinders import Reciprocating
from sim.rotor.parts import Wheel, annulus, barrel, fixed_parts, momentum_inertia, rotary_parts

RUNNING = Reciprocating(9, 0.085, 0.29, 1.1, 0.9, 0.35, 0.09)


def rotary(**changes):
    sizes = {
        "cylinder_mass_kg": 6.0,
        "cylinder_radius_m": 0.36,
        "crankcase_mass_kg": 40.0,
        "crankcase_radius_m": 0.2,
        **changes,
    }
    return rotary_parts(RUNNING, **sizes)


def test_rings_make_a_disc():
    edges = np.linspace(0.0, 0.4, 41)
    masses = 10.0 * np.diff(edges**2) / 0.4**2
    rings = sum(annulus(m, o, i) for m, o, i in zip(masses, edges[1:], edges[:-1], strict=True))
    assert rings == pytest.approx(annulus(10.0, 0.4), rel=1e-14)


def test_a_barrel_is_its_grains():
    """A solid cylinder cut into 200,000 random grains."""
    rng, length, diameter, centre = np.random.default_rng(1), 0.3, 0.14, 0.35
    along = centre + length * (rng.random(200_000) - 0.5)
    across = diameter / 2 * np.sqrt(rng.random(200_000)) * np.cos(2 * np.pi * rng.random(200_000))
    grains = (along**2 + across**2).mean()
    assert barrel(1.0, centre_radius_m=centre, length_m=length, diameter_m=diameter) == pytest.approx(grains, rel=2e-3)


def test_a_rotary_is_the_sum_of_its_parts():
    parts = {part.name: part for part in rotary()}
    assert parts["cylinders"].polar_inertia_kg_m2 == pytest.approx(9 * 6.0 * 0.36**2)
    assert parts["crankcase"].polar_inertia_kg_m2 == pytest.approx(0.5 * 40.0 * 0.2**2)
    assert parts["pistons"].polar_inertia_kg_m2 == pytest.approx(9 * 1.1 * 0.29**2)
    masses = {name: part.mass_kg for name, part in parts.items()}
    assert masses == pytest.approx({"cylinders": 54.0, "crankcase": 40.0, "pistons": 9.9, "rods": 8.1})
    assert momentum_inertia(parts.values()) == pytest.approx(sum(p.polar_inertia_kg_m2 for p in parts.values()))


def test_it_lies_under_all_its_mass_at_the_cylinder_heads():
    mass = sum(part.mass_kg for part in rotary())
    assert momentum_inertia(rotary()) < mass * 0.51**2


def test_a_point_cylinder_is_a_little_light():
    point, solid = (barrel(6.0, centre_radius_m=0.36, length_m=n, diameter_m=d) for n, d in ((0, 0), (0.28, 0.15)))
    assert 0.05 < solid / point - 1.0 < 0.07


def test_the_pistons_of_a_fixed_engine_carry_nothing():
    heavy = Reciprocating(4, 0.055, 0.17, 100.0, 0.0, 0.35, 0.05)
    crank = Wheel("crankshaft", 14.0, 0.05)
    assert momentum_inertia(fixed_parts([crank], heavy)) == momentum_inertia(fixed_parts([crank]))


def test_what_turns_backward_takes_away():
    wheels = [Wheel("crankshaft", 10.0, 0.1), Wheel("propeller shaft", 5.0, 0.1, ratio=-0.5)]
    assert momentum_inertia(fixed_parts(wheels)) == pytest.approx(0.1 - 0.025)
