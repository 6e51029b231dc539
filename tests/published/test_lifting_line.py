"""Lifting-line theory: elliptic, rectangular and tapered wings, and the horseshoe vortex behind a wing.

Mark X: closed form, or converged with 200 to 800 points apart from the program. The book values are Glauert's, The
Elements of Aerofoil and Airscrew Theory, 1926, and Anderson's, Fundamentals of Aerodynamics, Example 5.1, marked M R:
Glauert's series of four terms leaves δ about 6 % low, and Anderson reads δ and τ off a chart. The lifting line is made
of the kernel of the lattice: horseshoes in one row, whose downwash is met on their own bound vortices. Section slope
2π.
"""

import math
from functools import cache

import numpy as np
import pytest

from sim.aerodynamics.lattice import circulation
from sim.aerodynamics.lattice_forces import forces, induced_drag, induced_factor
from sim.aerodynamics.lattice_kernel import induced_velocity
from sim.aerodynamics.lattice_panels import LiftingPlane, Strips, panels, strips

COUNT = 80
WHY = "80 horseshoes"


def elliptic(aspect):
    """Span 2 and a straight quarter-chord line."""
    edges, middles = -np.cos(np.pi * np.arange(COUNT + 1) / COUNT), -np.cos(np.pi * (np.arange(COUNT) + 0.5) / COUNT)
    root = 8.0 / (math.pi * aspect)
    edge, middle = (root * np.sqrt(np.maximum(1.0 - places**2, 0.0)) for places in (edges, middles))
    lines = (
        np.column_stack((-0.25 * chord, places, 0.0 * places)) for chord, places in ((edge, edges), (middle, middles))
    )
    return Strips(next(lines), edge, next(lines), middle, np.zeros(COUNT), 2.0, 4.0 / aspect)


@cache
def line(aspect, taper=None):
    """Return lift slope, roll damping, dihedral effect, and δ and τ of Glauert."""
    wing = elliptic(aspect) if taper is None else strips(LiftingPlane(aspect, 1.0, taper=taper), COUNT)
    grid = panels([wing], 1)
    y, across = grid.bound_m[:, 1], (grid.right_m - grid.left_m)[:, 1]
    met = np.column_stack((np.ones_like(y), 2.0 * y / grid.span_m, np.sign(y)))
    flow = np.diag(1.0 / (math.pi * grid.row_chord_m)) - induced_velocity(grid.bound_m, grid)[1]
    load = np.linalg.solve(flow, met)
    slope = 2.0 * across @ load[:, 0] / wing.area_m2
    damping, dihedral = -2.0 * (across * y) @ load[:, 1:] / (wing.area_m2 * grid.span_m)
    delta = induced_factor(grid, load[:, 0], induced_drag(grid, load[:, 0])) - 1.0
    tau = math.pi * aspect * (1.0 / slope - 0.5 / math.pi) - 1.0
    return {"slope": slope, "damping": damping, "dihedral": dihedral, "delta": delta, "tau": tau}


def test_elliptic_wing(printed):
    found = line(6.0)
    for key, value in (("slope", 2.0 * math.pi * 6.0 / 8.0), ("damping", -0.47124), ("dihedral", -0.8)):
        row = {"slope": "lift slope", "damping": "roll damping", "dihedral": "dihedral effect"}[key]
        how = {"share": 1e-3, "why": WHY, "kind": "lifting line"}
        printed(found[key], f"{value:.5f}", row=f"elliptic wing, aspect ratio 6: {row}", **how)


@pytest.mark.parametrize("aspect", [2.0, 12.0])
def test_elliptic_wing_of_any_aspect_ratio(aspect):
    found = line(aspect)
    assert found["slope"] == pytest.approx(2.0 * math.pi * aspect / (aspect + 2.0), rel=1e-3)
    assert found["damping"] == pytest.approx(-0.25 * math.pi * aspect / (aspect + 4.0), rel=1e-3)
    assert found["dihedral"] == pytest.approx(-4.0 / 3.0 * aspect / (aspect + 4.0), rel=1e-3)
    assert found["delta"] == pytest.approx(0.0, abs=1e-3)


