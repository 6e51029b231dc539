"""A small wind-tunnel propeller of the UIUC Propeller Data Site.

Brandt, Deters, Ananda, Dantsker and Selig, UIUC Propeller Data Site, vol. 2: DA4002, 9 × 6.75 in, two blades. Mark: P
(read in a transcription of its tables).

At three quarters of the radius the Reynolds number is 62 000, so that the section of full-scale blades does not hold:
0.020 in the place of 0.009 for the smallest drag (from memory of sections there), and its zero-lift angle counted from
the chord line, as the tables give blade angles: the chord line of a flat-bottomed section 9 % thick stands 1.5° to the
flat face. Good: thrust up to J 0.7. Poor: power at rest, a fifth low, and both near zero thrust.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_geometry import tabled_blade
from sim.propulsion.blade_section import FLAT_BOTTOMED

RADII = [round(0.15 + 0.05 * step, 2) for step in range(18)]
CHORDS = [  # over tip radius
    *(0.1198, 0.1128, 0.1436, 0.1689, 0.1775, 0.1782, 0.1773, 0.1782, 0.1790),
    *(0.1787, 0.1787, 0.1786, 0.1785, 0.1790, 0.1792, 0.1792, 0.1692, 0.0154),
]
ANGLES_DEG = [
    *(42.481, 44.647, 41.154, 37.475, 34.027, 30.549, 27.875, 25.831, 23.996),
    *(22.396, 21.009, 19.814, 18.786, 17.957, 17.245, 16.657, 13.973, 2.117),
]
SECTION = replace(FLAT_BOTTOMED, zero_lift_rad=math.radians(-4.24 + 1.5), drag_min=0.020)
ROWS = [
    ("0.124", "0.1302", "0.0766"),
    ("0.250", "0.1196", "0.0742"),
    ("0.374", "0.1025", "0.0706"),
    ("0.501", "0.0826", "0.0643"),
    ("0.625", "0.0574", "0.0524"),
    ("0.721", "0.0384", "0.0417"),
    ("0.811", "0.0199", "0.0288"),
]
WHY = "Reynolds number 62 000, section not that of the blade"


def loads(ratio, rpm):
    chords = [0.5 * chord for chord in CHORDS]
    blade = tabled_blade(2, RADII, chords, np.radians(ANGLES_DEG))
    tip_mach = math.pi * rpm / 60.0 * 9.0 * 0.0254 / 340.3
    return blade_loads(blade, np.array([ratio]), tip_mach=tip_mach, section=SECTION)


@pytest.mark.parametrize(("ratio", "ct", "cp"), ROWS)
def test_in_flight(ratio, ct, cp, printed):
    found, near = loads(float(ratio), 5046.0), (0.1, 0.17) if float(ratio) < 0.8 else (0.25, 0.3)
    printed(float(found.ct[0]), ct, row=f"CT at J {ratio}", share=near[0], why=WHY, kind="small propeller: CT")
    printed(float(found.cp[0]), cp, row=f"CP at J {ratio}", share=near[1], why=WHY, kind="small propeller: CP")


def test_zero_thrust(printed):
    ours = brentq(lambda ratio: float(loads(ratio, 5046.0).ct[0]), 0.7, 1.1)
    printed(ours, "0.89", row="J of zero thrust", within=0.02, why="read off the trend of the table")


@pytest.mark.parametrize(
    ("rpm", "ct", "cp"), [(2053, "0.1290", "0.0878"), (3940, "0.1349", "0.0825"), (5943, "0.1405", "0.0801")]
)
def test_at_rest(rpm, ct, cp, printed):
    found = loads(0.0, rpm)
    printed(float(found.ct[0]), ct, row=f"CT at rest, {rpm} rpm", share=0.12, why=WHY, kind="small propeller: CT")
    printed(float(found.cp[0]), cp, row=f"CP at rest, {rpm} rpm", share=0.3, why=WHY, kind="small propeller: CP")
