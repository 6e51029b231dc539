"""Hinge moments of plain flaps on the NACA 0009 in plane flow, per degree, as quoted by P. Soderman, 2009.

Answer on wing flaps and hinge moments [en.allexperts.com, Aeronautical Engineering, 2009/8], on the area and chord
behind the hinge; the gap is taken to be sealed. Mark P. The program's factors on thin-aerofoil theory are made of these
four values: the rows show that they come out again, not how well other flaps would.
"""

import math

import pytest

from sim.aerodynamics.hinge_moments import plain_slopes


@pytest.mark.parametrize(("share", "angle", "deflection"), [(0.2, "-.0045", "-.012"), (0.4, "-.010", "-.015")])
def test_slopes(share, angle, deflection, printed):
    ours = plain_slopes(share, sealed=True)
    printed(math.radians(ours.angle_per_rad), angle, "1/°", row=f"flap of {share:g} of the chord: with incidence")
    printed(math.radians(ours.deflection_per_rad), deflection, "1/°", row=f"flap of {share:g}: with deflection")