RECTANGULAR = [
    (0.5, ("0.10", "0.019"), ("0.0990", "0.0202")),
    (1.0, ("0.17", "0.049"), ("0.1659", "0.0511")),
    (1.5, ("0.22", "0.076"), ("0.2168", "0.0808")),
]


@pytest.mark.parametrize(("ratio", "book", "converged"), RECTANGULAR)
def test_rectangular_wing(ratio, book, converged, printed):
    found = line(ratio * 2.0 * math.pi, 1.0)
    for key, sign, old, new in zip(("tau", "delta"), "τδ", book, converged, strict=True):
        where = f"{sign} of a rectangular wing, aspect ratio over slope {ratio:g}"
        printed(found[key], old, row=f"{where}: Glauert", within=0.005, why="his series has four terms", mark="M R")
        printed(found[key], new, row=f"{where}: converged", within=3e-4, why=WHY, kind="lifting line")


@pytest.mark.parametrize(
    ("aspect", "taper", "slope", "delta", "damping"),
    [
        (6.0, 1.0, "4.530", "0.0483", "-0.523"),
        (8.0, 0.4, "4.979", "0.0130", "-0.527"),
        (10.0, 1.0, "5.047", "0.0859", "-0.642"),
    ],
)
def test_converged_wings(aspect, taper, slope, delta, damping, printed):
    found, where = line(aspect, taper), f"aspect ratio {aspect:g}, taper {taper:g}"
    how = {"share": 0.002, "why": WHY, "kind": "lifting line"}
    printed(found["slope"], slope, row=f"lift slope, {where}", **how)
    printed(found["damping"], damping, row=f"roll damping, {where}", **how)
    printed(found["delta"], delta, row=f"δ, {where}", within=5e-4, why=WHY)


def test_a_lifting_line_is_7_percent_above_a_lifting_surface(printed):
    grid = panels([strips(LiftingPlane(6.0, 1.0), 40)], 8)
    surface = forces(grid, circulation(grid)).lift_slope_per_rad
    ours = 100.0 * (line(6.0, 1.0)["slope"] / surface - 1.0)
    printed(
        ours,
        "7",
        "%",
        row="lift slope above that of the lattice, rectangular, aspect ratio 6",
        within=1.0,
        why="rounded",
    )


def test_example_of_anderson(printed):
    """Aspect ratio 8, taper .8, 5°, with δ and τ .055 of the chart."""
    found, angle, why = line(8.0, 0.8), math.radians(5.0), "the book reads δ = τ = .055 off a chart"
    lift = found["slope"] * angle
    how = {"mark": "M R", "why": why}
    printed(math.radians(found["slope"]), "0.0867", "1/°", row="Anderson 5.1: lift slope", share=0.02, **how)
    printed(lift, "0.4335", row="Anderson 5.1: lift coefficient", share=0.02, **how)
    printed(
        lift**2 * (1.0 + found["delta"]) / (8.0 * math.pi),
        "0.00793",
        row="Anderson 5.1: induced drag",
        share=0.05,
        **how,
    )
    printed(found["delta"], "0.055", row="Anderson 5.1: δ", within=0.012, **how)
    printed(found["delta"], "0.0444", row="δ of that wing, converged", within=3e-4, why=WHY)


@pytest.mark.parametrize(("place", "angle"), [(0.5, ".1231"), (1.0, ".0977"), (math.inf, ".0860")])
def test_downwash_of_a_horseshoe(place, angle, printed):
    """In place of an elliptic wing of aspect ratio 6 at a lift coefficient of 1, half span 1: Glauert."""
    half = 0.25 * math.pi
    edge, middle = np.array([[0.0, -half, 0.0], [0.0, half, 0.0]]), np.zeros((1, 3))
    grid = panels([Strips(edge, np.zeros(2), middle, np.zeros(1), np.zeros(1), 2.0 * half, 1.0)], 1)
    point = np.array([[min(place, 1e6), 0.0, 0.0]])
    ours = -induced_velocity(point, grid)[1][0, 0] * 4.0 / (6.0 * math.pi)
    printed(ours, angle, "rad", row=f"downwash {place:g} half spans behind", kind="lifting line")
