"""R. S. Khurmi & J. K. Gupta, Theory of Machines, chapter 14, Examples 14.3 (p. 487) and 14.5 (p. 491).

And of its chapter 4 the wheel of a car on three wires. Mark P: read in a reproduction of the source and recomputed.
"""

import pytest

from sim.rotor.swing import period, swing
from sim.studies.couple import couple
from sim.units.parsing import Measured

RPM = 0.10471975511965977


def propeller(turn):
    """Example 14.3: engine and propeller 400 kg, k 0.3 m, 2400 rpm clockwise from the rear; 200 km/h, radius 50 m."""
    return couple(
        mass_kg=400.0, gyration_radius_m=0.3, spin_rad_s=2400 * RPM, speed_m_s=200 / 3.6, radius_m=50.0, turn=turn
    )


def test_example_14_3_size(printed):
    """The book rounds the speeds first and prints 10 046 N m; the unrounded product is 10 053."""
    ours, why = propeller("left").couple_n_m, "the book rounds the speeds first"
    printed(ours, "10046", "N m", row="Example 14.3: couple, as printed", share=1e-3, why=why)
    printed(ours, "10053", "N m", row="Example 14.3: couple, unrounded", mark="X")


@pytest.mark.parametrize(("turn", "effect"), [("left", "nose up"), ("right", "nose down")])
def test_example_14_3_effect(turn, effect, printed):
    printed(propeller(turn).effect, effect, row=f"Example 14.3: {turn} turn")


def test_example_14_5(printed):
    """Turbine rotor of a ship, 750 kg, k 0.25 m, 1500 rpm, pitching at 1 rad/s: 7363 N m."""
    rotor = couple(mass_kg=750.0, gyration_radius_m=0.25, spin_rad_s=1500 * RPM, pitch_rate_rad_s=1.0)
    printed(rotor.couple_n_m, "7363", "N m", row="Example 14.5: couple")


def test_a_wheel_on_three_wires(printed):
    """Wires 2.5 m long at 250 mm, 50 swings in 170 s: radius of gyration 268 mm (the book takes g 9.81)."""
    hung = {"mass": 20.0, "radius": 0.25, "length": 2.5, "carrier_mass": 0.0, "carrier_inertia": 0.0}
    timing = period([Measured(170.0, 0.1)], 50)
    found = swing("trifilar", {name: Measured(value) for name, value in hung.items()}, timing)
    gyration_mm = 1e3 * (found.polar_inertia_kg_m2 / 20.0) ** 0.5
    printed(gyration_mm, "268", "mm", row="chapter 4, wheel on three wires: radius of gyration")
