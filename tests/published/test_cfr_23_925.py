"""Clearance of a propeller above the ground, below which a remark is made.

14 CFR 23.925(a), 2014 text: gear statically deflected, level or in the attitude of take-off or taxiing, whichever is
worst. Mark: P.
"""

from sim.model.plausibility import limits

INCH_M = 0.0254


def test_clearance(printed):
    printed(limits.TAIL_WHEEL_CLEARANCE.least / INCH_M, "9", "in", row="with a tail wheel", exact=True)
    printed(limits.NOSE_WHEEL_CLEARANCE.least / INCH_M, "7", "in", row="with a nose wheel", exact=True)
