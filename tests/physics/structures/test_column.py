"""Columns: where the curves meet, limits, and a crooked strut bent on by its own load."""

from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest

from sim.structures.beam_column import along, span
from sim.structures.column import column_strength_n, column_stress_pa, margin
from sim.structures.cross_section import ellipse, tube
from sim.structures.materials import materials

STEEL = materials()["4130 normalised"]


@pytest.mark.parametrize(("power", "share"), [(1.5, 3.0 / 7.0), (2.0, 0.5), (4.0, 2.0 / 3.0)])
def test_the_short_column_curve_meets_euler_with_its_slope(power, share):
    def stress(slenderness):
        return column_stress_pa(slenderness, modulus_pa=200e9, column_pa=400e6, power=power)

    meets = pi * sqrt(200e9 / (share * 400e6))
    assert stress(meets) == pytest.approx(share * 400e6, rel=1e-12)
    step = 1e-4 * meets
    before, after = ((stress(meets + s * step) - stress(meets)) / (s * step) for s in (-1.0, 1.0))
    assert before == pytest.approx(after, rel=2e-3)
    assert stress(0.0) == 400e6
    assert stress(2.0 * meets) == pytest.approx(share * 400e6 / 4.0, rel=1e-12)


def test_an_eccentric_strut_yields_in_its_compressed_fibre_at_its_strength():
    """The strut as a beam-column with the end moments P e, solved by the stiffness of its span."""
    section, length, off = tube(0.030, 0.0015), 1.1, 0.003
    load = column_strength_n(section, STEEL, length, eccentricity_m=off)
    bending = STEEL.modulus_pa * section.inertia_m4
    whole = span(length, bending, load)
    slopes = np.linalg.solve(whole.stiffness[1::2, 1::2], np.array([load * off, -load * off]))
    forces = whole.stiffness @ np.array([0.0, slopes[0], 0.0, slopes[1]])
    start = (0.0, slopes[0], -forces[1], forces[0])
    moments = along(bending, load, (), start=start, places_m=[0.0, 0.5 * length])[:, 2]
    assert abs(moments[0]) == pytest.approx(load * off, rel=1e-9)
    stress = load / section.area_m2 + abs(moments[1]) * section.fibre_m / section.inertia_m4
    assert stress == pytest.approx(STEEL.yield_pa, rel=1e-6)


def test_a_small_eccentricity_costs_little_of_a_stocky_strut_and_a_large_one_much():
    section = tube(0.025, 0.002)
    straight, near, far = (column_strength_n(section, STEEL, 0.1, eccentricity_m=e) for e in (0.0, 1e-6, 0.02))
    assert near == pytest.approx(min(straight, STEEL.yield_pa * section.area_m2), rel=2e-3)
    assert far < 0.4 * straight


def test_clamped_ends_bear_as_half_the_length():
    section = tube(0.025, 0.002)
    assert column_strength_n(section, STEEL, 1.4, fixity=4.0) == pytest.approx(
        column_strength_n(section, STEEL, 0.7), rel=1e-12
    )


def test_an_oval_strut_buckles_across_its_thickness():
    spruce = materials()["spruce"]
    slender = ellipse(0.085, 0.032)
    euler = pi**2 * spruce.modulus_pa * (pi / 64.0 * 0.085 * 0.032**3) / 2.5**2
    assert column_strength_n(slender, spruce, 2.5) == pytest.approx(euler, rel=1e-12)
    turned = replace(slender, inertia_m4=slender.side_inertia_m4, side_inertia_m4=slender.inertia_m4)
    assert column_strength_n(turned, spruce, 2.5) == column_strength_n(slender, spruce, 2.5)


def test_the_margin():
    assert margin(150.0, 100.0) == 0.5
    assert margin(150.0, 0.0) == float("inf")
