"""Least detectable errors of geodetic networks.

W. Baarda, A Testing Procedure for Use in Geodetic Networks, Netherlands Geodetic Commission, Publications on Geodesy,
New Series 2 (5), Delft 1968: for a significance of 0.1 % and a power of 80 % the noncentrality λ0 = 17.07, its root
δ0 = 4.13. C. D. Ghilani, Adjustment Computations, gives the same values in his chapter on blunder detection.

Mark: M
"""

from sim.airframe.drawing_snooping import LIMIT, NONCENTRALITY


def test_critical_value(printed):
    printed(LIMIT, "3.29", row="critical value of the normalised residual, significance 0.1 %")


def test_root_of_the_noncentrality(printed):
    printed(NONCENTRALITY, "4.13", row="δ0, least detectable error in standard errors over the root of the redundancy")


def test_noncentrality(printed):
    printed(NONCENTRALITY**2, "17.07", row="λ0, noncentrality for significance 0.1 % and power 80 %")
