"""E. C. Vivian, A History of Aeronautics, 1921, and A. Lumsden, British Piston Aero-Engines: a rotary of 130 hp.

Clerget 9B: nine cylinders, 120 x 160 mm, 130 hp at 1250 rpm, 173 kg dry, 1020 mm across the heads. Mark P. No polar
inertia or turning mass of such an engine is published where we looked; all its dry mass at the radius of the heads is
an upper bound, and the mass that must turn at the cylinders' middle a plausible one (common practice).
"""

import math

import pytest

from sim.model.powerplant import powerplant
from sim.scenario.reading import load

DRY_KG, HEAD_RADIUS_M = 173.0, 0.51


@pytest.fixture(scope="module")
def bundled():
    return load().powerplant["rotary"]


def test_the_bundled_rotary_is_of_that_class(bundled, printed):
    ours, why = "the bundled rotary: ", "invented, of that class"
    printed(bundled.cylinders, "9", row=f"{ours}cylinders", exact=True)
    printed(2e3 * bundled.parts.crank_radius_m, "160", "mm", row=f"{ours}stroke", exact=True)
    printed(bundled.mass_kg, "173", "kg", row=f"{ours}dry mass", share=0.01, why=why)
    printed(bundled.power_w / 745.6998715822702, "130", "hp", row=f"{ours}power", exact=True)
    printed(bundled.speed_rad_s * 30.0 / math.pi, "1250", "rpm", row=f"{ours}speed", exact=True)


def test_its_polar_inertia_is_below_the_bound(bundled):
    engine = [part for part in powerplant("rotary", bundled).contributions if part.name != "propeller"]
    assert sum(part.mass_kg for part in engine) < DRY_KG
    assert 0.15 < sum(part.polar_inertia_kg_m2 for part in engine) / (DRY_KG * HEAD_RADIUS_M**2) < 1.0
