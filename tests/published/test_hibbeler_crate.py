"""R. C. Hibbeler, Engineering Mechanics: Statics, 14th edition, Problem 8-33: a crate that is pushed. Mark P.

450 lb, pushed 3 ft above the floor: a push of 150 lb for each foot from the line of the weight to the edge.
"""

from sim.display.assembly.shaft import GRAVITY_M_S2, tipping_pull

FT, LBF = 0.3048, 4.4482216152605


def test_the_push_that_tips(printed):
    mass = 450.0 * LBF / GRAVITY_M_S2
    printed(tipping_pull(mass, arm_m=FT, height_m=3.0 * FT) / LBF, "150", "lb", row="push for an arm of one foot")
