"""Lift and drag of the NACA 0015 section far beyond its stall.

Sheldahl and Klimas, Aerodynamic Characteristics of Seven Symmetrical Airfoil Sections Through 180-Degree Angle of
Attack, Sandia Laboratories SAND80-2114, 1981, pages 31 and 32, Reynolds number 160 000. Mark: P (a transcription of its
table).

One plate stands here for every separated section: its force is normal to the chord, 1.8 sin α (1 + .15 cos² α).
"""

import math

import pytest

from sim.aerodynamics.section_curve import SectionCurve, section_coefficients

LIFT_WITHIN, DRAG_WITHIN, WHY = 0.15, 0.14, "one plate stands for all separated sections"

# angle of attack in degrees, lift, drag
NACA_0015 = [
    (25, 0.7224, 0.405),
    (30, 0.855, 0.570),
    (35, 0.980, 0.745),
    (40, 1.035, 0.920),
    (45, 1.050, 1.075),
    (50, 1.020, 1.215),
    (55, 0.955, 1.345),
    (60, 0.875, 1.470),
    (65, 0.760, 1.575),
    (70, 0.630, 1.665),
    (75, 0.500, 1.735),
    (80, 0.365, 1.780),
    (85, 0.230, 1.800),
    (90, 0.090, 1.800),
    (95, -0.050, 1.780),
    (100, -0.185, 1.750),
    (110, -0.450, 1.635),
    (120, -0.670, 1.465),
    (130, -0.850, 1.225),
    (140, -0.980, 0.925),
    (150, -0.770, 0.575),
]


@pytest.mark.parametrize(("degrees", "lift", "drag"), NACA_0015)
def test_separated_section(degrees, lift, drag, printed):
    curve = SectionCurve(lift_slope=6.3, lift_max=0.83, lift_min=-0.83)
    angle = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    ours = section_coefficients(curve)(angle)
    printed(ours[0], f"{lift:g}", "", row=f"lift coefficient at {degrees}°", within=LIFT_WITHIN, why=WHY)
    printed(ours[1], f"{drag:g}", "", row=f"drag coefficient at {degrees}°", within=DRAG_WITHIN, why=WHY)
