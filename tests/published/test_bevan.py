"""T. Bevan, The Theory of Machines, chapter 2, Example 13 (p. 57).

An airscrew of 250 lb ft² at 1600 rpm; the airplane turns at 150 mph in a radius of 500 ft. Mark P: read in a
reproduction of the source and recomputed.
"""

import numpy as np
import pytest

from sim.rotor.couple import two_blade_factors
from sim.studies.couple import couple

LBF_FT, RPM = 4.4482216152605 * 0.3048, np.pi / 30
LB_FT2 = LBF_FT / 32.2  # the book's g, ft/s²


def airscrew(blades):
    return couple(
        polar_inertia_kg_m2=250 * LB_FT2,
        spin_rad_s=1600 * RPM,
        speed_m_s=150 * 0.44704,
        radius_m=500 * 0.3048,
        turn="left",
        blades=blades,
    )


def test_three_blades_make_a_steady_couple(printed):
    answer = airscrew(3)
    printed(answer.couple_n_m / LBF_FT, "572", "lb ft", row="couple, three blades")
    assert answer.peak_couple_n_m == answer.couple_n_m


def test_two_blades_peak(printed):
    """Twice the mean: 1145 lb ft."""
    printed(airscrew(2).peak_couple_n_m / LBF_FT, "1145", "lb ft", row="peak couple, two blades")


@pytest.mark.parametrize("angle_deg", [0, 30, 45, 60, 90, 135, 180])
def test_two_blades_at_an_angle(angle_deg, printed):
    """572 (1 − cos 2x) about the axis of the mean and 572 sin 2x about the axis across it (sense by our axes).

    572.4 unrounded, so twice the printed number is 0.8 off.
    """
    along, across = (airscrew(2).couple_n_m / LBF_FT * f for f in two_blade_factors(np.radians(angle_deg)))
    twice, why = np.radians(2 * angle_deg), "the book's 572 is 572.4 unrounded"
    mean, side = 572 * (1 - np.cos(twice)), -572 * np.sin(twice)
    printed(along, f"{round(mean)}", "lb ft", row=f"572 (1 − cos 2x) at x {angle_deg}°", within=1.2, why=why)
    printed(across, f"{round(side)}", "lb ft", row=f"572 sin 2x at x {angle_deg}°, our sense", within=1.2, why=why)
