"""The spring that keeps the roller on the cam: a helical compression spring with closed and ground ends."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from sim.exhibit.cam import FloatArray

WIRES_MM = (
    0.20, 0.22, 0.25, 0.28, 0.30, 0.32, 0.36, 0.40, 0.45, 0.50, 0.56, 0.63, 0.70, 0.80, 0.90, 1.00, 1.10, 1.25, 1.40,
    1.60, 1.80, 2.00,
)  # fmt: skip
"""Preferred sizes of spring wire among the nominal diameters of EN 10270-1. [mm]"""

SHEAR_MODULUS_PA = 81.5e9
"""Of patented cold-drawn wire, EN 13906-1. [Pa]"""
STRESS_SHARE = 0.45
"""Allowed share of the tensile strength in torsion, set not removed: Shigley, Mechanical Engineering Design."""
INDEX_RANGE = (4.0, 12.0)
"""Spring index a spring winder likes: Shigley, Mechanical Engineering Design, chapter 10."""
CLASH_SHARE = 0.15
"""Least clearance to solid as a share of the working compression: Shigley, chapter 10 (robust linearity)."""
SLENDER_LIMIT = 5.26
"""Largest free length over mean diameter between parallel plates, steel: Shigley, chapter 10."""
SWING_LIMIT_PA = 241e6
"""Largest alternating stress of unpeened spring wire for endless life, whatever the size: Zimmerli, in Shigley,
chapter 10. [Pa]"""
ENERGY_LIMIT_J = 0.25
"""This display's own limit for the energy a spring may hold. [J]"""
RATE_BAND = 0.05
"""How far the rate may lie from the one asked for, as a share."""


@dataclass(frozen=True, slots=True)
class SpringWish:
    """What the follower asks of its spring.

    Attributes
    ----------
    preload_n : float
        Force with the follower down. [N]
    rate_n_per_m : float
        Rate wished for. [N/m]
    travel_m : float
        Compression from follower down to follower up: the lift. [m]
    outer_space_m, length_space_m : float
        Largest outside diameter and longest free length there is room for. [m]
    """

    preload_n: float
    rate_n_per_m: float
    travel_m: float
    outer_space_m: float
    length_space_m: float


@dataclass(frozen=True, slots=True)
class Spring:
    """A spring as it would be ordered, and how it is worked.

    Attributes
    ----------
    wire_m, coil_m : float
        Wire diameter and mean coil diameter. [m]
    active_coils : float
        Coils that twist; two more are closed ends.
    rate_n_per_m : float
        Rate. [N/m]
    preload_n, full_force_n : float
        Force with the follower down and up. [N]
    free_length_m, solid_length_m : float
        Length unloaded and with all coils touching. [m]
    stress_pa : float
        Largest shear stress in the wire at full lift, curvature included. [Pa]
    allowed_stress_pa : float
        What the wire bears. [Pa]
    swing_stress_pa : float
        Half the difference between the stress with the follower up and down. [Pa]
    energy_j, rise_energy_j : float
        Energy held at full lift, and the part of it that a rise puts in. [J]
    clash : float
        Clearance to solid at full lift as a share of the working compression.
    """

    wire_m: float
    coil_m: float
    active_coils: float
    rate_n_per_m: float
    preload_n: float
    full_force_n: float
    free_length_m: float
    solid_length_m: float
    stress_pa: float
    allowed_stress_pa: float
    swing_stress_pa: float
    energy_j: float
    rise_energy_j: float
    clash: float

    @property
    def index(self) -> float:
        """Mean coil diameter over wire diameter."""
        return self.coil_m / self.wire_m

    @property
    def outer_m(self) -> float:
        """Outside diameter. [m]."""
        return self.coil_m + self.wire_m

    @property
    def slenderness(self) -> float:
        """Free length over mean coil diameter."""
        return self.free_length_m / self.coil_m


def wahl_factor(index: float | FloatArray) -> FloatArray:
    """Return the factor by which curvature and direct shear raise the stress in a coil of this spring index.

    References
    ----------
    Wahl: (4C − 1)/(4C − 4) + 0.615/C.

    Examples
    --------
    >>> round(float(wahl_factor(8.0)), 3)
    1.184
    """
    c = np.asarray(index, dtype=np.float64)
    factor: FloatArray = (4.0 * c - 1.0) / (4.0 * c - 4.0) + 0.615 / c
    return factor


def rate(
    wire_m: float | FloatArray,
    coil_m: float | FloatArray,
    active_coils: float | FloatArray,
    shear_modulus_pa: float = SHEAR_MODULUS_PA,
) -> FloatArray:
    """Return the rate G d⁴/(8 D³ n) of a round-wire spring. [N/m]."""
    stiff: FloatArray = shear_modulus_pa * np.asarray(wire_m) ** 4 / (8.0 * np.asarray(coil_m) ** 3 * active_coils)
    return stiff


