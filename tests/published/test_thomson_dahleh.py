"""W. T. Thomson & M. D. Dahleh, Theory of Vibration with Applications, 5th ed., Problem 2.7.

A flywheel of 70 lb hung on a knife edge at the inside of its rim, 6 in from its centre, swings in 1.22 s:
9.31 lb in s² about its axis. Mark P: read in a published solution and recomputed.
"""

from sim.rotor.swing import period, swing
from sim.units.parsing import Measured

LB, IN, LBF = 0.45359237, 0.0254, 4.4482216152605


def test_problem_2_7(printed):
    hung = {"mass": Measured(70 * LB), "arm": Measured(6 * IN)}
    found = swing("compound", hung, period([Measured(1.22, 0.005)], 1))
    printed(found.polar_inertia_kg_m2 / (LBF * IN), "9.31", "lb in s²", row="inertia about its own axis")
