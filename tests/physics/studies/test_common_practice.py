"""Plausibility of the bundled scenario against facts of common practice, which have no source.

Common practice: a light single-seat biplane replica lifts off near 40 mph, cruises near 80 and stalls between 30 and
40; a careful estimate lands within 15 to 20 lb of the scales; the airplane is weighed with the pilot in before the
mount is welded, and the mount is then set about half an inch forward or back.
"""

import pytest

from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.studies.speeds import speeds

MPH_M_S, POUND_KG, INCH_M = 0.44704, 0.45359237, 0.0254


@pytest.fixture(scope="module")
def tollgate():
    return load("tollgate")


@pytest.mark.parametrize("powerplant", ["rotary", "flat_four"])
def test_speeds(tollgate, powerplant):
    found = speeds(Model(tollgate), powerplant=powerplant, altitude_m=0.0)
    assert 30.0 < found.stall_m_s / MPH_M_S < 40.0
    assert found.liftoff_m_s / MPH_M_S == pytest.approx(40.0, abs=4.0)
    assert found.cruise_m_s / MPH_M_S == pytest.approx(80.0, abs=10.0)


def test_gross_weight(tollgate):
    assert balance(Model(tollgate), powerplant="rotary").mass_kg / POUND_KG == pytest.approx(1400.0, abs=20.0)


def test_the_estimate_lands_near_the_scales_with_the_pilot_in(tollgate):
    weighing = balance(Model(tollgate)).weighing
    assert weighing.aboard == ("pilot",)
    assert abs(weighing.over_kg) / POUND_KG < 20.0


def test_the_mount_is_set_about_half_an_inch(tollgate):
    assert abs(balance(Model(tollgate), powerplant="flat_four").engine_move_m) / INCH_M == pytest.approx(0.5, abs=0.25)
