"""Sadhu Singh, Machine Design I, Example 8.1: a helical compression spring. Mark P.

300 N, spring index 8, 420 MPa, G 84 GPa, 50 N for 8 mm: Wahl factor 1.184, wire 4.15 mm, mean coil 34 mm, 14 coils.
The book rounds the wire (4.147) and the coil (33.2 mm, to 34) up before it counts the coils.
"""

import math

import pytest

from sim.display.spring import rate, shear_stress, wahl_factor


def test_the_wahl_factor(printed):
    printed(float(wahl_factor(8.0)), "1.184", row="Wahl factor")


def test_the_wire(printed):
    wire_m = math.sqrt(float(wahl_factor(8.0)) * 8.0 * 300.0 * 8.0 / (math.pi * 420e6))
    printed(wire_m * 1e3, "4.15", "mm", row="wire")
    assert float(shear_stress(300.0, wire_m, 8.0 * wire_m)) == pytest.approx(420e6)


def test_the_coils(printed):
    one_coil = float(rate(4.15e-3, 33.2e-3, 1.0, shear_modulus_pa=84e9))
    printed(one_coil / (50.0 / 8e-3), "14", row="active coils, of the wire and coil above")
