"""How long a signal takes along a link, a rod, a shaft or a column of oil, to a mass at its end.

A link is told by its kind, its length and its material, and the mass that it moves by a ratio: times follow from these,
and no part is sized.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin, sqrt
from typing import Final

ATMOSPHERE_PA: Final = 101325.0
AIR_KG_M3: Final = 1.204
"""Air at 20 °C and at that pressure."""
ADIABATIC: Final = 1.4
"""Exponent of air that a wave compresses: too quick for heat to leave it."""


@dataclass(frozen=True, slots=True)
class Material:
    """What rods, shafts and pipes are made of.

    Attributes
    ----------
    modulus_pa, shear_pa : float
        Elastic moduli in tension and in shear. [Pa]
    density_kg_m3 : float
        Density. [kg/m³]
    """

    modulus_pa: float
    shear_pa: float
    density_kg_m3: float


MATERIALS: Final = {
    "steel": Material(207e9, 79.3e9, 7850.0),
    "brass": Material(106e9, 40.1e9, 8530.0),
    "copper": Material(119e9, 44.7e9, 8910.0),
    "aluminium": Material(71e9, 26.2e9, 2700.0),
}
"""Budynas & Nisbett, Shigley's Mechanical Engineering Design, table A-5, from memory, densities rounded."""


@dataclass(frozen=True, slots=True)
class OilColumn:
    """Oil under pressure in a pipe, with bubbles.

    Attributes
    ----------
    modulus_pa, density_kg_m3 : float
        Bulk modulus and density of the oil without air. [Pa, kg/m³]
    pressure_pa : float
        Absolute pressure that stands in the column, as the reservoir keeps it. [Pa]
    air : float
        Volume of its bubbles at atmospheric pressure over that of the oil; they shrink with the pressure, at constant
        temperature. [-]
    pipe_ratio : float
        Bore of the pipe over the thickness of its wall; 0 for a wall that does not yield. [-]
    """

    modulus_pa: float = 1.5e9
    density_kg_m3: float = 870.0
    pressure_pa: float = ATMOSPHERE_PA
    air: float = 0.0
    pipe_ratio: float = 0.0


def solid_wave_m_s(kind: str, material: Material) -> float:
    """Return the speed of a wave in m/s: compression along a slender rod √(E/ρ), torsion along a round shaft √(G/ρ).

    Examples
    --------
    >>> round(solid_wave_m_s("rod", MATERIALS["steel"])), round(solid_wave_m_s("shaft", MATERIALS["steel"]))
    (5135, 3178)
    """
    return sqrt((material.modulus_pa if kind == "rod" else material.shear_pa) / material.density_kg_m3)


def oil_wave_m_s(oil: OilColumn, pipe: Material) -> float:
    """Return the speed of a pressure wave along a column of oil with bubbles in an elastic pipe, in m/s.

    Notes
    -----
    1/(ρ c²) = φ/(n p) + (1 − φ)/K + (d/w)/E, and ρ = φ ρ_air + (1 − φ) ρ_oil, with φ the share of the bubbles in the
    volume at the pressure p, n the adiabatic exponent, and d/w the bore of the pipe over its wall. Waves much longer
    than a bubble; a thin wall, free to slide along. A bubbly column is that of Wood; without bubbles it is Korteweg's.

    References
    ----------
    Wood, A Textbook of Sound, 1930 (bubbles); Korteweg, Ann. Phys. 241, 1878; Wylie & Streeter, Fluid Transients in
    Systems, 1993, sections 1.2 and 8 (pipe), all from memory.

    Examples
    --------
    >>> round(oil_wave_m_s(OilColumn(), MATERIALS["steel"]))
    1313
    """
    bubbles = oil.air * ATMOSPHERE_PA / oil.pressure_pa
    share = bubbles / (1.0 + bubbles)
    air_kg_m3 = AIR_KG_M3 * oil.pressure_pa / ATMOSPHERE_PA
    density_kg_m3 = share * air_kg_m3 + (1.0 - share) * oil.density_kg_m3
    yielding = share / (ADIABATIC * oil.pressure_pa) + (1.0 - share) / oil.modulus_pa
    return 1.0 / sqrt(density_kg_m3 * (yielding + oil.pipe_ratio / pipe.modulus_pa))


def signal_s(length_m: float, wave_m_s: float, mass_ratio: float) -> float:
    """Return the time that a link takes to move the mass at its end as far as its other end was moved, in seconds.

    Parameters
    ----------
    length_m, wave_m_s : float
        Length of the link, and speed of its wave, above 0. [m, m/s]
    mass_ratio : float
        Mass that it moves over its own; of a shaft, the ratio of moments of inertia. [-]

    Notes
    -----
    A quarter of the period of the lowest vibration, its near end held: (π/2) L/(β c) with β tan β = 1/ratio. Without a
    mass β = π/2, and that is L/c, when the wave arrives; with a great one it is the quarter period of a mass on a
    spring. Between them higher vibrations move the instant: beside the wave equation integrated with a
    sudden step it comes 8 % late at equal masses, 5 % early at three times the mass, and within 1.5 % below 0.01 and
    beyond 10.

    References
    ----------
    Rao, Mechanical Vibrations, 5th ed., section 8.3: bar with a mass at its end (from memory).

    Examples
    --------
    >>> round(1e3 * signal_s(1.5, 5000.0, 0.0), 6)
    0.3
    """
    return 0.5 * pi * length_m / (_lowest_root(mass_ratio) * wave_m_s)


def _lowest_root(mass_ratio: float) -> float:
    """Return the lowest β of β tan β = 1/ratio, by Newton's method on r β sin β − cos β from above."""
    beta = 0.5 * pi if mass_ratio < 1.0 else 1.0 / sqrt(mass_ratio)
    for _ in range(60):
        value = mass_ratio * beta * sin(beta) - cos(beta)
        step = value / (mass_ratio * (sin(beta) + beta * cos(beta)) + sin(beta))
        beta -= step
        if abs(step) < 1e-15 * beta:
            break
    return beta
