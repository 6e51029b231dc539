"""How hard screws are tightened: by published areas and torques, and within what each joint bears."""

import math

import pytest
from displays import VARIANTS, built

from sim.display.assembly.preload import PRESSED_PA, stress_area, tightenings
from sim.display.assembly.screws import WOOD


def test_stress_areas_are_those_of_the_standards():
    """ISO 898-1, table of coarse threads; ASME B1.1 for unified ones. [mm²]"""
    for thread, area in (("M3", 5.03), ("M4", 8.78), ("M5", 14.2), ("M6", 20.1)):
        assert 1e6 * stress_area(thread) == pytest.approx(area, abs=0.05), thread
    for thread, area in (("#4-40", 0.00604), ("#8-32", 0.0140), ("#10-32", 0.0200), ("1/4-20", 0.0318)):
        assert stress_area(thread) / 0.0254**2 == pytest.approx(area, rel=0.006), thread


@pytest.mark.parametrize("name", VARIANTS)
def test_every_screw_but_wood_and_the_clutch_has_a_torque_within_its_own_thread(name):
    assembly = built(name)
    found = tightenings(assembly)
    asked = {screw.name for screw in assembly.fasteners if screw.thread != WOOD} - {"clutch screw"}
    assert {one.name for one in found} == asked
    for one in found:
        screw = next(each for each in assembly.fasteners if each.standard == one.standard and each.name == one.name)
        wide = 2.0 * float(screw.slabs[1].outline_m[:, 0].max())
        assert one.tightening_n_m == pytest.approx(0.2 * one.bolt_preload_n * wide, rel=1e-6)
        assert 0.0 < one.bolt_preload_n <= 0.75 * 580e6 * stress_area(one.thread) * (1.0 + 1e-9)


def test_the_mast_bolts_press_the_wood_no_harder_than_it_bears():
    """The cone of 30° below the washer meets the wood behind the base: by hand, from the sizes of the standard."""
    assembly = built("default")
    bolt = next(one for one in tightenings(assembly) if one.name == "mast bolt")
    base = assembly.part("base")
    reach = 0.012 + 2.0 * math.tan(math.radians(30.0)) * base.thickness_m
    area = math.pi / 4.0 * (reach**2 - 0.0064**2)
    front = assembly.part("rear plate").z_from_m - assembly.part("base").z_to_m
    assert front < 0.0
    assert bolt.bears == "pressure on birch plywood"
    assert bolt.bolt_preload_n / area == pytest.approx(PRESSED_PA["birch plywood"], rel=0.001)


def test_a_screw_in_a_softer_thread_is_tightened_less():
    found = {one.name: one for one in tightenings(built("default"))}
    assert "acetal" in found["spring block screw"].bears
    assert found["spring block screw"].tightening_n_m < 0.5 * found["brake disc screw"].tightening_n_m
