"""The spring that keeps the roller on the cam: a helical compression spring with closed and ground ends."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.display.spring_wire import DENSITY_KG_M3, WIRES_MM, fatigue_safety, tensile_strength
from sim.units.convert import MM_PER_M

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray

HALF_MM_M = 0.5 / MM_PER_M
"""Steps of coil diameter and free length. [m]"""

SHEAR_MODULUS_PA = 81.5e9
"""Of patented cold-drawn wire, EN 13906-1. [Pa]"""
STRESS_FRACTION = 0.45
"""Allowed share of the tensile strength in torsion, set not removed: Shigley, Mechanical Engineering Design."""
INDEX_RANGE = (4.0, 12.0)
"""Spring index that is wound without difficulty: Shigley, Mechanical Engineering Design, chapter 10."""
CLASH_ALLOWANCE = 0.15
"""Least clash allowance, the clearance to solid over the working compression: Shigley, chapter 10."""
SLENDERNESS_LIMIT = 5.26
"""Largest free length over mean diameter between parallel plates, steel: Shigley, chapter 10."""
SOLID_SAFETY = 1.2
"""Least yield strength over stress when compressed solid: Shigley, chapter 10."""
FATIGUE_SAFETY = 1.5
"""Least safety against fatigue: that of Shigley's examples, chapter 10."""
SURGE_RATIO = 20.0
"""Least natural frequency over the frequency of the lift: fifteen to twenty, Shigley, chapter 10."""
ENERGY_LIMIT_J = 0.06
"""Most energy that the spring may hold, that of 50 g falling 12 cm: own limit, ten times a lamp switch's. [J]"""
RATE_TOLERANCE = 0.05
"""Largest relative error of the rate."""


@dataclass(frozen=True, slots=True)
class SpringRequirements:
    """What is required of the spring.

    Attributes
    ----------
    preload_n : float
        Force with the follower down. [N]
    rate_n_per_m : float
        Rate. [N/m]
    travel_m : float
        Compression from follower down to follower up: the lift. [m]
    outer_space_m, length_space_m : float
        Largest outside diameter and free length there is room for. [m]
    """

    preload_n: float
    rate_n_per_m: float
    travel_m: float
    outer_space_m: float
    length_space_m: float


@dataclass(frozen=True, slots=True)
class Spring:
    """A spring as it is ordered, and its loads.

    Attributes
    ----------
    wire_m, coil_m : float
        Wire diameter and mean coil diameter. [m]
    active_coils : float
        Active coils; two more are closed ends.
    rate_n_per_m : float
        Rate. [N/m]
    preload_n, full_force_n : float
        Force with the follower down and up. [N]
    free_length_m, solid_length_m : float
        Unloaded, and with all coils touching. [m]
    stress_pa : float
        Largest shear stress in the wire at full lift, curvature included. [Pa]
    allowed_stress_pa : float
        Allowed in the wire. [Pa]
    alternating_stress_pa, mean_stress_pa : float
        Half the difference, and half the sum, of the stresses with the follower up and down. [Pa]
    solid_safety, fatigue_safety : float
        Yield strength over stress with all coils touching; safety against fatigue for ever.
    natural_per_s : float
        Lowest natural frequency between its seats. [1/s]
    energy_j, rise_energy_j : float
        Energy held at full lift, and the part of it that a rise puts in. [J]
    clash_allowance : float
        Clearance to solid at full lift over the working compression.
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
    alternating_stress_pa: float
    mean_stress_pa: float
    solid_safety: float
    fatigue_safety: float
    natural_per_s: float
    energy_j: float
    rise_energy_j: float
    clash_allowance: float

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
    """Return the factor by which curvature and direct shear raise the stress in a coil of a spring index.

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


def natural_frequency(
    rate_n_per_m: float | FloatArray,
    wire_m: float | FloatArray,
    coil_m: float | FloatArray,
    active_coils: float | FloatArray,
) -> FloatArray:
    """Return the lowest natural frequency of a spring between two seats, ½ √(k/m) of its active coils. [1/s]."""
    mass = DENSITY_KG_M3 * math.pi**2 * np.asarray(wire_m) ** 2 * coil_m * active_coils / 4.0
    frequency: FloatArray = 0.5 * np.sqrt(rate_n_per_m / mass)
    return frequency


