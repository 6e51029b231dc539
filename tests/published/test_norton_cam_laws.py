"""R. L. Norton, Design of Machinery, chapter 8, and VDI 2143: peaks of the cam laws.

Unit rise over unit angle. Mark P for the modified sine and modified trapezoid; the others from memory and recomputed
from their equations. A tolerance of half a unit of the last printed digit.
"""

import math

import numpy as np
import pytest

from sim.exhibit.cam import LAWS, motion

SHARE = np.linspace(0.0, 1.0, 48_001)
ROWS = {
    "cycloidal": (2.0, 6.283, 39.478),
    "3-4-5": (1.875, 5.7735, 60.0),
    "4-5-6-7": (2.1875, 7.5132, 52.5),
    "modified trapezoid": (2.0, 4.888124, 61.426),
    "modified sine": (1.759603, 5.527957, 69.466),
    "simple harmonic": (1.5708, 4.9348, math.inf),
}
HALF_DIGIT = {
    "cycloidal": (5e-5, 5e-4, 5e-4),
    "3-4-5": (5e-4, 5e-5, 5e-4),
    "4-5-6-7": (5e-5, 5e-5, 5e-4),
    "modified trapezoid": (5e-5, 5e-7, 5e-4),
    "modified sine": (5e-7, 5e-7, 5e-4),
    "simple harmonic": (5e-5, 5e-5, 0.0),
}


@pytest.mark.parametrize("name", ROWS)
def test_stated_peaks(name):
    law = LAWS[name]
    stated = (law.velocity_peak, law.acceleration_peak, law.jerk_peak)
    for ours, printed, half in zip(stated, ROWS[name], HALF_DIGIT[name], strict=True):
        assert ours == printed or ours == pytest.approx(printed, abs=half)


@pytest.mark.parametrize("name", ROWS)
def test_peaks_of_the_curves(name):
    _, velocity, acceleration, _ = motion(name, SHARE)
    assert velocity.max() == pytest.approx(ROWS[name][0], abs=HALF_DIGIT[name][0])
    assert np.abs(acceleration).max() == pytest.approx(ROWS[name][1], abs=HALF_DIGIT[name][1] + 1e-6)
