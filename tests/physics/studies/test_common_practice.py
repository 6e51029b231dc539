"""Plausibility of the bundled scenario against facts of common practice, which have no source.

Common practice: a light single-seat biplane replica with 130 to 150 hp cruises between 80 and 110 mph and is 6 to 18
mph faster at full power; a careful estimate lands within 15 to 20 lb of the scales; the airplane is weighed with the
pilot in before the mount is welded, and the mount is then set about half an inch forward or back. Its stall has a
source: types of the age, at the same wing loading.
"""

import math

import pytest

from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.studies.speeds import speeds

MPH_M_S, POUND_KG, INCH_M = 0.44704, 0.45359237, 0.0254
LOFTIN = [(1342 / 172, 55), (1949 / 231, 55), (1807 / 227, 56), (4595 / 440, 61), (2017 / 352.6, 47)]
"""Wing loading [lb/ft²] and stalling speed [mph] of five types: Loftin, Quest for Performance, Appendix A Table I."""


@pytest.fixture(scope="module")
def tollgate():
    return load("tollgate")


@pytest.mark.parametrize("powerplant", ["rotary", "flat_four"])
def test_speeds(tollgate, powerplant):
    found = speeds(Model(tollgate), powerplant=powerplant, altitude_m=0.0)
    weight_lb, area_ft2 = found.masses[powerplant].mass_kg / POUND_KG, 252.75
    scaled = [stall * math.sqrt(weight_lb / area_ft2 / loading) for loading, stall in LOFTIN]
    assert min(scaled) - 3.0 < found.stall_m_s / MPH_M_S < max(scaled) + 3.0
    assert 80.0 < found.cruise_m_s / MPH_M_S < 110.0
    assert 6.0 < (found.top_m_s - found.cruise_m_s) / MPH_M_S < 18.0


def test_gross_weight(tollgate):
    assert balance(Model(tollgate), powerplant="rotary").mass_kg / POUND_KG == pytest.approx(1400.0, abs=20.0)


def test_the_estimate_lands_near_the_scales_with_the_pilot_in(tollgate):
    weighing = balance(Model(tollgate)).weighing
    assert weighing.aboard == ("pilot",)
    assert abs(weighing.over_kg) / POUND_KG < 20.0


def test_the_mount_is_set_about_half_an_inch(tollgate):
    assert abs(balance(Model(tollgate), powerplant="flat_four").engine_move_m) / INCH_M == pytest.approx(0.5, abs=0.25)
