"""Munk, NACA TR 151, 1922, and Prandtl, NACA TR 116, 1921: the span factor of two equal planes.

Mark M: the table of σ is from memory; k is recomputed from it. Prandtl read σ off curves: the exact integral of the
elliptic loads differs from his third digit by up to .0021. The row at .20 is printed
with k 1.160; its σ gives 1.1605, so 1.161.
"""

import math

import numpy as np
import pytest

from sim.aerodynamics.biplane import equivalent_span, interference
from sim.aerodynamics.lattice_forces import induced_drag, induced_factor
from sim.aerodynamics.lattice_panels import LiftingPlane, panels, strips

ROWS = [(0.10, "0.655", "1.099"), (0.15, "0.561", "1.132"), (0.20, "0.485", "1.161"), (0.25, "0.420", "1.187")]
SIGMAS = [(0.05, "0.780"), *((gap, sigma) for gap, sigma, _ in ROWS), (0.30, "0.370"), (0.40, "0.290"), (0.50, "0.230")]
CURVE = "the printed σ was read off a curve"


def misprint(gap):
    return "1.160" if gap == 0.20 else ""


@pytest.mark.parametrize(("gap", "sigma"), SIGMAS)
def test_interference(gap, sigma, printed):
    near = 0.005 if gap == 0.05 else 0.0025
    printed(interference(1.0, 1.0, gap), sigma, row=f"σ at gap over span {gap:g}", within=near, why=CURVE)


@pytest.mark.parametrize(("gap", "sigma", "k"), ROWS)
def test_span_factor_of_the_printed_interference(gap, sigma, k, printed):
    ours, row = math.sqrt(2.0 / (1.0 + float(sigma))), f"k of the printed σ at gap over span {gap:g}"
    printed(ours, k, row=row, misprint=misprint(gap))


@pytest.mark.parametrize(("gap", "_sigma", "k"), ROWS)
def test_span_factor(gap, _sigma, k, printed):
    ours, row = equivalent_span([1.0, 1.0], [0.0, gap], [0.5, 0.5]), f"k at gap over span {gap:g}"
    printed(ours, k, row=row, within=0.0015, why=CURVE, misprint=misprint(gap))


EXACT = [
    (0.05, ".7845", "1.0587"),
    (0.10, ".6565", "1.0988"),
    (0.15, ".5604", "1.1321"),
    (0.20, ".4842", "1.1608"),
    (0.25, ".4221", "1.1859"),
    (0.30, ".3705", "1.2080"),
    (0.40, ".2905", "1.2449"),
    (0.50, ".2322", "1.2740"),
]
"""Gap over span, σ and k of two elliptic loads: an integral done apart from the program."""


@pytest.mark.parametrize(("gap", "sigma", "k"), EXACT)
def test_exact(gap, sigma, k, printed):
    printed(interference(1.0, 1.0, gap), sigma, row=f"exact σ at gap over span {gap:g}", mark="X", kind="span factor")
    ours = equivalent_span([1.0, 1.0], [0.0, gap], [0.5, 0.5])
    printed(ours, k, row=f"exact k at gap over span {gap:g}", mark="X", kind="span factor")


@pytest.mark.parametrize(("gap", "sigma", "_k"), EXACT)
def test_interference_of_elliptic_loads_in_the_wake(gap, sigma, _k, printed):
    """From the energy of the wake of a lattice that bears two elliptic loads: σ = 2 / k² − 1."""
    grid = panels([strips(LiftingPlane(1.0, 0.1, height_m=height), 80) for height in (0.0, gap)], 1)
    load = np.sqrt(1.0 - (2.0 * grid.bound_m[:, 1]) ** 2)
    ours = 2.0 * induced_factor(grid, load, induced_drag(grid, load)) - 1.0
    row = f"exact σ at gap over span {gap:g}, by a lattice"
    printed(ours, sigma, row=row, within=0.001, why="80 strips a plane", mark="X", kind="span factor")


@pytest.mark.parametrize("gap", [gap for gap, _, _ in EXACT])
def test_the_fit_of_prandtl(gap, printed):
    """(1 − .66 x) / (1.05 + 3.7 x): .952 instead of 1 at no gap, so not for that."""
    fit = (1.0 - 0.66 * gap) / (1.05 + 3.7 * gap)
    how = {"within": 0.0031, "why": "the fit is good to .003 from .05 to .5", "mark": "M R"}
    printed(interference(1.0, 1.0, gap), f"{fit:.4f}", row=f"Prandtl's fit at gap over span {gap:g}", **how)
