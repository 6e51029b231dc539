"""Resistance of the parts of an airplane.

Herrnstein and Biermann, The Drag of Airplane Wheels, Wheel Fairings, and Landing Gears I, NACA Report 485, 1934,
summary: landing gears for 3000 lb drag from 13 to 98 lb at 100 mph, fittings and interference are 44 % of it; a table
after it of an open gear with low-pressure wheels, drag coefficient on diameter times width of one tyre 1.112. Fales,
Learning to Fly in the U.S. Army, 1917: the struts of a training machine 20 lb, round rods of their thickness 80.
"Aeroplane Construction and Operation", 1918: apportionment of the head resistance of a typical speed scout, without its
wings. Mark: P. Of a biplane no breakdown with its dimensions was found in readable form: the last rows set another
airplane, the frozen sesquiplane, beside a typical one, and show an order of size, no more. Legs of the gears assumed.
"""

import math

import pytest
from airplanes import SESQUIPLANE

from sim.aerodynamics.drag_kinds import KINDS
from sim.aerodynamics.drag_parts import kind_area_m2
from sim.model.model import Model
from sim.numerics.uncertain import Uncertain
from sim.scenario.reading import load

FOOT_M, INCH_M, POUND_N = 0.3048, 0.0254, 4.4482216152605
PRESSURE_PA = 0.5 * 1.225 * (100.0 * 0.44704) ** 2


def gear_lb(legs, wheels):
    """Two wheels of 27 by 7 in, four legs of 34 in and an axle of 60 in, all 1.6 in thick, at 100 mph."""
    tyre, tube = KINDS[wheels], KINDS[legs]
    sides = {"diameter": Uncertain(27 * INCH_M), "width": Uncertain(7 * INCH_M), "height": Uncertain(27 * INCH_M)}
    leg = {"length": Uncertain(34 * INCH_M), "width": Uncertain(1.6 * INCH_M)}
    axle = {"length": Uncertain(60 * INCH_M), "width": Uncertain(1.6 * INCH_M)}
    parts = [(tyre, sides, 2), (tube, leg, 4), (tube, axle, 1)]
    areas = (
        count * (kind_area_m2(kind, own) * kind.part_coefficient * kind.interference).value
        for kind, own, count in parts
    )
    return PRESSURE_PA * sum(areas) / POUND_N


def test_the_cleanest_gear(printed):
    name = "landing gear, streamline legs and spats: at least, at 100 mph"
    ours = gear_lb("gear_strut", "spatted_wheel")
    printed(ours, "13", "lb", row=name, within=20.0, why="the cleanest of 22, with a single leg a side")
    assert ours > 13.0


def test_the_worst_gear(printed):
    name = "landing gear, round legs: at most, at 100 mph"
    printed(gear_lb("gear_tube", "wheel"), "98", "lb", row=name, share=0.25, why="legs assumed")


def test_an_ordinary_gear(printed):
    tyre_m2 = 27 * 7 * INCH_M**2
    ours = gear_lb("gear_strut", "wheel") * POUND_N / PRESSURE_PA / tyre_m2
    name = "landing gear, streamline legs and low-pressure wheels, on one tyre"
    printed(ours, "1.112", row=name, share=0.25, why="legs assumed")


def test_interference_of_gears(printed):
    share = 100.0 * (1.0 - 1.0 / KINDS["wheel"].interference.value)
    printed(share, "44", "%", row="fittings and interference of a landing gear", within=0.6, why="a factor of 1.8")


def test_round_rods_for_struts(printed):
    ratio = KINDS["round_strut"].part_coefficient.value / KINDS["oval_strut"].part_coefficient.value
    printed(20.0 * ratio, "80", "lb", row="round rods for struts of 20 lb", share=0.25, why="struts of 1917 were oval")


SCOUT = {
    "body": ("68", ("fuselage", "cowl", "cockpit", "exhausts")),
    "chassis": ("15", ("wheels", "legs")),
    "tail": ("5", ("tailplane", "fin", "tail_wires")),
    "wing structure, struts, wire, fittings": ("12", ("struts", "wires")),
}


@pytest.fixture(scope="module")
def areas():
    settings = ["drag.fuselage=flat-sided", "drag.part.legs.kind=gear_strut"]
    found = Model(load(SESQUIPLANE, settings)).drag_estimate().zero_lift
    return {part.name: part.drag_area_m2 for part in found.parts if part.name != "wing"}


@pytest.mark.parametrize("name", SCOUT)
def test_apportionment_of_a_scout(name, areas, printed):
    value, parts = SCOUT[name]
    ours = 100.0 * sum(areas[part] for part in parts) / sum(areas.values())
    printed(ours, value, "%", row=f"speed scout: {name}", within=25.0, why="another airplane")


def test_every_part_is_apportioned(areas):
    assert {part for _, parts in SCOUT.values() for part in parts} == set(areas)
    assert math.isclose(sum(float(value) for value, _ in SCOUT.values()), 100.0)
