"""Ordinates of the NACA 2412 section.

Jacobs, Ward and Pinkerton, The Characteristics of 78 Related Airfoil Sections, NACA Report 460, 1933; the same table in
Abbott and von Doenhoff, Theory of Wing Sections, 1959, Appendix III. Mark: M (the table from memory), recomputed.

The tables were plotted and read by hand: the formulas of the same report give up to 0.021 % of the chord more below the
rear half, so the tolerance there is 0.025 instead of half a unit of the last digit.
"""

import pytest

from sim.airframe.section import digits

# station, upper, lower, in percent of the chord
NACA_2412 = [
    (1.25, 2.15, -1.65),
    (2.5, 2.99, -2.27),
    (5.0, 4.13, -3.01),
    (7.5, 4.96, -3.46),
    (10.0, 5.63, -3.75),
    (15.0, 6.61, -4.10),
    (20.0, 7.26, -4.23),
    (25.0, 7.67, -4.22),
    (30.0, 7.88, -4.12),
    (40.0, 7.80, -3.80),
    (50.0, 7.24, -3.34),
    (60.0, 6.36, -2.76),
    (70.0, 5.18, -2.14),
    (80.0, 3.75, -1.50),
    (90.0, 2.08, -0.82),
    (95.0, 1.14, -0.48),
    (100.0, 0.13, -0.13),
]


@pytest.mark.parametrize(("station", "upper", "lower"), NACA_2412)
def test_ordinates(station, upper, lower, printed):
    near, why = 0.025 if station > 50.0 else 0.011, "plotted and read by hand"
    heights = digits("2412").heights(station / 100.0)
    for side, ours, value in zip(("upper", "lower"), heights, (upper, lower), strict=True):
        row = f"{side} side at {station:g} % of the chord"
        printed(100.0 * ours, f"{value:.2f}", "%", row=row, within=near, why=why)
