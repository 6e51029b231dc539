"""W. J. Jackman & T. H. Russell, Flying Machines: Construction and Operation, 1910. Mark: P."""

import math

from sim.synchronizer.blocked_arc import blocked_arc_rad, helix_rad, projected_width_m

FOOT_M = 0.3048


def test_seven_feet_of_pitch_on_seven_feet_of_diameter(printed):
    """Printed to a quarter of a degree: 17 3/4° at the tip; 17.66° recomputed."""
    ours, why = math.degrees(helix_rad(7.0 * FOOT_M, 3.5 * FOOT_M)), "printed to a quarter of a degree"
    printed(ours, "17.75", "°", row="helix angle at the tip", within=0.125, why=why)


def test_projected_width_as_an_angle(printed):
    """Not printed there: the same geometry recomputed; pitch 2.0 m, radius .5 m, chord .20 m, thickness .03 m."""
    width_m = projected_width_m(0.20, 0.03, helix_rad(2.0, 0.5))
    ours = math.degrees(blocked_arc_rad(width_m, 0.0, 0.5))
    printed(ours, "21.30", "°", row="projected width as an angle, pitch 2.0 m, radius 0.5 m", mark="X")
