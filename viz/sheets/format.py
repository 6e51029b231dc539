"""Numbers for people, as `sim.units.text` writes them, and the words for signs that the sheets name."""

from __future__ import annotations

from sim.units.quantities import System, shown
from sim.units.text import amount, fixed, signed, significant

__all__ = ["PITCH", "ROLL", "ROTATION", "YAW", "Units", "amount", "fixed", "shown", "signed", "significant"]

Units = System

PITCH, YAW, ROLL = ("nose up", "nose down"), ("nose right", "nose left"), ("right wing down", "left wing down")
ROTATION = ("clockwise", "anticlockwise")
"""What positive and negative mean, for `signed`."""
