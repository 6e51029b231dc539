"""Sadhu Singh, Machine Design I, Example 8.1: a helical compression spring. Mark P.

300 N, spring index 8, 420 MPa, G 84 GPa, 50 N for 8 mm: Wahl factor 1.184, wire 4.15 mm, mean coil 34 mm, 14 coils.
The book rounds the wire (4.147) and the coil (33.2 mm, to 34) up before it counts the coils.
"""

import math

import pytest

from sim.exhibit.spring import rate, shear_stress, wahl_factor


def test_the_wahl_factor():
    assert float(wahl_factor(8.0)) == pytest.approx(1.184, abs=5e-4)


def test_the_wire():
    wire_m = math.sqrt(float(wahl_factor(8.0)) * 8.0 * 300.0 * 8.0 / (math.pi * 420e6))
    assert wire_m * 1e3 == pytest.approx(4.15, abs=5e-3)
    assert float(shear_stress(300.0, wire_m, 8.0 * wire_m)) == pytest.approx(420e6)


def test_the_coils():
    one_coil = float(rate(4.15e-3, 33.2e-3, 1.0, shear_modulus_pa=84e9))
    assert round(one_coil / (50.0 / 8e-3)) == 14
