"""R. L. Norton, Design of Machinery, chapter 8, and VDI 2143: peaks of the cam laws.

Unit rise over unit angle. Mark P for the modified sine and modified trapezoid; the others from memory and recomputed
from their equations. A tolerance of half a unit of the last printed digit.
"""

import math

import numpy as np
import pytest

from sim.display.rise_laws import LAWS, motion

SHARE = np.linspace(0.0, 1.0, 48_001)
ROWS = {
    "cycloidal": ("2.0000", "6.283", "39.478"),
    "3-4-5": ("1.875", "5.7735", "60.000"),
    "4-5-6-7": ("2.1875", "7.5132", "52.500"),
    "modified trapezoid": ("2.0000", "4.888124", "61.426"),
    "modified sine": ("1.759603", "5.527957", "69.466"),
    "simple harmonic": ("1.5708", "4.9348", "without bound"),
}


@pytest.mark.parametrize("name", ROWS)
def test_stated_peaks(name, printed):
    law = LAWS[name]
    stated = (law.velocity_peak, law.acceleration_peak, law.jerk_peak)
    mark = "P" if name.startswith("modified") else "M"
    for what, ours, value in zip(("velocity", "acceleration", "jerk"), stated, ROWS[name], strict=True):
        ours = "without bound" if math.isinf(ours) else ours
        printed(ours, value, row=f"{name}: peak {what}", mark=mark)


@pytest.mark.parametrize("name", ROWS)
def test_peaks_of_the_curves(name):
    _, velocity, acceleration, _ = motion(name, SHARE)
    assert velocity.max() == pytest.approx(LAWS[name].velocity_peak, abs=1e-6)
    assert np.abs(acceleration).max() == pytest.approx(LAWS[name].acceleration_peak, abs=1.5e-6)
