"""Lift and drag of the NACA 0015 section up to its stall and far beyond, and where a wing of it rolls by itself.

Sheldahl and Klimas, Aerodynamic Characteristics of Seven Symmetrical Airfoil Sections Through 180-Degree Angle of
Attack, Sandia Laboratories SAND80-2114, 1981, pages 31 and 32, Reynolds number 160 000. Mark: P (a transcription of its
table).

One plate stands here for every separated section: its force is normal to the chord, 1.8 sin α (1 + .15 cos² α). Slope
and largest lift of the curve are read from the table.

Mark X: where slope of the lift and drag add up to less than nothing (Glauert), by differences of the table, and the
roll that goes on by itself of a rectangular wing by its strips. Computed from the table, measured by nobody.
"""

import math

import numpy as np
import pytest

from sim.aerodynamics.section_curve import SectionCurve, section_coefficients
from sim.aerodynamics.strips import Strip, Strips
from sim.flight.autorotation import autorotation

CURVE = SectionCurve(lift_slope=6.3, lift_max=0.83, lift_min=-0.83, drag_zero_lift=0.0115)
LIFT_WITHIN, DRAG_WITHIN, WHY = 0.15, 0.14, "one plate stands for all separated sections"

ATTACHED = [(2, ".2200"), (4, ".4400"), (6, ".6299"), (8, ".7851")]
# angle of attack in degrees, lift, drag
STALLED = [(14, ".2371", ".1040"), (16, ".2665", ".1970"), (18, ".3567", ".2380"), (20, ".4575", ".2820")]
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


def at(degrees):
    return section_coefficients(CURVE)((math.sin(math.radians(degrees)), math.cos(math.radians(degrees))))


@pytest.mark.parametrize(("degrees", "lift"), ATTACHED)
def test_attached_section(degrees, lift, printed):
    why = "a line, and a round break at its end"
    printed(at(degrees)[0], lift, "", row=f"lift coefficient at {degrees}°", within=0.07, why=why)


def test_greatest_lift(printed):
    """The table bends from 6° on and is greatest at 10°; our line goes on to 8° and breaks there."""
    ours = max(at(one)[0] for one in np.arange(0.0, 15.0, 0.05))
    printed(ours, ".8322", "", row="greatest lift coefficient", within=0.03, why="3 % beyond the end of the line")
    why = "our line breaks where the table bends, 2° sooner"
    printed(at(10)[0], ".8322", "", row="lift coefficient at 10°", within=0.35, why=why)


@pytest.mark.parametrize(("degrees", "lift", "drag"), STALLED)
def test_section_just_stalled(degrees, lift, drag, printed):
    ours, why = at(degrees), "sections differ here by so much; ours is their middle"
    printed(ours[0], lift, "", row=f"lift coefficient at {degrees}°", within=0.3, why=why)
    printed(ours[1], drag, "", row=f"drag coefficient at {degrees}°", within=0.06, why=why)


@pytest.mark.parametrize(("degrees", "lift", "drag"), NACA_0015)
def test_separated_section(degrees, lift, drag, printed):
    ours = at(degrees)
    printed(ours[0], f"{lift:g}", "", row=f"lift coefficient at {degrees}°", within=LIFT_WITHIN, why=WHY)
    printed(ours[1], f"{drag:g}", "", row=f"drag coefficient at {degrees}°", within=DRAG_WITHIN, why=WHY)


def rectangular(count=100):
    """Return a rectangular wing whose strips turn no stream."""
    step = 3.0 / count
    places = step * (np.arange(count) + 0.5)
    wing = tuple(Strip("wing", CURVE, step, 1.0, (0.0, y, 0.0), (0.0, y, 0.0), (0.0, 1.0)) for y in places)
    return Strips(wing, (), (), 6.0, 6.0, 4.0, (0.0, 0.0), 1.0, 0.0)


def test_autorotation(printed):
    """The table's lift falls to .24 after the stall, ours to .48: driven less far beyond it, and less fast."""
    alpha = np.arange(6.0, 24.0, 0.25)
    driven = alpha[autorotation(rectangular(), np.radians(alpha)).damping > 0.0]
    why = "this section at its low Reynolds number breaks deeper than our curve, which is the middle of sections"
    printed(float(driven[0]), "10", "°", row="a roll is driven from", within=2.0, why=why, mark="X")
    printed(float(driven[-1]), "15", "°", row="a roll is driven to", within=4.0, why=why, mark="X")
    rates = autorotation(rectangular(), np.radians([12.0, 20.0])).steady_rate
    printed(float(rates[0]), ".193", "", row="roll p b/2V that goes on at 12°", within=0.05, why=why, mark="X")
    assert rates[1] == 0.0  # none in the table either
