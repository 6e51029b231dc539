"""Forced convection: the heat transfer coefficient of a cylinder in a cross-flow of air."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log

from sim.atmosphere import viscosity_pa_s

GAS_J_KG_K = 287.05287
AIR_HEAT_J_KG_K = 1006.0
UNCERTAINTY = 0.2
"""Relative uncertainty of a heat transfer coefficient from such correlations."""


@dataclass(frozen=True, slots=True)
class AirProperties:
    """Transport properties of air at the film temperature, the mean of surface and free stream.

    Attributes
    ----------
    conductivity_w_m_k : float
        Thermal conductivity. [W/(m K)]
    kinematic_viscosity_m2_s : float
        Kinematic viscosity. [m²/s]
    prandtl : float
        Prandtl number.
    """

    conductivity_w_m_k: float
    kinematic_viscosity_m2_s: float
    prandtl: float


def air_properties(temperature_k: float, pressure_pa: float) -> AirProperties:
    """Return the transport properties of air.

    Parameters
    ----------
    temperature_k : float
        150 to 600. [K]
    pressure_pa : float
        Above 0. [Pa]

    References
    ----------
    U.S. Standard Atmosphere, 1976, equations 51 (viscosity) and 53 (conductivity): within 3 % of tables.

    Examples
    --------
    >>> round(air_properties(288.15, 101325.0).kinematic_viscosity_m2_s, 8)
    1.461e-05
    """
    viscosity = viscosity_pa_s(temperature_k)
    conductivity = 2.64638e-3 * temperature_k**1.5 / (temperature_k + 245.4 * exp(-12.0 * log(10.0) / temperature_k))
    density_kg_m3 = pressure_pa / (GAS_J_KG_K * temperature_k)
    return AirProperties(conductivity, viscosity / density_kg_m3, viscosity * AIR_HEAT_J_KG_K / conductivity)


def cylinder_nusselt(reynolds: float, prandtl: float) -> float:
    """Return the mean Nusselt number of a cylinder in cross-flow, on its diameter.

    Parameters
    ----------
    reynolds, prandtl : float
        Reynolds number on the diameter and Prandtl number; their product above 0.2.

    Notes
    -----
    Known error: ±20 %. Measured in streams of low turbulence; a propeller's slipstream is more turbulent and cools
    more.

    References
    ----------
    Churchill & Bernstein, J. Heat Transfer 99 (1977) 300.

    Examples
    --------
    >>> round(cylinder_nusselt(8.0 * 0.1 / 1.896e-5, 0.7202))
    124
    """
    laminar = 0.62 * reynolds**0.5 * prandtl ** (1.0 / 3.0) / (1.0 + (0.4 / prandtl) ** (2.0 / 3.0)) ** 0.25
    return float(0.3 + laminar * (1.0 + (reynolds / 282000.0) ** 0.625) ** 0.8)


def cylinder_coefficient_w_m2_k(
    *, width_m: float, speed_m_s: float, air_k: float, body_k: float, pressure_pa: float
) -> float:
    """Return the mean heat transfer coefficient of a cylinder in cross-flow, in W/(m² K).

    Parameters
    ----------
    width_m, speed_m_s : float
        Diameter, and speed of the air, above 0. [m, m/s]
    air_k, body_k : float
        Temperatures of the free stream and of the surface. [K]
    pressure_pa : float
        Static pressure. [Pa]

    Notes
    -----
    Radiation, below 5 W/(m² K), is left out; the known error of 20 % covers it except in nearly calm air.
    """
    air = air_properties(0.5 * (air_k + body_k), pressure_pa)
    nusselt = cylinder_nusselt(speed_m_s * width_m / air.kinematic_viscosity_m2_s, air.prandtl)
    return nusselt * air.conductivity_w_m_k / width_m
