"""Bending and deflection of an overhung shaft, and the load on its bearings."""

from __future__ import annotations

import math
from dataclasses import dataclass

YIELD_PA = 370e6
"""Of cold-drawn 1018 steel: Shigley, Mechanical Engineering Design, table A-20. [Pa]"""
MODULUS_PA = 207e9
"""Of steel. [Pa]"""
SHAFT_SAFETY = 1.5
HAND_N = 250.0
"""Pull or push of one hand at a grip that a visitor, of a hundred five, exceeds: own estimate from 200 to 300 N. [N]"""
STATIC_SAFETY = 2.0
"""Least static safety of a bearing: ISO 76 asks 1 to 2 for smooth running."""
MOST_DEFLECTION_M = 0.001
"""Most deflection at the grip, for the clutch to stay flat: own limit. [m]"""


@dataclass(frozen=True, slots=True)
class Overhung:
    """A round shaft on two bearings with a force beyond one of them.

    Attributes
    ----------
    bent_pa : float
        Largest bending stress, at the bearing next to the force. [Pa]
    deflection_m : float
        Deflection where the force acts. [m]
    reaction_n : float
        Load on that bearing. [N]
    """

    bent_pa: float
    deflection_m: float
    reaction_n: float


def overhung(diameter_m: float, *, force_n: float, span_m: float, arm_m: float) -> Overhung:
    """Return stress, deflection and reaction of a shaft overhung by an arm beyond the nearer of two bearings.

    Parameters
    ----------
    diameter_m : float
        Diameter. [m]
    force_n : float
        Force across the shaft. [N]
    span_m, arm_m : float
        Between the bearings, and from the nearer one to the force. [m]

    Notes
    -----
    σ = 32 F a/(π d³), y = F a² (l + a)/(3 E I), R = F (l + a)/l.

    References
    ----------
    Shigley, Mechanical Engineering Design, table A-9, case 10.
    """
    second = math.pi * diameter_m**4 / 64.0
    return Overhung(
        bent_pa=32.0 * force_n * arm_m / (math.pi * diameter_m**3),
        deflection_m=force_n * arm_m**2 * (span_m + arm_m) / (3.0 * MODULUS_PA * second),
        reaction_n=force_n * (span_m + arm_m) / span_m,
    )