def shear_stress(force_n: float | FloatArray, wire_m: float | FloatArray, coil_m: float | FloatArray) -> FloatArray:
    """Return the largest shear stress in the wire, with Wahl's factor: K 8 F D/(π d³). [Pa]."""
    index = np.asarray(coil_m) / wire_m
    stress: FloatArray = wahl_factor(index) * 8.0 * force_n * coil_m / (math.pi * np.asarray(wire_m) ** 3)
    return stress


def tensile_strength(wire_m: float | FloatArray) -> FloatArray:
    """Return the least tensile strength of music wire, 2211 MPa (d/mm)^−0.145, for 0.1 to 6.5 mm. [Pa].

    References
    ----------
    Shigley, Mechanical Engineering Design, table of constants A and m for spring wires.
    """
    strength: FloatArray = 2211e6 * (np.asarray(wire_m) * 1000.0) ** -0.145
    return strength


def wound(wish: SpringWish, wire_m: float, coil_m: float, active_coils: float) -> Spring:
    """Return the spring of these sizes, put to the follower's work; its free length goes up to the next half mm."""
    stiff = float(rate(wire_m, coil_m, active_coils))
    first = wish.preload_n / stiff
    working = first + wish.travel_m
    solid = wire_m * (active_coils + 2.0)
    free = math.ceil((solid + working * (1.0 + CLASH_SHARE)) * 2000.0 - 1e-9) / 2000.0
    full = wish.preload_n + stiff * wish.travel_m
    return Spring(
        wire_m=wire_m,
        coil_m=coil_m,
        active_coils=active_coils,
        rate_n_per_m=stiff,
        preload_n=wish.preload_n,
        full_force_n=full,
        free_length_m=free,
        solid_length_m=solid,
        stress_pa=float(shear_stress(full, wire_m, coil_m)),
        allowed_stress_pa=STRESS_SHARE * float(tensile_strength(wire_m)),
        swing_stress_pa=float(shear_stress(stiff * wish.travel_m, wire_m, coil_m)) / 2.0,
        energy_j=stiff * working**2 / 2.0,
        rise_energy_j=stiff * (working**2 - first**2) / 2.0,
        clash=(free - solid - working) / working,
    )


def choose(wish: SpringWish) -> Spring:
    """Return the lightest spring of preferred wire that meets every limit; failing that, the one that misses fewest.

    Every preferred wire is tried with every mean diameter in half millimetres and every number of active coils in
    halves from 3 to 20.

    Examples
    --------
    >>> spring = choose(SpringWish(4.0, 500.0, 0.006, 0.012, 0.040))
    >>> spring.stress_pa < spring.allowed_stress_pa
    True
    """
    wire, coil, active = np.meshgrid(
        np.array(WIRES_MM) / 1000.0,
        np.arange(0.002, max(0.0025, wish.outer_space_m) + 1e-9, 0.0005),
        np.arange(3.0, 20.25, 0.5),
        indexing="ij",
    )
    misses = _misses(wish, wire, coil, active)
    volume = wire**2 * coil * (active + 2.0)
    best = np.lexsort((volume.ravel(), misses.ravel()))[0]
    return wound(wish, *(float(grid.ravel()[best]) for grid in (wire, coil, active)))


def _misses(wish: SpringWish, wire: FloatArray, coil: FloatArray, active: FloatArray) -> FloatArray:
    """Return how many limits each spring of a grid misses; a wrong rate or index counts most, for it is no answer."""
    stiff = rate(wire, coil, active)
    working = wish.preload_n / stiff + wish.travel_m
    free = wire * (active + 2.0) + working * (1.0 + CLASH_SHARE) + 0.0005
    index = np.maximum(coil / wire, 1.5)
    strain = shear_stress(wish.preload_n + stiff * wish.travel_m, wire, index * wire)
    wrong = np.abs(stiff / wish.rate_n_per_m - 1.0) > RATE_BAND
    unwound = (index < INDEX_RANGE[0]) | (index > INDEX_RANGE[1])
    limits = (
        strain > STRESS_SHARE * tensile_strength(wire),
        shear_stress(stiff * wish.travel_m, wire, index * wire) / 2.0 > SWING_LIMIT_PA,
        coil + wire > wish.outer_space_m + 1e-9,
        free > wish.length_space_m,
        free / coil > SLENDER_LIMIT,
        stiff * working**2 / 2.0 > ENERGY_LIMIT_J,
    )
    missed: FloatArray = 10.0 * wrong + 10.0 * unwound + np.sum(limits, axis=0)
    return missed
