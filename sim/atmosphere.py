"""The standard atmosphere up to 11 km: temperature, pressure and density."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Final

from sim.errors import refuse
from sim.units.registry import STANDARD_GRAVITY_M_S2
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.numerics.number import Number

SEA_LEVEL_K: Final = 288.15
SEA_LEVEL_PA: Final = 101325.0
SEA_LEVEL_KG_M3: Final = 1.225
LAPSE_K_M: Final = 0.0065
GRAVITY_M_S2: Final = float(STANDARD_GRAVITY_M_S2)
GAS_J_KG_K: Final = 287.05287
HEAT_RATIO: Final = 1.4
PRESSURE_POWER: Final = GRAVITY_M_S2 / (GAS_J_KG_K * LAPSE_K_M)
LOWEST_M: Final = -2000.0
HIGHEST_M: Final = 11000.0
_RATIO_PER_M: Final = LAPSE_K_M / SEA_LEVEL_K
_HALF_DENSITY_POWER: Final = (PRESSURE_POWER - 1.0) / 2.0


@dataclass(frozen=True, slots=True)
class Air:
    """The air at one height.

    Attributes
    ----------
    temperature_k : float
        [K]
    pressure_pa : float
        [Pa]
    density_kg_m3 : float
        [kg/m³]
    """

    temperature_k: float
    pressure_pa: float
    density_kg_m3: float

    @property
    def sound_m_s(self) -> float:
        """Speed of sound. [m/s]."""
        return sqrt(HEAT_RATIO * self.pressure_pa / self.density_kg_m3)

    @property
    def kinematic_viscosity_m2_s(self) -> float:
        """Kinematic viscosity. [m²/s]."""
        return viscosity_pa_s(self.temperature_k) / self.density_kg_m3


def air(altitude_m: float) -> Air:
    """Return the standard air at a height above sea level.

    Parameters
    ----------
    altitude_m : float
        Geopotential altitude, −2000 to 11 000; geometric height is more by 0.05 % at 3000 m. [m]

    Raises
    ------
    InputError
        Outside that range.

    References
    ----------
    ISO 2533, Standard Atmosphere, 1975.

    Examples
    --------
    >>> round(air(1000.0).density_kg_m3, 5)
    1.11164
    """
    if not LOWEST_M <= altitude_m <= HIGHEST_M:
        highest, came = (brief("altitude_m", height, digits=6) for height in (HIGHEST_M, altitude_m))
        refuse("altitude", f'must be {LOWEST_M:g} to {highest}, got "{came}"')
    warmth = 1.0 - _RATIO_PER_M * altitude_m
    return Air(
        temperature_k=SEA_LEVEL_K * warmth,
        pressure_pa=SEA_LEVEL_PA * warmth**PRESSURE_POWER,
        density_kg_m3=SEA_LEVEL_KG_M3 * density_ratio(altitude_m),
    )


def density_ratio(altitude_m: Number) -> Number:
    """Return the density over that at sea level, for one height, a row of heights, a complex or a symbolic one.

    Notes
    -----
    The square before the power keeps a wild trial step of an integrator real: the law turns up again only above
    88 km, and holds for −2000 to 11 000 m. Nothing is refused here.
    """
    warmth = 1.0 - _RATIO_PER_M * altitude_m
    return (warmth * warmth) ** _HALF_DENSITY_POWER


def viscosity_pa_s(temperature_k: float) -> float:
    """Return the dynamic viscosity of air at a temperature of 150 to 600 K (Sutherland). [Pa s].

    References
    ----------
    U.S. Standard Atmosphere, 1976, equation 51.
    """
    return float(1.458e-6 * temperature_k**1.5 / (temperature_k + 110.4))
