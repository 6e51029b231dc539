"""Hinge moment of a flap on a thin aerofoil, by the pressure of a bent plate integrated about the hinge.

Glauert, R. & M. 1095, 1927; the closed forms are equations 4.55 and 4.56 of Houghton & Carpenter, Aerodynamics for
Engineering Students (digilib.universitaspertamina.ac.id, page 202). Mark X: the values are quadratures of the loading
of a bent plate, made apart from the program.
"""

import pytest

from sim.aerodynamics.hinge_moments import thin_aerofoil_slopes

ROWS = [
    (0.1, "-0.3449", "-0.8842"),
    (0.25, "-0.5653", "-0.9436"),
    (0.4, "-0.7448", "-1.0127"),
    (0.6, "-0.9727", "-1.1266"),
    (0.85, "-1.2919", "-1.3356"),
]


@pytest.mark.parametrize(("share", "angle", "deflection"), ROWS)
def test_slopes(share, angle, deflection, printed):
    ours = thin_aerofoil_slopes(share)
    printed(ours.angle_per_rad, angle, "1/rad", row=f"flap of {share:g} of the chord: b1, with incidence")
    printed(ours.deflection_per_rad, deflection, "1/rad", row=f"flap of {share:g} of the chord: b2, with deflection")
