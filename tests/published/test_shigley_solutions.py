"""Shigley's Mechanical Engineering Design: solutions of chapter 10 (10th edition), table A-20 (8th). Mark P.

Problem 10-1: Wahl's factor over Bergsträsser's. 10-3: music wire of 2.5 mm, outside diameter 31 mm, 13 active coils,
shear modulus 81.0 GPa. 10-24 (8th edition): stainless wire, fatigue by Goodman's line through Zimmerli's point, 35 and
55 kpsi. Table A-20, read in the 8th edition (2008): cold-drawn bar of AISI 1018. The examples use Bergsträsser's factor
for stresses, ours is Wahl's.
"""

import pytest

from sim.display.assembly.shaft import YIELD_PA
from sim.display.spring import INDEX_RANGE, SLENDERNESS_LIMIT, STRESS_FRACTION, rate, wahl_factor
from sim.display.spring_wire import SHEAR_ULTIMATE, endurance, tensile_strength

WIRE, COIL = 0.0025, 0.0285
KPSI = 6894757.293168
STRENGTHS = {"0.080": (244.363, "163.723"), "0.0915": (239.618, "160.544"), "0.1055": (231.257, "154.942")}
ROUNDED = "Zimmerli's 35 and 55 kpsi are taken as 241 and 379 MPa"


@pytest.mark.parametrize(("end", "value"), [(0, "1.36"), (1, "0.743")])
def test_the_factor_of_curvature(printed, end, value):
    index = INDEX_RANGE[end]
    wahl, other = float(wahl_factor(index)), (4.0 * index + 2.0) / (4.0 * index - 3.0)
    printed(100.0 * (wahl - other) / wahl, value, "%", row=f"Wahl's factor over Bergsträsser's, index {index:g}")


def test_the_rate(printed):
    printed(float(rate(WIRE, COIL, 13.0, 81.0e9)) / 1e3, "1.314", "N/mm", row="10-3, rate")


def test_the_strength(printed):
    strength = float(tensile_strength(WIRE)) / 1e6
    printed(strength, "1936", "MPa", row="10-3, tensile strength")
    printed(STRESS_FRACTION * strength, "871.2", "MPa", row="10-3, yield strength in torsion")


def test_the_length_that_buckles(printed):
    printed(SLENDERNESS_LIMIT * COIL * 1e3, "149.9", "mm", row="10-3, free length that buckles")


@pytest.mark.parametrize("wire", STRENGTHS)
def test_the_strength_in_shear(printed, wire):
    tensile, shear = STRENGTHS[wire]
    printed(SHEAR_ULTIMATE * tensile, shear, "kpsi", row=f"10-24, ultimate strength in torsion, wire {wire} in")


@pytest.mark.parametrize(("shear", "value"), [(163.723, "52.706"), (160.544, "53.239")])
def test_the_endurance(printed, shear, value):
    ours = float(endurance(shear * KPSI)) / KPSI
    printed(ours, value, "kpsi", row=f"10-24, endurance, strength {shear} kpsi", share=0.002, why=ROUNDED)


def test_the_yield_of_the_shaft(printed):
    printed(YIELD_PA / 1e6, "370", "MPa", row="table A-20, yield of cold-drawn 1018", exact=True)
