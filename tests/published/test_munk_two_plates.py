"""Munk, NACA TR 151, 1922, tables 1 and 2, after Kutta and Grammel: two flat plates in plane flow.

Mark X: the case is theirs; the digits are those of 400 vortices a plate, converged to the fourth, made for this check.
From memory the printed mean at a gap of one chord is .855, which agrees (M). Centre of pressure aft of the leading edge
of each plate.
"""

import math

import pytest

from sim.aerodynamics.lattice_panels import LiftingPlane
from sim.aerodynamics.lattice_plane_flow import plane_flow

ROWS = [
    (0.0, 0.50, ".7309", ".7309", ".7309", ".2222", ".2222"),
    (0.0, 1.00, ".8545", ".8545", ".8545", ".2324", ".2324"),
    (0.0, 1.50, ".9162", ".9162", ".9162", ".2396", ".2396"),
    (0.0, 2.00, ".9473", ".9473", ".9473", ".2434", ".2434"),
    (0.5, 0.75, ".9872", ".7066", ".8469", ".2235", ".2486"),
    (0.5, 1.00, ".9923", ".7707", ".8815", ".2313", ".2444"),
    (0.5, 1.50, ".9971", ".8564", ".9268", ".2396", ".2438"),
]
HOW = {"within": 1e-4, "why": "one unit of the last digit of two converged calculations"}


@pytest.mark.parametrize(("ahead", "gap", "upper", "lower", "mean", "upper_centre", "lower_centre"), ROWS)
def test_slopes_and_centres(ahead, gap, upper, lower, mean, upper_centre, lower_centre, printed):
    found = plane_flow([LiftingPlane(1.0, 1.0, height_m=gap, stagger_m=ahead), LiftingPlane(1.0, 1.0)])
    where = f"stagger {ahead:g}, gap {gap:g} chords"
    for name, plane, slope in zip(("upper", "lower"), found.planes, (upper, lower), strict=True):
        printed(plane.lift_slope_per_rad / (2.0 * math.pi), slope, row=f"{name} lift slope over 2π, {where}", **HOW)
    printed(found.lift_slope_per_rad / (2.0 * math.pi), mean, row=f"mean lift slope over 2π, {where}", **HOW)
    centres = (found.planes[0].aerodynamic_centre_m + ahead, found.planes[1].aerodynamic_centre_m)
    for name, ours, centre in zip(("upper", "lower"), centres, (upper_centre, lower_centre), strict=True):
        printed(ours, centre, row=f"{name} centre of pressure in chords, {where}", **HOW)


def test_reversed_stagger_swaps_the_plates():
    one, other = (
        plane_flow([LiftingPlane(1.0, 1.0, height_m=0.8, stagger_m=ahead), LiftingPlane(1.0, 1.0)]).planes
        for ahead in (0.4, -0.4)
    )
    assert one[0].lift_slope_per_rad == pytest.approx(other[1].lift_slope_per_rad, rel=1e-12)


def test_the_mean_from_memory(printed):
    found = plane_flow([LiftingPlane(1.0, 1.0, height_m=1.0), LiftingPlane(1.0, 1.0)])
    printed(found.lift_slope_per_rad / (2.0 * math.pi), ".855", row="mean over 2π at a gap of one chord", mark="M")
