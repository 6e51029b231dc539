"""Rectangular biplanes of aspect ratio 6 by a second lattice: slopes, centres, downwash, roll damping, dihedral effect.

Mark X: no source prints them; they are converged values of a lattice made for this check apart from the program's, with
36 strips of equal width and 5 rows a wing. Wings of equal span, parallel, flat wakes; distances from the lower leading
edge; slopes a radian, of the whole on the area of both.
"""

import math
from functools import cache

import pytest

from sim.aerodynamics.biplane import interference
from sim.aerodynamics.lattice import circulation, lattice
from sim.aerodynamics.lattice_forces import downwash, forces
from sim.aerodynamics.lattice_panels import LiftingPlane
from sim.aerodynamics.lattice_plane_flow import plane_flow

MONOPLANE = (LiftingPlane(6.0, 1.0),)
SLOPES = [
    (0.0, 0.75, "3.198", "3.198", "3.198", ".759"),
    (0.0, 1.00, "3.390", "3.390", "3.390", ".805"),
    (0.0, 1.50, "3.637", "3.637", "3.637", ".864"),
    (0.5, 1.00, "3.826", "3.098", "3.462", ".822"),
    (0.5, 1.50, "3.887", "3.444", "3.666", ".870"),
]
SLOPE = {"share": 0.005, "why": "a lattice of other panels, trusted to .5 %", "kind": "lift slopes of a biplane"}
MOMENT = {"share": 0.01, "why": "a lattice of other panels, trusted to 1 %", "kind": "downwash and roll of a biplane"}


def cell(ahead, gap):
    return (LiftingPlane(6.0, 1.0, height_m=gap, stagger_m=ahead), *MONOPLANE)


@cache
def solved(planes):
    grid = lattice(planes)
    flow = circulation(grid)
    return forces(grid, flow), lambda x, z: downwash(grid, flow.alpha_m_rad, (x, 0.0, z))


def test_monoplane(printed):
    found, _ = solved(MONOPLANE)
    printed(found.lift_slope_per_rad, "4.211", row="monoplane lift slope", **SLOPE)


@pytest.mark.parametrize(("ahead", "gap", "upper", "lower", "both", "ratio"), SLOPES)
def test_slopes(ahead, gap, upper, lower, both, ratio, printed):
    found, where = solved(cell(ahead, gap))[0], f"stagger {ahead:g}, gap {gap:g} chords"
    printed(found.planes[0].lift_slope_per_rad, upper, row=f"upper lift slope, {where}", **SLOPE)
    printed(found.planes[1].lift_slope_per_rad, lower, row=f"lower lift slope, {where}", **SLOPE)
    printed(found.lift_slope_per_rad, both, row=f"lift slope, {where}", **SLOPE)
    monoplane = solved(MONOPLANE)[0].lift_slope_per_rad
    printed(found.lift_slope_per_rad / monoplane, ratio, row=f"over the monoplane, {where}", **SLOPE)


@pytest.mark.parametrize(("ahead", "centre"), [(0.0, ".222"), (0.5, "-.051")])
def test_aerodynamic_centre(ahead, centre, printed):
    row = f"aerodynamic centre in chords, stagger {ahead:g}, gap 1 chord"
    why = "a lattice of other panels"
    printed(solved(cell(ahead, 1.0))[0].aerodynamic_centre_m, centre, row=row, within=0.002, why=why)


DOWNWASH = [
    ("monoplane", MONOPLANE, 0.0, ".412", ".388"),
    ("stagger 0", cell(0.0, 1.0), 0.5, ".571", ".537"),
    ("stagger .5", cell(0.5, 1.0), 0.5, ".574", ".544"),
]


@pytest.mark.parametrize(("where", "planes", "height", "three", "four"), DOWNWASH)
def test_downwash(where, planes, height, three, four, printed):
    at = solved(planes)[1]
    printed(at(3.0, height), three, row=f"downwash slope 3 chords aft, {where}", **MOMENT)
    printed(at(4.0, height), four, row=f"downwash slope 4 chords aft, {where}", **MOMENT)


def test_downwash_of_the_biplane_for_its_lift(printed):
    """A biplane's downwash is about 1.4 times the monoplane's at equal incidence."""
    ratio = solved(cell(0.0, 1.0))[1](3.0, 0.5) / solved(MONOPLANE)[1](3.0, 0.0)
    printed(ratio, "1.4", row="downwash over the monoplane's, 3 chords aft, gap 1 chord")


ROLL = [
    ("monoplane", MONOPLANE, "-.439", "-.730"),
    ("gap 1 chord", cell(0.0, 1.0), "-.364", "-.597"),
    ("gap 1.25 chords", cell(0.0, 1.25), "-.380", "-.625"),
]


@pytest.mark.parametrize(("where", "planes", "damping", "dihedral"), ROLL)
def test_roll(where, planes, damping, dihedral, printed):
    found = solved(planes)[0]
    printed(found.roll_damping_per_rad, damping, row=f"roll damping, {where}", **MOMENT)
    printed(found.dihedral_effect_per_rad2, dihedral, row=f"dihedral effect, {where}", **MOMENT)


def test_damping_falls_with_the_slope(printed):
    """By .829 beside .805: nearly the same ratio."""
    pair, one = solved(cell(0.0, 1.0))[0], solved(MONOPLANE)[0]
    row = "roll damping over the monoplane's, gap 1 chord"
    printed(pair.roll_damping_per_rad / one.roll_damping_per_rad, ".829", row=row, **MOMENT)


def test_two_wings_lift_61_percent_more_than_one(printed):
    """Not 20 %, as is told: that has no source."""
    ours = 200.0 * solved(cell(0.0, 1.0))[0].lift_slope_per_rad / solved(MONOPLANE)[0].lift_slope_per_rad - 100.0
    printed(
        ours,
        "61",
        "%",
        row="lift of two wings above that of one, gap 1 chord",
        within=1.0,
        why="a lattice of other panels",
    )


def test_slope_without_a_lattice(printed):
    """Plane flow and induced drag: 1/a = 1/(2π .8545) + (1 + σ)(1 + δ)/(π A), δ .05."""
    plane = plane_flow(cell(0.0, 1.0)).lift_slope_per_rad
    ours = 1.0 / (1.0 / plane + (1.0 + interference(6.0, 6.0, 1.0)) * 1.05 / (6.0 * math.pi))
    printed(ours, "3.68", row="slope by plane flow and lifting line, gap 1 chord")
    printed(ours / 4.530, ".81", row="slope by plane flow and lifting line, over the lifting line of the monoplane")
