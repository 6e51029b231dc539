"""What one hand does to a display: bending of its shaft, load and life of its bearings, tipping."""

from __future__ import annotations

import math
from dataclasses import dataclass

YIELD_PA = 370e6
"""Of cold-drawn 1018 steel: Shigley, Mechanical Engineering Design, 8th edition, table A-20. [Pa]"""
MODULUS_PA = 207e9
"""Of steel. [Pa]"""
SHAFT_SAFETY = 1.5
HAND_N = 250.0
"""Pull or push of one hand at a grip that a visitor, of a hundred five, exceeds: own estimate from 200 to 300 N. [N]"""
GRAVITY_M_S2 = 9.80665
STATIC_SAFETY = 2.0
"""Least static safety of a bearing: ISO 76 asks 1 to 2 for smooth running."""
RATED_TURNS = 1_000_000
"""Turns for which the dynamic rating of a bearing is given: ISO 281."""
LEAST_TURNS = 10e6
"""Least rating life under one hand for ever: five hundred thousand visitors of twenty turns. Own limit."""
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


def rating_life(dynamic_n: float, load_n: float) -> float:
    """Return the turns that nine of ten ball bearings reach under a steady load across the shaft, (C/P)³ million.

    Parameters
    ----------
    dynamic_n, load_n : float
        Dynamic load rating, and load. [N]

    References
    ----------
    ISO 281, basic rating life of ball bearings.

    Examples
    --------
    >>> rating_life(16e3, 2e3)
    512000000.0
    """
    return RATED_TURNS * (dynamic_n / load_n) ** 3


def tipping_pull(mass_kg: float, *, arm_m: float, height_m: float) -> float:
    """Return the level pull that just tips what stands on an edge. [N].

    Parameters
    ----------
    mass_kg : float
        Mass. [kg]
    arm_m, height_m : float
        Centre of mass inward of the edge, and pull above it. [m]
    """
    return mass_kg * GRAVITY_M_S2 * arm_m / height_m