def wound(needs: SpringRequirements, wire_m: float, coil_m: float, active_coils: float) -> Spring:
    """Return the spring of these sizes under the follower's loads; its free length is a multiple of half a mm."""
    stiff = float(rate(wire_m, coil_m, active_coils))
    first = needs.preload_n / stiff
    working = first + needs.travel_m
    solid = wire_m * (active_coils + 2.0)
    free = math.ceil((solid + working * (1.0 + CLASH_ALLOWANCE)) / HALF_MM_M - 1e-9) * HALF_MM_M
    full = needs.preload_n + stiff * needs.travel_m
    down, up = (float(shear_stress(force, wire_m, coil_m)) for force in (needs.preload_n, full))
    alternating, mean = (up - down) / 2.0, (up + down) / 2.0
    allowed = STRESS_FRACTION * float(tensile_strength(wire_m))
    return Spring(
        wire_m=wire_m,
        coil_m=coil_m,
        active_coils=active_coils,
        rate_n_per_m=stiff,
        preload_n=needs.preload_n,
        full_force_n=full,
        free_length_m=free,
        solid_length_m=solid,
        stress_pa=float(shear_stress(full, wire_m, coil_m)),
        allowed_stress_pa=allowed,
        alternating_stress_pa=alternating,
        mean_stress_pa=mean,
        solid_safety=allowed / float(shear_stress(stiff * (free - solid), wire_m, coil_m)),
        fatigue_safety=float(fatigue_safety(alternating, mean, wire_m)),
        natural_per_s=float(natural_frequency(stiff, wire_m, coil_m, active_coils)),
        energy_j=stiff * working**2 / 2.0,
        rise_energy_j=stiff * (working**2 - first**2) / 2.0,
        clash_allowance=(free - solid - working) / working,
    )


def choose(needs: SpringRequirements) -> Spring:
    """Return the lightest spring of preferred wire that keeps every limit, or else the one that fails the fewest.

    Every preferred wire is tried with every mean diameter in half millimetres and every number of active coils in
    halves from 3 to 15.

    Examples
    --------
    >>> spring = choose(SpringRequirements(4.0, 500.0, 0.006, 0.012, 0.040))
    >>> spring.stress_pa < spring.allowed_stress_pa
    True
    """
    wire, coil, active = np.meshgrid(
        np.array(WIRES_MM) / MM_PER_M,
        np.arange(0.002, max(0.0025, needs.outer_space_m) + 1e-9, HALF_MM_M),
        np.arange(3.0, 15.25, 0.5),
        indexing="ij",
    )
    failed = _failures(needs, wire, coil, active)
    volume = wire**2 * coil * (active + 2.0)
    best = np.lexsort((volume.ravel(), failed.ravel()))[0]
    return wound(needs, *(float(grid.ravel()[best]) for grid in (wire, coil, active)))


def _failures(needs: SpringRequirements, wire: FloatArray, coil: FloatArray, active: FloatArray) -> FloatArray:
    """Return how many limits each spring of a grid fails; a wrong rate or index counts ten times."""
    stiff = rate(wire, coil, active)
    working = needs.preload_n / stiff + needs.travel_m
    free = wire * (active + 2.0) + working * (1.0 + CLASH_ALLOWANCE) + HALF_MM_M
    index = np.maximum(coil / wire, 1.5)
    down, up = (
        shear_stress(force, wire, index * wire) for force in (needs.preload_n, needs.preload_n + stiff * needs.travel_m)
    )
    solid = shear_stress(stiff * (free - wire * (active + 2.0)), wire, index * wire)
    wrong = np.abs(stiff / needs.rate_n_per_m - 1.0) > RATE_TOLERANCE
    unwound = (index < INDEX_RANGE[0]) | (index > INDEX_RANGE[1])
    limits = (
        up > STRESS_FRACTION * tensile_strength(wire),
        solid * SOLID_SAFETY > STRESS_FRACTION * tensile_strength(wire),
        fatigue_safety((up - down) / 2.0, (up + down) / 2.0, wire) < FATIGUE_SAFETY,
        coil + wire > needs.outer_space_m + 1e-9,
        free > needs.length_space_m,
        free / coil > SLENDERNESS_LIMIT,
        stiff * working**2 / 2.0 > ENERGY_LIMIT_J,
    )
    count: FloatArray = 10.0 * wrong + 10.0 * unwound + np.sum(limits, axis=0)
    return count
