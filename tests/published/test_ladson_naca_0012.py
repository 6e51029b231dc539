"""Lift and drag of the NACA 0012 with a rough strip at its nose.

Ladson, Effects of Independent Variation of Mach and Reynolds Numbers on the Low-Speed Aerodynamic Characteristics of
the NACA 0012 Airfoil Section, NASA TM 4074, 1988: Mach .15, Reynolds number 6 million, transition fixed at 5 % of the
chord with grit 80, as the Turbulence Modeling Resource tabulates it. Mark: P.
"""

import pytest

from sim.aerodynamics.drag_section import SectionShape, estimated_section, measured_section, shape_of
from sim.airframe.section import digits

# incidence, lift, drag
GRIT_80 = [
    (-4.04, -0.4417, 0.00871),
    (-2.14, -0.2385, 0.00800),
    (-0.05, -0.0126, 0.00809),
    (2.05, 0.2125, 0.00816),
    (4.04, 0.4316, 0.00823),
    (6.09, 0.6546, 0.00885),
    (8.30, 0.8873, 0.01050),
    (10.12, 1.0707, 0.01201),
    (11.13, 1.1685, 0.01239),
    (12.12, 1.2605, 0.01332),
    (13.08, 1.3455, 0.01503),
    (14.22, 1.4365, 0.01625),
    (15.26, 1.5129, 0.01900),
    (16.30, 1.5739, 0.02218),
    (17.13, 1.6116, 0.02560),
    (18.02, 0.9967, 0.18785),
]
OURS = estimated_section(shape_of(digits("0012")), 6e6, laminar=0.05)


def test_largest_lift(printed):
    band = OURS.section_lift_max.band
    printed(OURS.section_lift_max.value, "1.6116", row="largest lift", within=2.0 * band, why="two of our bands")


@pytest.mark.parametrize(
    "row", [one for one in GRIT_80 if one[0] < 12.5 and one[1] > -0.1], ids=lambda row: f"{row[0]:g}"
)
def test_drag_at_lift(row, printed):
    _, lift, drag = row
    ours = OURS.section_drag_min.value + OURS.section_drag_rise.value * (lift - OURS.section_lift_best) ** 2
    name = f"drag at the lift {lift:g}"
    printed(ours, f"{drag:.5f}", row=name, share=0.12, why="friction, form and a parabola; our band is 10 %")


def test_a_measured_polar_is_read_as_its_own_parabola(printed):
    found = measured_section(GRIT_80)
    assert found.section_lift_max.value == 1.6116
    least = min(drag for _, _, drag in GRIT_80)
    name = "least drag of the parabola through the points"
    printed(found.section_drag_min.value, f"{least:.5f}", row=name, share=0.05, why="a parabola through scatter")


def test_thickness_alone(printed):
    """Without camber the section is all thickness: that the shape read off the digits is the one meant."""
    shape = shape_of(digits("0012"))
    printed(shape.thickness, "0.12", row="thickness")
    assert shape == SectionShape(pytest.approx(0.12, abs=3e-4), 0.0, 0.5)
